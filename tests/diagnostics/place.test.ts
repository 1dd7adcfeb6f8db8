import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { error, reporter } from '../../src/diagnostics/catalogue.ts';
import { nearest } from '../../src/diagnostics/nearest.ts';
import { locate, type Placed, placeOf, pointAt, showProblem } from '../../src/diagnostics/place.ts';

describe('a place', () => {
  test('counts lines over every kind of line break, and columns in UTF-16 units', () => {
    const placed = placeOf('ab\r\nc😀d\re\nf');
    expect([0, 2, 4, 7, 9, 11].map((offset) => pointAt(placed, offset))).toEqual([
      { line: 1, column: 1 },
      { line: 1, column: 3 },
      { line: 2, column: 1 },
      { line: 2, column: 4 },
      { line: 3, column: 1 },
      { line: 4, column: 1 },
    ]);
  });
  test('follows a text that is indented in its file', () => {
    const placed: Placed = {
      lines: [
        { offset: 0, at: { line: 7, column: 3 } },
        { offset: 4, at: { line: 8, column: 5 } },
      ],
    };
    expect([pointAt(placed, 2), pointAt(placed, 5)]).toEqual([
      { line: 7, column: 5 },
      { line: 8, column: 6 },
    ]);
  });
});

describe('a problem shown', () => {
  const shown = (text: string, from: number, to: number): string =>
    showProblem(
      locate(
        { code: 'some-code', severity: 'warning', message: 'So it is.', help: 'Fix it.', span: { from, to } },
        'a.mdx',
        placeOf(text),
      ),
      text,
    );

  test('has its place, its line, a caret under what is meant, the sentence and the fix', () => {
    expect(shown('one\ntwo three', 8, 13)).toBe(
      'a.mdx:2:5  warning some-code\n    2 | two three\n      |     ^^^^^\n  So it is.\n  Fix it.',
    );
  });
  test('keeps the caret in place behind a tab, and cuts a long line to what matters', () => {
    expect(shown('\tx', 1, 2).split('\n').slice(1, 3)).toEqual(['    1 |  x', '      |  ^']);
    const lines = shown(`${'a'.repeat(500)}X${'b'.repeat(500)}`, 500, 501).split('\n');
    expect(lines[1]?.length).toBeLessThan(140);
    expect(lines[1]?.[lines[2]?.indexOf('^') ?? 0]).toBe('X');
  });
  test('is never wider than a screen can show, and its marks begin at what is meant', () => {
    fc.assert(
      fc.property(fc.nat(30_000), fc.nat(30_000), fc.nat(30_000), (before, meant, after) => {
        const text = `${'a'.repeat(before)}X${'x'.repeat(meant)}${'b'.repeat(after)}`;
        const [, line = '', marks = ''] = shown(text, before, before + 1 + meant).split('\n');
        expect(Math.max(line.length, marks.length)).toBeLessThan(260);
        expect(line[marks.indexOf('^')]).toBe('X');
        expect(marks.match(/\^+/)?.[0].length).toBe(Math.min(meant + 1, 120));
        expect(line.includes('b')).toBe(after > 0 && meant < 120);
      }),
    );
  });
  test('repeats no text of any length from a file', () => {
    const report = reporter({
      'link-unknown': error<{ url: string }>({ about: '', message: ({ url }) => `No “${url}” here.` }),
    });
    const { message } = report('link-unknown', { from: 0, to: 1 }, { url: 'z'.repeat(8000) });
    expect(message).toMatch(/^No “z{100,}…z+” here\.$/);
    expect(message.length).toBeLessThan(200);
    expect(report('link-unknown', { from: 0, to: 1 }, { url: 'of words '.repeat(8000) }).message.length).toBeLessThan(
      2100,
    );
  });
  test('does without a file that could not be read', () => {
    const problem = {
      file: 'a.mdx',
      line: 1,
      column: 1,
      endLine: 1,
      endColumn: 1,
      severity: 'error',
      code: 'c',
      message: 'No.',
    } as const;
    expect(showProblem(problem, undefined)).toBe('a.mdx:1:1  c\n  No.');
  });
});

describe('the nearest word', () => {
  test.each([
    ['tounge', 'tongue'],
    ['lip', 'lips'],
    ['TEMPO', undefined],
    ['xyzzy', undefined],
  ])('to “%s” is %s', (word, near) => {
    expect(nearest(word, ['lips', 'tongue'])).toBe(near);
  });
});
