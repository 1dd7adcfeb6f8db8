/** Files over a sound course, and the problems they have: each with the place it points at, its code and its words. */
import type { Problem } from '../../src/diagnostics/place.ts';
import { courseInMemory } from './files-in-memory.ts';
import { lesson } from './some-course.ts';

export type Files = Readonly<Record<string, string | Uint8Array>>;
/** [place, code, message, the fix] */
export type Reported = readonly [string, string, string, string?];
/** [what the course has, its files, what is reported] */
export type ProblemCase = readonly [string, Files, readonly Reported[]];

export const first = (text: string, frontMatter?: string): Files => ({
  'lessons/first.mdx': lesson(text, frontMatter),
});
export const frontMatter = (lines: string): Files => first('', lines);
export const yaml = (text: string): Files => ({ 'course.yaml': text });
export const GOOD = '```tab\nslot: 1/1\n4\n```\n';

export const codesOf = (cases: readonly (readonly [string, unknown, readonly Reported[]])[]): ReadonlySet<string> =>
  new Set(cases.flatMap(([, , wanted]) => wanted.map(([, code]) => code)));

/** Errors, and problems with these codes: what another check advises of a course is that check's affair. */
export const reported = (problems: readonly Problem[], codes: ReadonlySet<string>): readonly Reported[] =>
  problems
    .filter(({ code, severity }) => severity === 'error' || codes.has(code))
    .map(({ file, line, column, endLine, endColumn, code, message, help }) => {
      const place = `${file}:${line}:${column}-${endLine === line ? '' : `${endLine}:`}${endColumn}`;
      return help === undefined ? [place, code, message] : [place, code, message, help];
    });

export const problemsIn = (files: Files, cases: readonly ProblemCase[]): readonly Reported[] =>
  reported(courseInMemory(files).problems, codesOf(cases));
