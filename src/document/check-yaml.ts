/** Checks what YAML read against a schema of `schema.ts`: each problem is a diagnostic at the key or value it is about. */
import type { z } from 'zod';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { excerpt } from '../diagnostics/excerpt.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { append } from '../values/append.ts';
import { DOCUMENT_PROBLEMS } from './problems.ts';
import type { IssueParams } from './schema.ts';
import { fieldOf } from './unknown.ts';
import { nearestPlace, type YamlRead } from './yaml.ts';

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
 * `fallback` replaces required keys that are missing, and fits the schema itself.
 */
export function checkYaml<Schema extends z.ZodType>(
  schema: Schema,
  read: YamlRead,
  fallback: Readonly<Record<string, string>>,
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
  const meant = new Set(issues.flatMap(meantKeys));
  const diagnostics = misread ? [] : issues.flatMap((issue) => diagnosticsOf(issue, read, meant));
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
      const facts = { key: excerpt(key), nearest: nearest(key, known), known };
      return report('key-unknown', spanAt(read, [...issue.path, key], 'key'), facts);
    });
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
    return [report('key-missing', span, { key, empty: written !== undefined })];
  }
  const isEntry = params.each || (issue.code === 'invalid_type' && typeof issue.path.at(-1) === 'number');
  const subject = key === '' ? 'This file' : `${isEntry ? 'Each entry of ' : ''}“${key}”`;
  const message = params.whole ? issue.message : `${subject} ${issue.message}.`;
  const unspaced =
    key === '' && typeof read.value === 'string' ? /^[\w-]+:(?=[^\s:])/.exec(read.value)?.[0] : undefined;
  const help = unspaced === undefined ? params.help : `Write a space behind the colon: ${unspaced} …`;
  return [report('value-wrong', spanAt(read, issue.path, params.key ? 'key' : 'value'), { message, help })];
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
