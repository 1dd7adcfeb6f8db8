/**
 * Problems as SARIF, the format in which hosted pipelines take the results of checkers. Source: Static Analysis Results
 * Interchange Format (SARIF) Version 2.1.0 Plus Errata 01, OASIS Standard, 28 August 2023; sections are of that text.
 */
import type { Severity } from './diagnostic.ts';
import type { PlacedEdit, Problem } from './place.ts';

/** One kind of problem, for the list of rules. */
export interface SarifRule {
  readonly code: string;
  /** The part of the program it belongs to. */
  readonly subject: string;
  readonly severity: Severity;
  readonly about: string;
}

/** What a SARIF log is made from. */
export interface SarifInput {
  readonly problems: readonly Problem[];
  readonly rules: readonly SarifRule[];
  /** Of Reedway. */
  readonly version: string;
  /** The absolute address of the folder that all paths are relative to, with a slash at its end. */
  readonly root: string;
  /** The path of a problem’s file below that folder, with forward slashes; empty for the folder itself. */
  readonly pathOf: (file: string) => string;
  /** Whether a file was read as text, so that lines and columns are places in it. */
  readonly isText: (file: string) => boolean;
}

const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';
/** The name of the folder that addresses are relative to (§3.4.4); hosted pipelines know it as the top of the repository. */
const ROOT = '%SRCROOT%';
const LEVELS = { error: 'error', warning: 'warning', hint: 'note' } as const satisfies Record<Severity, string>;

/** A log of one run (§3.13). */
export function sarifOf(input: SarifInput) {
  const { problems, rules, version, root } = input;
  const indices = new Map(rules.map(({ code }, index) => [code, index]));
  return {
    $schema: SCHEMA,
    version: '2.1.0' as const,
    runs: [
      {
        tool: { driver: { name: 'Reedway', semanticVersion: version, rules: rules.map(ruleOf) } },
        columnKind: 'utf16CodeUnits' as const,
        newlineSequences: ['\r\n', '\n', '\r'],
        originalUriBaseIds: { [ROOT]: { uri: root } },
        results: problems.map((problem) => resultOf(problem, indices.get(problem.code), input)),
      },
    ],
  };
}

const ruleOf = ({ code, subject, severity, about }: SarifRule) => ({
  id: code,
  shortDescription: messageOf(firstSentence(about)),
  fullDescription: messageOf(about),
  help: messageOf(`${about} reedway messages ${code} prints this.`),
  defaultConfiguration: { level: LEVELS[severity] },
  properties: { tags: [subject] },
});

/** A result (§3.27), with its fix (§3.55) where it has one. */
function resultOf(problem: Problem, ruleIndex: number | undefined, input: SarifInput) {
  const { file, code, severity, message, help, fix } = problem;
  const artifactLocation = { uri: uriPath(input.pathOf(file)), uriBaseId: ROOT };
  const region = input.isText(file) ? { region: regionOf(problem) } : {};
  return {
    ruleId: code,
    ...(ruleIndex === undefined ? {} : { ruleIndex }),
    level: LEVELS[severity],
    message: messageOf(help === undefined ? message : `${message} ${help}`),
    locations: [{ physicalLocation: { artifactLocation, ...region } }],
    ...(fix === undefined
      ? {}
      : {
          fixes: [
            {
              ...(help === undefined ? {} : { description: messageOf(help) }),
              artifactChanges: [{ artifactLocation, replacements: fix.edits.map(replacementOf) }],
              properties: { certain: fix.certain },
            },
          ],
        }),
  };
}

/** `endColumn` is behind the last character here as well (§3.30.8); a region without a character is a place between two. */
const regionOf = ({ line, column, endLine, endColumn }: Omit<PlacedEdit, 'text'>) => ({
  startLine: line,
  startColumn: column,
  endLine,
  endColumn,
});

const replacementOf = ({ text, ...place }: PlacedEdit) => ({
  deletedRegion: regionOf(place),
  ...(text === '' ? {} : { insertedContent: { text } }),
});

/** A message (§3.11): braces would be placeholders (§3.11.5), and brackets before parentheses a link (§3.11.6). */
const messageOf = (text: string) => ({
  text: text.replace(/[{}]/g, '$&$&').replace(/\[(?=[^\]]*\]\()/g, '\\['),
});

const firstSentence = (text: string): string => /^.*?[.!?](?= |$)/s.exec(text)?.[0] ?? text;

/** A path as a relative address (RFC 3986, sections 2.1 and 4.2): no step of it can be read as a scheme or end the path. */
const uriPath = (path: string): string =>
  path === '' ? './' : path.toWellFormed().split('/').map(encodeURIComponent).join('/');
