/** Blocks of which only the order of bars matters, for tests. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import type { Score } from '../../src/score/score.ts';
import { itemAt, present } from '../../src/values/checked.ts';

/** A letter up to w is a bar. */
export const barsOf = (music: string): Score => {
  const { score, diagnostics } = readBlock(
    `meter: 1/4\nslot: 1/8\n${music.replace(/(?<![\w.-])[a-w](?![\w.-])/g, '4 5')}`,
  );
  expect(diagnostics).toEqual([]);
  return present(score, music);
};
/** A block with a pickup of one quarter; digits are its notes. */
export const withPickup = (music: string): Score => present(readBlock(`pickup: 1\nslot: 1/4\n${music}`).score, music);

/** Parts of blocks, one to a line. */
const shape = fc.constantFrom(
  'b |',
  '|: b :|',
  '|: b | b :|',
  '|: b :|x3',
  '|: b |1 b :|2 b ||',
  '|: b |1,2 b :|3 b ||',
  'b :|',
);
/** The parts of a block. */
export const shapes = fc.array(shape, { minLength: 1, maxLength: 5 });
/** Without endings, of which only the last one would be played. */
const unended = fc.constantFrom('b |', '|: b :|', '|: b :|x3');
/** A block with a jump back behind its parts, to the beginning or to a segno. */
export const jumping = fc
  .record({ before: shapes, after: fc.array(unended, { maxLength: 2 }), segno: fc.boolean(), coda: fc.boolean() })
  .map(({ before, after, segno, coda }) =>
    [
      segno ? 'b |segno' : '',
      ...before,
      coda ? 'b |to-coda' : '',
      `b |${segno ? 'D.S.' : 'D.C.'}${coda ? ',coda b |' : ''}`,
      ...(coda ? after : []),
    ].join('\n'),
  );
/** Where the bars of an order of playing were written. */
export const spans = (bars: Score['bars'], played: readonly number[]) =>
  played.map((index) => itemAt(bars, index).span);
