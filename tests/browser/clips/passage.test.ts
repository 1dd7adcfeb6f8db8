import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { passageEnd, passagesAt } from '../../../src/browser/clips/passage.ts';

const cue = (at: number, until?: number) => ({
  at,
  block: 'head',
  first: 0,
  last: 0,
  ...(until === undefined ? {} : { until }),
});
const cues = [cue(1), cue(3, 4), cue(6)];

describe('the passages of a clip', () => {
  test('go on to the next cue, or to their own end', () => {
    const on = [0, 1, 2.9, 3, 3.9, 4, 5.9, 6, 99].map((time) => passagesAt(cues, time));
    expect(on).toEqual([[], [0], [0], [1], [1], [], [], [2], [2]]);
  });

  test('end where the next begins, at their own end, or with the recording', () => {
    expect([0, 1, 2].map((index) => passageEnd(cues, index))).toEqual([3, 4, Number.POSITIVE_INFINITY]);
  });

  test('that begin together are on together, and end together', () => {
    const pair = [cue(1), cue(1), cue(5)];
    expect([passagesAt(pair, 1), passagesAt(pair, 5)]).toEqual([[0, 1], [2]]);
    expect(passageEnd(pair, 0)).toBe(5);
  });

  test('with an end of their own continue beside others', () => {
    const inside = [cue(0, 10), cue(2, 4), cue(6)];
    expect([1, 3, 5, 7, 11].map((time) => passagesAt(inside, time))).toEqual([[0], [0, 1], [0], [0, 2], [2]]);
  });

  test('end after they begin, and hold every time between', () => {
    const times = fc
      .uniqueArray(fc.integer({ min: 0, max: 99 }), { minLength: 1 })
      .map((all) => all.sort((a, b) => a - b));
    fc.assert(
      fc.property(times, (all) => {
        const list = all.map((at) => cue(at));
        for (const [index, { at }] of list.entries()) {
          const end = Math.min(100, passageEnd(list, index));
          expect(end).toBeGreaterThan(at);
          expect(passagesAt(list, at)).toEqual([index]);
          expect(passagesAt(list, (at + end) / 2)).toEqual([index]);
        }
      }),
    );
  });
});
