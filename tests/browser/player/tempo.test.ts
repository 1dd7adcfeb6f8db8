/** How far the tempo can be set, and where a loop that speeds up goes by itself. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tempoScale, usualClimb } from '../../../src/browser/player/tempo.ts';

describe('a loop that speeds up', () => {
  test('goes to the written tempo, and from there a fifth beyond it', () => {
    expect(usualClimb(60, 100)).toEqual({ step: 4, goal: 100 });
    expect(usualClimb(100, 100)).toEqual({ step: 4, goal: 120 });
    expect(usualClimb(110, 100)).toEqual({ step: 4, goal: 132 });
    // A tempo that is shown as the written one is as fast already.
    expect(usualClimb(104, 104.2)).toEqual({ step: 4, goal: 125 });
  });

  test('has a goal above every tempo that can be set', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 300 }), fc.double({ min: 0, max: 1, noNaN: true }), (written, share) => {
        const { least, most } = tempoScale(written);
        const tempo = Math.round(least + share * (most - least));
        expect(usualClimb(tempo, written).goal).toBeGreaterThan(tempo);
      }),
    );
  });
});
