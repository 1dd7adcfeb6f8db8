import { describe, expect, test } from 'vitest';
import { settle, type Wishes } from '../../src/course/severity.ts';
import type { Catalogue } from '../../src/diagnostics/catalogue.ts';
import type { Severity } from '../../src/diagnostics/diagnostic.ts';
import type { Problem } from '../../src/diagnostics/place.ts';

const kind = (severity: Severity) => ({ severity, about: '', message: () => '' });
const catalogue: Catalogue = {
  wrong: kind('error'),
  doubtful: kind('warning'),
  remark: kind('hint'),
  'allow-unused': kind('warning'),
};

const problem = (file: string, code: string): Problem => ({
  file,
  line: 1,
  column: 1,
  endLine: 1,
  endColumn: 1,
  code,
  severity: catalogue[code]?.severity ?? 'error',
  message: '',
});
const wishes = (severity: Record<string, Severity | 'off'>, allow: readonly string[] = [], strict = false): Wishes => ({
  course: { file: 'course.yaml', places: new Map(), severity: new Map(Object.entries(severity)) },
  lessons: [{ file: 'a.mdx', places: new Map(), allow: allow.map((code) => ({ code, reason: 'So be it.' })) }],
  strict,
});
const settled = (problems: readonly Problem[], wished: Wishes): string[] =>
  settle(problems, wished, catalogue).map(({ file, code, severity }) => `${file} ${code} ${severity}`);

const ALL = ['wrong', 'doubtful', 'remark'].map((code) => problem('a.mdx', code));

describe('problems', () => {
  test('count as they are where nobody says otherwise', () => {
    expect(settled(ALL, wishes({}))).toEqual(['a.mdx wrong error', 'a.mdx doubtful warning', 'a.mdx remark hint']);
  });
  test('are made louder and quieter by the course, errors apart', () => {
    expect(settled(ALL, wishes({ doubtful: 'hint', remark: 'error' }))).toEqual([
      'a.mdx wrong error',
      'a.mdx doubtful hint',
      'a.mdx remark error',
    ]);
    expect(settled(ALL, wishes({ doubtful: 'off', wrong: 'off' }))).toEqual([
      'a.mdx wrong error',
      'a.mdx remark hint',
      'course.yaml severity-error error',
    ]);
  });
  test('that are warnings in the end are errors in a strict check, and hints are not', () => {
    expect(settled(ALL, wishes({}, [], true))).toEqual([
      'a.mdx wrong error',
      'a.mdx doubtful error',
      'a.mdx remark hint',
    ]);
    expect(settled(ALL, wishes({ doubtful: 'hint', remark: 'warning' }, [], true))).toEqual([
      'a.mdx wrong error',
      'a.mdx doubtful hint',
      'a.mdx remark error',
    ]);
  });
  test('that are findings can be allowed in their lesson, however loud the course has made them', () => {
    const both = [...ALL, problem('b.mdx', 'doubtful')];
    expect(settled(both, wishes({ doubtful: 'error' }, ['doubtful'], true))).toEqual([
      'a.mdx wrong error',
      'a.mdx remark hint',
      'b.mdx doubtful error',
    ]);
  });
  test('that are errors cannot be allowed', () => {
    expect(settled([problem('a.mdx', 'wrong')], wishes({}, ['wrong']))).toEqual([
      'a.mdx wrong error',
      'a.mdx allow-error error',
    ]);
  });
  test('are more by an allowance that silences nothing or is not known', () => {
    expect(settled([], wishes({}, ['doubtful', 'doubtfull']))).toEqual([
      'a.mdx allow-unused warning',
      'a.mdx allow-unknown error',
    ]);
  });
  test('are fewer by an unused allowance the course does not want to hear of', () => {
    expect(settled([], wishes({ 'allow-unused': 'off' }, ['doubtful']))).toEqual([]);
  });
});
