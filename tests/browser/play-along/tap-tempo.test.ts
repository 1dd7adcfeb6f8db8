/** A tempo that is tapped. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createTapTempo } from '../../../src/browser/play-along/tap-tempo.ts';

const tapped = (times: readonly number[]): (number | undefined)[] => times.map(createTapTempo());

describe('a tempo that is tapped', () => {
  test('is known from the second tap on', () => {
    expect(tapped([0, 500, 1000])).toEqual([undefined, 120, 120]);
  });

  test('is the average of the last four beats', () => {
    expect(tapped([0, 500, 1000, 1500, 2000, 2600])).toEqual([undefined, 120, 120, 120, 120, 114]);
  });

  test('begins again after a pause, and is not confused by two taps at one moment', () => {
    expect(tapped([0, 500, 4000, 4600])).toEqual([undefined, 120, undefined, 100]);
    expect(tapped([0, 0])).toEqual([undefined, undefined]);
  });

  test('is that of a steady hand', () => {
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 240 }), fc.integer({ min: 2, max: 12 }), (beats, taps) => {
        const times = Array.from({ length: taps }, (_, index) => (index * 60_000) / beats);
        expect(tapped(times).at(-1)).toBe(beats);
      }),
    );
  });
});
