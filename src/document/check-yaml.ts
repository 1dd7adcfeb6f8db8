/** Checks what YAML read against a schema of `schema.ts`: each problem is a diagnostic at the key or value it is about. */
import type { z } from 'zod';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, Fix, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../diagnostics/edit.ts';
import { excerpt } from '../diagnostics/excerpt.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { append } from '../values/append.ts';
import { type AuthoredFile, keyCalled, placeOfKey } from './file-keys.ts';
import { DOCUMENT_PROBLEMS } from './problems.ts';
import { type IssueParams, plainWord } from './schema.ts';
import { fieldOf } from './unknown.ts';
import { nearestPlace, type YamlRead } from './yaml.ts';
import { asQuoted } from './yaml-value.ts';

const report = reporter(DOCUMENT_PROBLEMS);

/** A document that was checked against a schema. */
export interface Checked<Value> {
  /** What could be read: a key whose value is wrong is as if it were not there, and so is a named entry of a group. */
  readonly value: Value;
  /** The keys that were left out, or of which something was. */
  readonly wrong: ReadonlySet<string>;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Checks what YAML read against a schema; every issue becomes a diagnostic at the key or value it is about.
 * `fallback` replaces required keys that are missing, and fits the schema itself. `file` is which of a course's files it is.
 */
export function checkYaml<Schema extends z.ZodType>(
  schema: Schema,
  read: YamlRead,
  fallback: Readonly<Record<string, string>>,
  file?: AuthoredFile,
): Checked<z.output<Schema>> {
  const written = read.value ?? {};
  const wrong = new Set<string>();
  const issues: z.core.$ZodIssue[] = [];
  let remaining: object = typeof written === 'object' ? written : {};
  let result = schema.safeParse(written);
  // Each round leaves out what the last one found wrong, so that what depends on several keys is checked as well.
  while (!result.success) {
    const found = result.error.issues.flatMap(topKeys);
    for (const key of found) wrong.add(key);
    // What was left out may be missed then, which is the same mistake.
    const known = new Set(issues.map(({ path }) => pathOf(path)));
    append(
      issues,
      result.error.issues.filter(({ path }) => path.length === 0 || !known.has(pathOf(path))),
    );
    remaining = found.length === 0 ? {} : withoutWrong(remaining, result.error.issues);
    result = schema.safeParse({ ...fallback, ...remaining });
  }
  // After a syntax error, what was read is not what the author wrote.
  const misread = read.diagnostics.some(({ code }) => code === 'yaml-syntax');
  const missing = Map.groupBy(
    issues.filter(({ path }) => isMissing(path, read) && !read.spans.has(pathOf(path))),
    ({ path }) => pathOf(path.slice(0, -1)),
  );
  const near = (key: string, known: readonly string[], path: readonly PropertyKey[]): string | undefined =>
    meantBy(
      key,
      known,
      (missing.get(pathOf(path)) ?? []).map((one) => String(one.path.at(-1))),
      (name) => fieldOf(valueAtPath(read, path), name) === undefined,
    );
  const meant = new Set(issues.flatMap((issue) => meantKeys(issue, near)));
  const diagnostics = misread ? [] : issues.flatMap((issue) => diagnosticsOf(issue, { read, meant, near, file }));
  return { value: result.data, wrong, diagnostics };
}

/** Leaves out the keys that have an issue; of a group whose names are the author's only the entries that have one. */
function withoutWrong(written: object, issues: readonly z.core.$ZodIssue[]): object {
  const keys = new Set<string>();
  /** Names of entries, by the key of their group. */
  const entries = new Map<string, Set<string>>();
  for (const issue of issues) {
    const [name] = issue.path.slice(1).map(String);
    for (const key of topKeys(issue)) {
      const group = fieldOf(written, key);
      if (name === undefined || !isGroup(group) || !Object.hasOwn(group, name)) keys.add(key);
      else entries.set(key, (entries.get(key) ?? new Set()).add(name));
    }
  }
  const remaining = Object.entries(written).flatMap(([key, value]: [string, unknown]): [string, unknown][] => {
    const wrong = entries.get(key);
    if (keys.has(key)) return [];
    return [[key, wrong && isGroup(value) ? without(value, wrong) : value]];
  });
  return Object.fromEntries(remaining);
}

const without = (group: object, names: ReadonlySet<string>): object =>
  Object.fromEntries(Object.entries(group).filter(([name]) => !names.has(name)));

const isGroup = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const topKeys = (issue: z.core.$ZodIssue): string[] =>
  issue.code === 'unrecognized_keys' && issue.path.length === 0 ? issue.keys : issue.path.slice(0, 1).map(String);

const pathOf = (path: readonly PropertyKey[]): string => path.map(String).join('/');

type Near = (key: string, known: readonly string[], path: readonly PropertyKey[]) => string | undefined;

/** The key that an unknown one is probably meant to be: one like it, one of the same meaning, or the only one that is missing. */
function meantBy(
  key: string,
  known: readonly string[],
  missing: readonly string[],
  isMissing: (key: string) => boolean,
): string | undefined {
  const unspaced = /^([\w-]+):/.exec(key)?.[1];
  if (unspaced !== undefined && known.includes(unspaced)) return unspaced;
  const called = keyCalled(key, known);
  const isFree = called !== undefined && isMissing(called);
  return nearest(key, known) ?? (isFree ? called : missing.length === 1 ? missing[0] : called);
}

/** The paths of keys that unknown ones were probably meant to be. */
function meantKeys(issue: z.core.$ZodIssue, near: Near): string[] {
  if (issue.code !== 'unrecognized_keys') return [];
  return issue.keys.flatMap((key) => {
    const meant = near(key, issue.message.split(' '), issue.path);
    return meant === undefined ? [] : [pathOf([...issue.path, meant])];
  });
}

interface Scope {
  readonly read: YamlRead;
  readonly meant: ReadonlySet<string>;
  readonly near: Near;
  readonly file: AuthoredFile | undefined;
}

function unknownKey(key: string, path: readonly PropertyKey[], known: readonly string[], scope: Scope): Diagnostic {
  const { read, near, file } = scope;
  const span = spanAt(read, [...path, key], 'key');
  const value = fieldOf(valueAtPath(read, path), key);
  const elsewhere = file === undefined || path.length > 0 ? undefined : placeOfKey(key, file);
  const meant = near(key, known, path);
  // A list named almost as a key of a single text is the list of the other file.
  const belongs = meant !== undefined && typeof value === 'string' && nearest(key, known) ? undefined : elsewhere;
  const unspaced = meant !== undefined && key.startsWith(`${meant}:`) ? key.slice(meant.length + 1) : undefined;
  const facts = {
    key: excerpt(key),
    nearest: belongs === undefined ? meant : undefined,
    known,
    belongs,
    spaced: unspaced === undefined ? undefined : `${meant}: ${excerpt(unspaced)}`,
  };
  const isFree = meant !== undefined && fieldOf(valueAtPath(read, path), meant) === undefined;
  const isLetterForLetter = read.source.slice(span.from, span.to) === key;
  if (!isFree || belongs !== undefined || !isLetterForLetter) return report('key-unknown', span, facts);
  if (unspaced !== undefined) {
    const at = span.from + (meant?.length ?? 0) + 1;
    return report('key-unknown', span, facts, certainly({ from: at, to: at }, ' '));
  }
  return plainWord(key) === meant
    ? report('key-unknown', span, facts, certainly(span, meant))
    : report('key-unknown', span, facts);
}

/** What the value at a path is. */
function valueAtPath(read: YamlRead, path: readonly PropertyKey[]): unknown {
  let value: unknown = read.value;
  for (const step of path) value = step === 0 && !Array.isArray(value) ? value : fieldOf(value, step);
  return value;
}

function diagnosticsOf(issue: z.core.$ZodIssue, scope: Scope): Diagnostic[] {
  const { read, meant } = scope;
  if (issue.code === 'unrecognized_keys') {
    const known = issue.message.split(' ');
    return issue.keys.map((key) => unknownKey(key, issue.path, known, scope));
  }
  // A path ends in the number of a list's item where the item itself is wrong: its list's key names it.
  const key = excerpt(`${issue.path.filter((step) => typeof step === 'string').at(-1) ?? ''}`);
  const params: IssueParams = issue.code === 'custom' ? (issue.params ?? {}) : {};
  if (isMissing(issue.path, read)) {
    const path = pathOf(issue.path);
    // A key that is missing because its name has a mistake in it is reported as that mistake.
    if (meant.has(path)) return [];
    const written = read.spans.get(path);
    const span = written?.key ?? startOf(spanAt(read, issue.path.slice(0, -1), 'value'));
    const comment = written && commentBehind(read.source, written.value);
    return [report('key-missing', span, { key, empty: written !== undefined, comment })];
  }
  const isEntry = params.each || (issue.code === 'invalid_type' && typeof issue.path.at(-1) === 'number');
  const subject = key === '' ? 'This file' : `${isEntry ? 'Each entry of ' : ''}“${key}”`;
  const message = params.whole ? issue.message : `${subject} ${issue.message}.`;
  const span = spanAt(read, issue.path, params.key ? 'key' : 'value');
  // A list at the top of a file lacks the line that says what it is a list of.
  const named =
    span.from === read.spans.get('')?.value.from && Array.isArray(read.value)
      ? /with (?:\w+, )?(\w+)$/.exec(issue.message)?.[1]
      : undefined;
  const quoted = issue.code === 'invalid_type' ? colonInText(issue, read, span) : undefined;
  const wrapped = named === undefined ? params.help : `Begin the file with a line “${named}:” above the list.`;
  const help = quoted?.help ?? wrapped;
  return [report('value-wrong', span, { message, help }, quoted?.fix ?? fixOf(params, span))];
}

const fixOf = ({ instead, certain }: IssueParams, span: TextSpan): Fix | undefined =>
  instead === undefined ? undefined : certain ? certainly(span, instead) : perhaps(span, instead);

/** An item of a list of texts that YAML takes for a key and its value, for the colon in it. */
function colonInText(issue: z.core.$ZodIssue, read: YamlRead, span: TextSpan): { help: string; fix: Fix } | undefined {
  const value = valueAtPath(read, issue.path);
  const written = read.source.slice(span.from, span.to).trimEnd();
  if (!('expected' in issue) || issue.expected !== 'string' || typeof value !== 'object' || Array.isArray(value))
    return undefined;
  if (!Array.isArray(valueAtPath(read, issue.path.slice(0, -1)))) return undefined;
  if (typeof issue.path.at(-1) !== 'number' || /[\r\n]/.test(written) || !/^[^\s:{[]/.test(written)) return undefined;
  const said = asQuoted(written);
  const place = { from: span.from, to: span.from + written.length };
  return {
    help: `The colon in it makes it a key and a value. Quote it: ${excerpt(said)}`,
    fix: certainly(place, said),
  };
}

/** The comment that stands in the place of a value. */
function commentBehind(source: string, key: TextSpan): string | undefined {
  const comment = /^:[ \t]*#[ \t]+(\S[^\r\n]*)/.exec(source.slice(key.to, key.to + 200))?.[1];
  return comment === undefined ? undefined : excerpt(comment.trim());
}

function spanAt(read: YamlRead, path: readonly PropertyKey[], which: 'key' | 'value'): TextSpan {
  const spans = nearestPlace(read.spans, path);
  return spans?.[which] ?? spans?.value ?? { from: 0, to: 0 };
}

const startOf = (span: TextSpan): TextSpan => ({ from: span.from, to: span.from });

function isMissing(path: readonly PropertyKey[], read: YamlRead): boolean {
  let value: unknown = read.value ?? {};
  for (const step of path) {
    // The only item of a list may be without its dash.
    if (step === 0 && !Array.isArray(value)) continue;
    value = fieldOf(value, step);
  }
  return path.length > 0 && value === undefined;
}
