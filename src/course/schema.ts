/** The pieces course files' schemas are made of. Each reads text as YAML left it (see yaml.ts) and says what it wanted. */
import { z } from 'zod';
import { type Diagnostic, reporter, type Span } from '../diagnostics/diagnostic.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { COURSE_PROBLEMS } from './problems.ts';
import { nearestPlace, type YamlRead } from './yaml.ts';

const report = reporter(COURSE_PROBLEMS);

/** How an issue of ours is told, beyond its message. */
interface Telling {
  readonly help?: string | undefined;
  /** The message is a whole sentence; otherwise it goes on from “key”. */
  readonly whole?: boolean;
  /** It is about the key, not its value. */
  readonly key?: boolean;
  /** It is about what each entry of a list has to be. */
  readonly each?: boolean;
}

const wants = (what: string) => ({ error: () => what });

export const text = z.string(wants('takes a text, not a list or a group of keys')).trim().min(1, wants('is empty'));

/** One of a few words. */
export const word = <const Word extends string>(words: readonly Word[]) =>
  text.transform((written, context): Word => {
    const found = words.find((one) => one === written);
    if (found !== undefined) return found;
    return refuse(context, `is one of ${words.join(', ')}, not “${shown(written)}”`, {
      help: didYouMean(written, words),
    });
  });

export const yesOrNo = text.transform((written, context): boolean => {
  if (/^(true|yes)$/i.test(written)) return true;
  if (/^(false|no)$/i.test(written)) return false;
  return refuse(context, `is true or false, not “${shown(written)}”`);
});

export const number = (least: number, most: number, whole = true) =>
  text.transform((written, context): number => {
    const value = /^-?\d{1,9}(\.\d{1,9})?$/.test(written) ? Number(written) : Number.NaN;
    if (value >= least && value <= most && (!whole || Number.isInteger(value))) return value;
    return refuse(context, `is a ${whole ? 'whole ' : ''}number from ${least} to ${most}, not “${shown(written)}”`);
  });

/** A list; a single item may stand without its dash, and nothing at all is an empty list. */
export const list = <Item extends z.ZodType>(item: Item) =>
  z.preprocess(
    (value) => (value === undefined || Array.isArray(value) ? (value ?? []) : [value]),
    z.array(item, wants('is a list')),
  );

/** Named keys; an unknown one is named with its nearest. */
export const keys = <Shape extends z.ZodRawShape>(shape: Shape) =>
  z.strictObject(shape, {
    // Where an unknown key is reported, its neighbours are wanted: they travel in the message.
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? Object.keys(shape).join(' ')
        : `is a group of “key: value” lines${few(shape)}`,
  });

/**
 * A list of groups. One of another shape (a group with the ids for keys, a list of bare words) has a slip of its own in each
 * line for YAML, and one for its author: it is told once, in the author’s own words put right.
 */
export const groups = <Shape extends z.ZodRawShape>(shape: Shape) => {
  const names = Object.keys(shape);
  const group = keys(shape);
  const written = (value: unknown, context: z.RefinementCtx): unknown => {
    const entries: readonly unknown[] = Array.isArray(value) ? value : [value];
    const odd = entries.findIndex((entry) => entry !== undefined && !isLike(entry, names));
    if (odd < 0) return value;
    const path = Array.isArray(value) ? [odd] : [];
    const params: Telling = { each: true, help: putRight(entries[odd], names) };
    context.addIssue({ code: 'custom', path, message: `is a group of “key: value” lines${few(shape)}`, params });
    return z.NEVER;
  };
  return z.preprocess(written, list(group));
};

/** Whether a value is a group that has one of these keys, or one that is meant for one of them: too short a word may be near by chance. */
const isLike = (value: unknown, names: readonly string[]): boolean =>
  typeof value === 'object' &&
  !Array.isArray(value) &&
  Object.keys(value ?? {}).some((key) => names.includes(key) || (key.length > 3 && nearest(key, names)));

/** How an entry of the wrong shape would be written, by the first two of its keys. */
function putRight(entry: unknown, [first = '', second = '']: readonly string[]): string {
  const plain = typeof entry === 'string' || Array.isArray(entry) ? [[entry].flat()] : Object.entries(entry ?? {});
  const [name, value] = (plain[0] ?? []).map((one) => (typeof one === 'string' ? shown(one) : '…'));
  return `Write “- ${first}: ${name ?? '…'}”, and “${second}: ${value ?? '…'}” in a line below it.`;
}

/** The keys of a group, where they are few enough to be told in passing. */
const few = (shape: z.ZodRawShape): string => {
  const names = Object.keys(shape);
  return names.length > 6 ? '' : ` with ${names.join(', ')}`;
};

/** An id of an author's: what stands in addresses, quotations and other files. */
export const id = text.refine(isId, wants('is an id of letters, digits and hyphens, such as first-bends'));

export function isId(written: string): boolean {
  return /^[\p{L}\p{N}][\p{L}\p{N}_-]*$/u.test(written);
}

/** Adds an issue to a transform and gives back what zod wants then. */
export function refuse(context: z.RefinementCtx, message: string, telling: Telling = {}): never {
  context.addIssue({ code: 'custom', message, params: { ...telling } });
  return z.NEVER;
}

export const didYouMean = (written: string, known: Iterable<string>): string | undefined => {
  const near = nearest(written, known);
  return near === undefined ? undefined : `Did you mean “${near}”?`;
};

/** Text of an author's as a message may repeat it: not at any length. */
export const shown = (written: string): string => (written.length > 60 ? `${written.slice(0, 60)}…` : written);

