/**
 * The mistakes of the tables beside this file: a block as it is typed (and perhaps another lesson with a block), all that `reedway check`
 * prints, and the block as `--fix` leaves it, where that changes it.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { lesson } from '../../course/some-course.ts';
import { fixedFor, shownFor, type Texts } from '../shown.ts';

const SUBJECTS = ['chords', 'notes', 'marks', 'settings', 'bars', 'quotations'] as const;

const FIRST = 'lessons/first.mdx';
const FENCE = /^```(\w+)\n(.*?)^```$/gms;
const inLesson = (block: string): string => lesson(`\`\`\`tab\n${block}\`\`\`\n`);

interface Mistake {
  readonly name: string;
  readonly files: Texts;
  readonly shown: string;
  readonly fixed: string | undefined;
}

function mistakesOf(subject: string): Mistake[] {
  const text = readFileSync(new URL(`${subject}.md`, import.meta.url), 'utf8');
  return text
    .split(/^## /m)
    .slice(1)
    .map((section) => {
      const fences = new Map([...section.matchAll(FENCE)].map(([, kind = '', body = '']) => [kind, body]));
      const second = fences.get('second');
      const other = second === undefined ? {} : { 'lessons/second.mdx': inLesson(second) };
      return {
        name: section.slice(0, section.indexOf('\n')),
        files: { [FIRST]: inLesson(fences.get('tab') ?? ''), ...other },
        shown: fences.get('text') ?? '',
        fixed: fences.get('fixed'),
      };
    });
}

const ALL = SUBJECTS.map((subject) => [subject, mistakesOf(subject)] as const);

test('there are fifty at least', () => {
  expect(ALL.flatMap(([, mistakes]) => mistakes).length).toBeGreaterThanOrEqual(50);
});

describe.each(ALL)('mistakes with %s', (_, mistakes) => {
  test.each(mistakes.map((one) => [one.name, one] as const))('%s', (_name, { files, shown, fixed }) => {
    expect(shownFor(files)).toBe(shown);
    const after = fixedFor(files);
    expect(after[FIRST]).toBe(fixed === undefined ? files[FIRST] : inLesson(fixed));
    // What is fixed once is not fixed again.
    expect(fixedFor(after)).toEqual(after);
  });
});
