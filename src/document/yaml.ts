/**
 * YAML read for people: every scalar stays the text the author wrote (`60:40`, `092`, `no`), and every key and value
 * keeps its place. What a text means is for the schema that reads it.
 */
import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Pair,
  parseDocument,
  type Scalar,
  type YAMLError,
} from 'yaml';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextEdit, TextSpan } from '../diagnostics/diagnostic.ts';
import { applyEdits, editsFit } from '../diagnostics/edit.ts';
import { type Placed, pointAt, type SourceRange } from '../diagnostics/place.ts';
import { DOCUMENT_PROBLEMS } from './problems.ts';
import { mistakeInLines } from './yaml-lines.ts';
import type { YamlMistake } from './yaml-plain.ts';

/** Texts, lists and records of them; undefined for a value left empty. */
export type YamlValue = string | undefined | readonly YamlValue[] | { readonly [key: string]: YamlValue };

/** Where an entry is in the text. */
export interface YamlSpans {
  readonly key?: TextSpan;
  readonly value: TextSpan;
}

/** A YAML document with the place of every entry. */
export interface YamlRead {
  readonly value: YamlValue;
  /** By path, its steps joined with `/` (`stages/0/id`); the whole document is ''. */
  readonly spans: ReadonlyMap<string, YamlSpans>;
  readonly diagnostics: readonly Diagnostic[];
  /** The text of the file, in which the spans are. */
  readonly source: string;
}

/** The same places in the file. */
export type YamlPlaces = ReadonlyMap<string, { readonly key?: SourceRange; readonly value: SourceRange }>;

const report = reporter(DOCUMENT_PROBLEMS);

/** Reads the YAML that is from `from` to `to` in a file's text. Spans count from the start of the file. */
export function readYaml(source: string, from = 0, to = source.length): YamlRead {
  // The library takes a carriage return alone for a character of its line.
  const text = source.slice(from, to).replace(/\r(?!\n)/g, '\n');
  // The library may count on to a place behind the last character.
  const inFile = (at: number): number => from + Math.min(at, text.length);
  const shift = (start: number, end: number): TextSpan => ({ from: inFile(start), to: inFile(Math.max(start, end)) });
  const diagnostics: Diagnostic[] = [];
  const spans = new Map<string, YamlSpans>();
  // The failsafe schema knows no numbers, booleans or dates: all scalars are text.
  const document = parse(text);
  const whole = shift(0, text.trimEnd().length);
  spans.set('', { value: whole });
  if (!document) {
    diagnostics.push(report('yaml-syntax', whole, TOO_DEEP));
    return { value: undefined, spans, diagnostics, source };
  }
  // What follows the first syntax error is mostly caused by it. A repeated key is found below, where its whole name is known.
  const mistake = [...document.errors, ...document.warnings].find(({ code }) => code !== 'DUPLICATE_KEY');
  const inLines = mistakeBehind(text, document, mistake);
  if (inLines) diagnostics.push(reported(inLines));
  else if (mistake) diagnostics.push(report('yaml-syntax', mistakeSpan(mistake), syntaxFacts(mistake, text)));
  const value = convert(document.contents, '', whole);
  return { value, spans, diagnostics, source };

  function reported({ span, what, fix, edits, orElse }: YamlMistake): Diagnostic {
    const inSource = ({ from: start, to: end }: TextSpan): TextSpan => shift(start, end);
    const facts = { what, fix };
    if (!edits || !editsFit(text, edits)) return report('yaml-syntax', inSource(span), facts);
    const certain = removes(text, edits, span);
    if (!certain && orElse && removes(text, orElse, span)) return reported({ span, what, fix, edits: orElse });
    const placed = edits.map((one) => ({ ...one, span: inSource(one.span) }));
    return report('yaml-syntax', inSource(span), facts, { edits: placed, certain });
  }

  function mistakeSpan({ code, pos: [start, end] }: YAMLError): TextSpan {
    // Two colons: the whole value is what has to be quoted.
    const line = code === 'BLOCK_AS_IMPLICIT_KEY' ? /^[^\r\n]*/.exec(text.slice(start))?.[0].trimEnd() : undefined;
    return shift(start, line === undefined ? end : start + line.length);
  }

  function convert(node: unknown, path: string, fallback: TextSpan, key?: TextSpan): YamlValue {
    const range = isNode(node) ? node.range : undefined;
    const span = range && range[1] > range[0] ? shift(range[0], range[1]) : fallback;
    if (path !== '') spans.set(path, key ? { key, value: span } : { value: span });
    if (isMap(node)) {
      const record: Record<string, YamlValue> = Object.create(null);
      for (const pair of node.items) convertPair(pair, path, record);
      return record;
    }
    if (isSeq(node)) return node.items.map((item, index) => convert(item, stepInto(path, index), span));
    if (isAlias(node)) {
      if (!inLines && !mistake) diagnostics.push(report('yaml-syntax', span, ALIAS));
      return undefined;
    }
    return isScalar(node) ? textOf(node) : undefined;
  }

  function convertPair(pair: Pair, path: string, record: Record<string, YamlValue>): void {
    const node = pair.key;
    if (!isScalar(node) || !node.range) return;
    const key = String(node.value);
    const keySpan = shift(node.range[0], node.range[1]);
    if (key in record) {
      // After a syntax error, keys may be read as siblings that are not.
      if (!mistake && !inLines) diagnostics.push(report('key-twice', keySpan, { key }));
      return;
    }
    // Objects of the program would lose such a key without a word.
    if (key === '__proto__') {
      diagnostics.push(report('key-reserved', keySpan, { key }));
      return;
    }
    const value = convert(pair.value, stepInto(path, key), keySpan, keySpan);
    record[key] = value;
    const sharp = strayComment(text, node, pair.value);
    if (sharp)
      diagnostics.push(
        report('yaml-comment', shift(...sharp), { key, value: typeof value === 'string' ? value : undefined }),
      );
  }
}