export interface Checked<Value> {
  /** What could be read: a key whose value is wrong is as if it were not there, and so is a named entry of a group. */
  readonly value: Value;
  /** The keys that were left out, or of which something was. */
  readonly wrong: ReadonlySet<string>;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Checks what YAML read against a schema; every issue becomes a diagnostic at the key or value it is about.
 * `fallback` stands in for required keys, and fits the schema by itself.
 */
export function checkYaml<Schema extends z.ZodType>(
  schema: Schema,
  read: YamlRead,
  fallback: Readonly<Record<string, string>>,
): Checked<z.output<Schema>> {
  const written = read.value ?? {};
  const wrong = new Set<string>();
  const issues: z.core.$ZodIssue[] = [];
  let rest: object = typeof written === 'object' ? written : {};
  let result = schema.safeParse(written);
  // Each round leaves out what the last one found wrong, so that what depends on several keys is checked as well.
  while (!result.success) {
    const found = result.error.issues.flatMap(topKeys);
    for (const key of found) wrong.add(key);
    issues.push(...result.error.issues);
    rest = found.length === 0 ? {} : withoutWrong(rest, result.error.issues);
    result = schema.safeParse({ ...fallback, ...rest });
  }
  // What was no YAML was read as something its author did not write.
  const misread = read.diagnostics.some(({ code }) => code === 'yaml-syntax');
  const meant = new Set(issues.flatMap(meantKeys));
  const diagnostics = misread ? [] : issues.flatMap((issue) => diagnosticsOf(issue, read, meant));
  return { value: result.data, wrong, diagnostics };
}

/** Leaves out the keys that have an issue; of a group whose names are the author's only the entries that have one. */
function withoutWrong(written: object, issues: readonly z.core.$ZodIssue[]): object {
  const rest = new Map<string, unknown>(Object.entries(written));
  for (const issue of issues) {
    const [name] = issue.path.slice(1).map(String);
    for (const key of topKeys(issue)) {
      const [whole, group] = [Object.entries(written).find(([one]) => one === key)?.[1], rest.get(key)];
      if (name === undefined || !isGroup(whole) || !isGroup(group) || !Object.hasOwn(whole, name)) rest.delete(key);
      else rest.set(key, Object.fromEntries(Object.entries(group).filter(([one]) => one !== name)));
    }
  }
  return Object.fromEntries(rest);
}

const isGroup = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const topKeys = (issue: z.core.$ZodIssue): string[] =>
  issue.code === 'unrecognized_keys' && issue.path.length === 0 ? issue.keys : issue.path.slice(0, 1).map(String);

const pathOf = (path: readonly PropertyKey[]): string => path.map(String).join('/');

/** The paths of keys that unknown ones were probably meant to be. */
function meantKeys(issue: z.core.$ZodIssue): string[] {
  if (issue.code !== 'unrecognized_keys') return [];
  return issue.keys.flatMap((key) => {
    const near = nearest(key, issue.message.split(' '));
    return near === undefined ? [] : [pathOf([...issue.path, near])];
  });
}

function diagnosticsOf(issue: z.core.$ZodIssue, read: YamlRead, meant: ReadonlySet<string>): Diagnostic[] {
  if (issue.code === 'unrecognized_keys') {
    const known = issue.message.split(' ');
    return issue.keys.map((key) => {
      const facts = { key: shown(key), nearest: nearest(key, known), known };
      return report('key-unknown', spanAt(read, [...issue.path, key], 'key'), facts);
    });
  }
  // A path ends in the number of a list's item where the item itself is wrong: its list's key names it.
  const key = shown(`${issue.path.filter((step) => typeof step === 'string').at(-1) ?? ''}`);
  const telling: Telling = issue.code === 'custom' ? (issue.params ?? {}) : {};
  if (isMissing(issue.path, read)) {
    const path = pathOf(issue.path);
    // A key that is missing because its name has a slip in it is reported as that slip.
    if (meant.has(path)) return [];
    const written = read.spans.get(path);
    const span = written?.key ?? startOf(spanAt(read, issue.path.slice(0, -1), 'value'));
    return [report('key-missing', span, { key, empty: written !== undefined })];
  }
  const isEntry = telling.each || (issue.code === 'invalid_type' && typeof issue.path.at(-1) === 'number');
  const subject = key === '' ? 'This file' : `${isEntry ? 'Each entry of ' : ''}“${key}”`;
  const message = telling.whole ? issue.message : `${subject} ${issue.message}.`;
  const unspaced =
    key === '' && typeof read.value === 'string' ? /^[\w-]+:(?=[^\s:])/.exec(read.value)?.[0] : undefined;
  const help = unspaced === undefined ? telling.help : `Write a space behind the colon: ${unspaced} …`;
  return [report('value-wrong', spanAt(read, issue.path, telling.key ? 'key' : 'value'), { message, help })];
}

function spanAt(read: YamlRead, path: readonly PropertyKey[], which: 'key' | 'value'): Span {
  const spans = nearestPlace(read.spans, path);
  return spans?.[which] ?? spans?.value ?? { from: 0, to: 0 };
}

const startOf = (span: Span): Span => ({ from: span.from, to: span.from });

function isMissing(path: readonly PropertyKey[], read: YamlRead): boolean {
  let value: unknown = read.value ?? {};
  for (const step of path) {
    // The only item of a list may stand without its dash.
    if (step === 0 && !Array.isArray(value)) continue;
    value = (value as Record<PropertyKey, unknown> | undefined)?.[step];
  }
  return path.length > 0 && value === undefined;
}
