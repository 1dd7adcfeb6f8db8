/** Mistakes at random in blocks that are right: their certain fixes bring back what was meant. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { applyEdits } from '../../../src/diagnostics/edit.ts';
import { parseBlock } from '../../../src/notation/parse.ts';
import { ALONE, readBlock } from '../../../src/notation/read.ts';
import { lesson } from '../../course/some-course.ts';
import { cases } from '../../setup/long.ts';
import { fixedFor, shownFor } from '../shown.ts';

/** Ways to write a setting that mean nothing else. */
const SETTINGS: readonly (readonly [right: string, ...wrong: string[]])[] = [
  ['harp: A', 'harp A', 'Harp: A', 'harp = A', '- harp: A', 'harp: "A"', 'harp: key of A', 'harmonica: A'],
  ['slot: 1/4', 'slot 1/4', 'slots: 1/4', 'slot: quarter', 'slot: 1:4', "slot: '1/4'", 'SLOT: 1/4'],
  ['tempo: 92', 'tempo: 92 bpm', 'tempo: 92bpm', 'bpm: 92', 'tempo = 92', 'tempo: 92.'],
  ['position: 2', 'position: cross', 'position: 2nd', 'position 2', 'position: II', 'Position: second'],
  ['meter: 4/4', 'meter: 4-4', 'meter: 4\\4', 'time: 4/4', 'meter: common'],
  ['feel: shuffle', 'feel: Shuffle', 'feel: shuffled', 'feel shuffle'],
  ['part: Chorus', '[Chorus]', 'Part: Chorus', 'part = Chorus'],
  ['# slowly', '// slowly', '//slowly'],
];

/** Ways to write a slot that mean nothing else. */
const SLOTS: readonly (readonly [right: string, ...wrong: string[]])[] = [
  ['4', '4+', '4,', '4;'],
  ['-4', '4-', '-4,'],
  ['5'],
  ["-3'", "3'-", "3-'"],
  ["-3''", '-3"', "3''-"],
  ['.', 'r', 'R', 'z', 'rest'],
  ['6o', '6ob', 'o6', '6O'],
  ['-7o', '7od', '-O7'],
  ['(4 5)', '(+4 +5)'],
  ['-(4 5)', '(-4 -5)', '-(4 -5)'],
  ['4[dip]', '4[Dip]', '4[dip'],
  ['4[shake 5]', '4[warble 5]', '4[Shake 5]', '4[shake 5'],
  ['"C7" 4', 'C7 4', "'C7' 4", 'C7" 4', '"C7 4'],
  ['"IV7" -4', 'IV7 -4', "'IV7' 4-"],
];

/** Quotation marks that are alone: of two kinds in one bar, nobody can say which is which. */
const ALONE_MARKS = [/^C7"/, /^"C7 4$/, /3"/];

/** A choice of ways to write each of some things, and whether it is the right one. */
const written = (table: typeof SLOTS) =>
  fc.constantFrom(...table).chain((ways) => fc.constantFrom(...ways).map((way) => [ways[0], way] as const));

const block = fc
  .record({
    settings: fc.uniqueArray(written(SETTINGS), { selector: ([right]) => right, maxLength: 4 }),
    mark: fc.constantFrom(...ALONE_MARKS),
    bars: fc.array(fc.array(written(SLOTS), { minLength: 4, maxLength: 4 }), { minLength: 1, maxLength: 4 }),
  })
  .map(({ settings, mark, bars }) => {
    const others = ALONE_MARKS.filter((one) => one !== mark);
    // What is read in the order of its lines: comments and parts after settings.
    const lines = settings.toSorted(([a], [b]) => Number(/^(?:part|#)/.test(a)) - Number(/^(?:part|#)/.test(b)));
    const textOf = (way: 0 | 1): string => {
      const music = bars
        .map((bar) => bar.map((slot) => slot[others.some((one) => one.test(slot[way])) ? 0 : way]).join(' '))
        .join(' | ');
      return `${lines.map((line) => `${line[way]}\n`).join('')}${music} |]\n`;
    };
    return { right: textOf(0), wrong: textOf(1) };
  });

const certainEdits = (text: string) => {
  const { diagnostics } = readBlock(text, ALONE);
  return diagnostics.flatMap(({ fix }) => (fix?.certain ? [fix.edits] : []));
};

test('the certain fixes of a block bring back what was meant, and are done then', () => {
  fc.assert(
    fc.property(block, ({ right, wrong }) => {
      const files = (text: string) => ({ 'lessons/first.mdx': lesson(`\`\`\`tab\n${text}\`\`\`\n`) });
      const fixed = fixedFor(files(wrong));
      expect(fixed).toEqual(files(right));
      expect(fixedFor(fixed)).toEqual(fixed);
      expect(shownFor(fixed)).toBe(shownFor(files(right)));
    }),
    { numRuns: cases(50, 3000) },
  );
});

test('edits of a fix are within the text, and do not overlap, whatever is written', () => {
  const signs = fc.constantFrom(...`"'[](){}<>|:=.-+4 5r\nC7bdo/,;…↑`, 'harp', 'phrase', '//', '1/4', ' ');
  fc.assert(
    fc.property(fc.string({ unit: signs, maxLength: 60 }), (text) => {
      for (const edits of certainEdits(text)) {
        const after = applyEdits(text, edits);
        expect(after.split('\n').length).toBe(text.split('\n').length);
        expect(() => parseBlock(after)).not.toThrow();
      }
    }),
    { numRuns: cases(1000, 20_000) },
  );
});
