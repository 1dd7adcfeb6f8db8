import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { passageAt, passageEnd } from '../../../src/browser/clips/passage.ts';

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
    expect([0, 1, 2.9, 3, 3.9, 4, 5.9, 6, 99].map((time) => passageAt(cues, time))).toEqual([
      undefined,
      0,
      0,
      1,
      1,
      undefined,
      undefined,
      2,
      2,
    ]);
  });

  test('end where the next begins, at their own end, or with the recording', () => {
    expect([0, 1, 2].map((index) => passageEnd(cues, index, 10))).toEqual([3, 4, 10]);
  });

  test('that begin together end together', () => {
    expect(passageEnd([cue(1), cue(1), cue(5)], 0, 10)).toBe(5);
  });

  test('end after they begin, and hold every time between', () => {
    const times = fc
      .uniqueArray(fc.integer({ min: 0, max: 99 }), { minLength: 1 })
      .map((all) => all.sort((a, b) => a - b));
    fc.assert(
      fc.property(times, (all) => {
        const list = all.map((at) => cue(at));
        for (const [index, { at }] of list.entries()) {
          const end = passageEnd(list, index, 100);
          expect(end).toBeGreaterThan(at);
          expect(passageAt(list, at)).toBe(index);
          expect(passageAt(list, (at + end) / 2)).toBe(index);
        }
      }),
    );
  });
});
