import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { playOrder } from '../../src/score/playing-order.ts';
import { present } from '../../src/values/checked.ts';

/** One bar each; the numbers of the bars, in the order they are played. */
const order = (music: string): string => {
  const { score, diagnostics } = readBlock(`meter: 1/4\nslot: 1/8\n${music.replace(/[a-z]/g, '4 5')}`);
  expect(diagnostics).toEqual([]);
  return score ? playOrder(score).join(' ') : '';
};

describe('the order of playing', () => {
  test.each([
    ['a | b | c', '0 1 2'],
    ['a | b :| c', '0 1 0 1 2'],
    ['a |: b | c :| d', '0 1 2 1 2 3'],
    ['|: a :|: b :|', '0 0 1 1'],
    ['a |: b |1 c :|2 d | e', '0 1 2 1 3 4'],
    ['|: a |1 b :|2 c :|3 d |]', '0 1 0 2 0 3'],
    ['|: a |1 b | c :|2 d | e || f', '0 1 2 0 3 4 5'],
    ['a :| b :| c', '0 0 1 1 2'],
    ['a |: b :| c |: d :|', '0 1 1 2 3 3'],
  ])('%s', (music, played) => {
    expect(order(music)).toBe(played);
  });
  test('a repeat without a beginning goes back to the pickup where its last bar is the shorter for it', () => {
    const played = (music: string) => playOrder(present(readBlock(`pickup: 1\nslot: 1/4\n${music}`).score, music));
    expect(played('4 | 1 1 1 1 | 1 1 1 :| 1 1 1')).toEqual([0, 1, 2, 0, 1, 2, 3]);
    expect(played('4 | 1 1 1 1 | 1 1 1 1 :| 1 1 1')).toEqual([0, 1, 2, 1, 2, 3]);
    expect(played('4 | 1 1 1 1 |1 1 1 1 :|2 1 1 1 |]')).toEqual([0, 1, 2, 0, 1, 3]);
    expect(played('4 |: 1 1 1 1 | 1 1 1 :|')).toEqual([0, 1, 2, 1, 2]);
  });
});