/** The mistake that the reader of YAML came upon, or took for something else, where the lines show it. */
function mistakeBehind(text: string, document: Document, mistake: YAMLError | undefined): YamlMistake | undefined {
  const found = mistakeInLines(text);
  if (!found) return undefined;
  if (!mistake) return found.silent || (found.edits && isScalar(document.contents)) ? found : undefined;
  // A line too far to the right is noticed at the value that it seems to go on with.
  if (/^(?:BLOCK_AS|MULTILINE)_IMPLICIT_KEY$/.test(mistake.code)) return found;
  const end = text.indexOf('\n', mistake.pos[0]);
  return end < 0 || found.span.from <= end ? found : undefined;
}

/** Whether edits leave no mistake, or only others further down. */
function removes(text: string, edits: readonly TextEdit[], { from }: TextSpan): boolean {
  const edited = applyEdits(text, edits);
  const next = mistakeInLines(edited);
  const end = edited.indexOf('\n', from);
  if (next) return end >= 0 && next.span.from > end;
  const document = parse(edited);
  return (
    document !== undefined && [...document.errors, ...document.warnings].every(({ code }) => code === 'DUPLICATE_KEY')
  );
}

/** Undefined for what is nested deeper than the reader can follow. The failsafe schema takes every scalar as text. */
function parse(text: string): Document | undefined {
  try {
    // Repeated keys are found below; the library would compare each key with all before it.
    return parseDocument(text, { schema: 'failsafe', prettyErrors: false, logLevel: 'error', uniqueKeys: false });
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

const stepInto = (path: string, step: string | number): string => (path === '' ? `${step}` : `${path}/${step}`);

/** Plain `~`, `null` and nothing at all mean that no value is given. */
function textOf(scalar: Scalar): string | undefined {
  const text = String(scalar.value);
  return scalar.type === 'PLAIN' && (text === '' || text === '~' || text === 'null') ? undefined : text;
}

/**
 * A `#` that hides a value or a part of it (`harp: #F`, `title: Take #2`, `chords: I7 | #IVdim7`) or is bare after one
 * (`harp: F #`): YAML begins a comment there, and the author hardly meant one, which would have a space after its `#`.
 */
function strayComment(text: string, key: Scalar, value: unknown): [number, number] | undefined {
  if (value !== null && !isScalar(value)) return undefined;
  if (isScalar(value) && value.type !== 'PLAIN') return undefined;
  const written = isScalar(value) && String(value.value) !== '';
  const start = written ? (value.range?.[1] ?? 0) : text.indexOf(':', key.range?.[1] ?? 0) + 1;
  const line = /^[^\S\r\n]*(#[^\r\n]*)?/.exec(text.slice(start, start + 400));
  const comment = line?.[1]?.trimEnd();
  if (!line || !comment) return undefined;
  const at = start + line[0].indexOf('#');
  return (written && comment === '#') || /^#[^\s#]/.test(comment) ? [at, at + comment.length] : undefined;
}

interface SyntaxFacts {
  readonly what: string;
  readonly fix?: string;
}

const TOO_DEEP: SyntaxFacts = { what: 'Brackets or lists are nested deeper here than anything in a course is.' };

const ALIAS: SyntaxFacts = {
  what: 'A value that starts with * refers to another place of the file, which course files do not use.',
  fix: 'Quote the value: "*…".',
};

/** The mistakes authors make most, by the YAML reader's code, in their own terms. */
const MISTAKES: Readonly<Record<string, SyntaxFacts>> = {
  BLOCK_AS_IMPLICIT_KEY: {
    what: 'A second colon in this line makes YAML see a key inside a value.',
    fix: 'Quote the value: title: "Bends: the first".',
  },
  MULTILINE_IMPLICIT_KEY: { what: 'This line is no “key: value”.', fix: 'Write a colon and a space after the key.' },
  TAB_AS_INDENT: { what: 'This line is indented with a tab, which YAML does not allow.', fix: 'Indent with spaces.' },
  BAD_SCALAR_START: { what: 'A value may not start with this character.', fix: 'Quote the value.' },
  BAD_INDENT: { what: 'This line is not indented as the lines around it, or a bracket before it is not closed.' },
  MULTIPLE_DOCS: { what: 'A line of --- begins a second document.', fix: 'Keep everything in one.' },
  TAG_RESOLVE_FAILED: {
    what: 'A value that starts with ! names a type, which course files do not use.',
    fix: 'Quote the value.',
  },
  MISSING_CHAR: { what: 'A quotation mark or a colon is missing.' },
};

const INDENTED: SyntaxFacts = {
  what: 'A line below is indented further than this one, so it is read as continuing from it.',
  fix: 'Begin each key of a group as far left as the one before it.',
};

const BAR_FIRST: SyntaxFacts = {
  what: 'A value that begins with | or > is read as a text of several lines.',
  fix: 'Quote the value, or leave the first bar line out: chords: I7 | IV7.',
};

function syntaxFacts(error: YAMLError, text: string): SyntaxFacts {
  const line = /^[^\r\n]*/.exec(text.slice(error.pos[0]))?.[0] ?? '';
  if (error.code === 'BLOCK_AS_IMPLICIT_KEY' && !/:(?:\s|$)/.test(line)) return INDENTED;
  const mistake = /:[ \t]+[|>][ \t]+$/.test(text.slice(0, error.pos[0])) ? BAR_FIRST : MISTAKES[error.code];
  if (mistake) return mistake;
  const message = error.message.split('\n')[0] ?? error.message;
  return {
    what: `This cannot be read as YAML: ${message.charAt(0).toLowerCase()}${message.slice(1).replace(/\.?$/, '.')}`,
    fix: 'A value that begins with | > - [ { & * ! % @ or a quotation mark, or that has a colon in it, must be quoted.',
  };
}

/** Turns the offsets of YAML keys and values into lines and columns of their file. */
export function yamlPlaces(spans: ReadonlyMap<string, YamlSpans>, placed: Placed): YamlPlaces {
  const range = ({ from, to }: TextSpan): SourceRange => ({ start: pointAt(placed, from), end: pointAt(placed, to) });
  return new Map(
    [...spans].map(([path, { key, value }]) => [
      path,
      key ? { key: range(key), value: range(value) } : { value: range(value) },
    ]),
  );
}

/**
 * What a map by path says of a path, or of the nearest place above it that was written. A list's only item may be
 * without its dash, and then has its list's place.
 */
export function nearestPlace<T>(places: ReadonlyMap<string, T>, path: readonly PropertyKey[]): T | undefined {
  let at = '';
  for (const step of path) {
    const next = stepInto(at, String(step));
    if (places.has(next)) at = next;
    else if (step !== 0) break;
  }
  return places.get(at);
}
