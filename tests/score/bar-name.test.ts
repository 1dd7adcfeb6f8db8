/** The names of bars in an address: each says one bar, and every bar has one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { allBarNames, barName, barsNamed } from '../../src/score/bar-name.ts';
import { playbackOf } from '../../src/score/playback-of.ts';
import type { Bar } from '../../src/score/score.ts';
import { present } from '../../src/values/checked.ts';
import { blockText } from '../notation/arbitrary.ts';
import { cases } from '../setup/long.ts';

const barsOf = (text: string): readonly Bar[] => present(readBlock(text).score, 'the score').bars;
const namesOf = (bars: readonly Bar[]): string[] => bars.map((_, index) => barName(bars, index));

describe('bars are called', () => {
  test.each([
    ['by their numbers', 'slot: 1/1\n4 | 5 | 6 |]', ['1', '2', '3'], '1 to 3'],
    ['0 in a pickup', 'slot: 1/4\npickup: 1\n4 | 4 = = = | 5 = = |]', ['0', '1', '2'], '0 to 2'],
    ['by number and ending', 'slot: 1/1\n|: 4 |1 5 :|2 6 | 7 |]', ['1', '2.1', '2.2', '3'], '1, 2.1, 2.2, 3'],
    [
      'by the first time of an ending for several',
      'slot: 1/1\n|: 4 |1,2 5 :|3 6 |]',
      ['1', '2.1', '2.3'],
      '1, 2.1, 2.3',
    ],
  ])('%s', (_, text, names, all) => {
    const bars = barsOf(text);
    expect(namesOf(bars)).toEqual(names);
    expect(allBarNames(bars)).toBe(all);
  });

  test('by a number alone where one ending has it', () => {
    const bars = barsOf('slot: 1/1\n|: 4 |1 5 | 5 :|2 6 |]');
    expect(namesOf(bars)).toEqual(['1', '2.1', '3', '2.2']);
    expect(barsNamed(bars, '3')).toEqual([2]);
    expect(barsNamed(bars, '3.1')).toEqual([2]);
  });

  test('by any time of an ending for several', () => {
    const bars = barsOf('slot: 1/1\n|: 4 |1,2 5 :|3 6 |]');
    expect(barsNamed(bars, '2.2')).toEqual([1]);
    expect(barsNamed(bars, '2')).toEqual([1, 2]);
    expect(barsNamed(bars, '2.4')).toEqual([]);
    expect(barsNamed(bars, '9')).toEqual([]);
    expect(barsNamed(bars, 'two')).toEqual([]);
  });
});

test('every bar of every block has a name that says it alone, for the score and for what is played', () => {
  fc.assert(
    fc.property(blockText, (text) => {
      const { score } = readBlock(text);
      fc.pre(score !== undefined);
      for (const bars of [present(score, 'the score').bars, playbackOf(present(score, 'the score')).bars])
        for (const index of bars.keys()) expect(barsNamed(bars, barName(bars, index))).toEqual([index]);
    }),
    { numRuns: cases(80, 4000) },
  );
});
