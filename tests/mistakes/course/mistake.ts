/** Tables of mistakes in a course, outside of its music: the files as typed, what `check` prints, and what `check --fix` leaves. */
import { describe, expect, test } from 'vitest';
import { fixedFor, shownFor, type Texts } from '../shown.ts';

/** One mistake of an author. */
export interface Mistake {
  readonly what: string;
  readonly files: Texts;
  /** All that `check` prints. */
  readonly shown: string;
  /** The files that `check --fix` changes, as it leaves them. */
  readonly fixed?: Texts;
}

/** A text as it is typed, without the margin that all its lines share; ⇥ is a tab, and \` a backtick. */
export function typed({ raw }: TemplateStringsArray): string {
  const lines = raw.join('').split('\n');
  // The first line is behind the opening sign, the last one before the closing sign.
  const inside = lines.slice(1, -1);
  const margin = Math.min(...inside.filter((line) => line !== '').map((line) => line.search(/\S|$/)));
  return inside
    .map((line) => `${line.slice(margin)}\n`)
    .join('')
    .replaceAll('⇥', '\t')
    .replaceAll('\\`', '`');
}

/** Holds a table to what is printed and fixed. */
export function testMistakes(subject: string, mistakes: readonly Mistake[]): void {
  describe(subject, () => {
    test.each(mistakes.map((mistake) => [mistake.what, mistake] as const))('%s', (_, { files, shown, fixed = {} }) => {
      expect(shownFor(files)).toBe(shown);
      expect(fixedFor(files)).toEqual({ ...files, ...fixed });
    });
  });
}
