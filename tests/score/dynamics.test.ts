/** How loud each sound is by the dynamics of its block. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { levelsOf } from '../../src/score/dynamics.ts';
import { soundsOf } from '../../src/score/queries.ts';
import { scoreOf } from '../engrave/pictures.ts';
import { blockText } from '../notation/arbitrary.ts';

/** The level of each sound, to a hundredth. */
function levels(music: string): number[] {
  const score = scoreOf(`slot: 1/4\n${music}`);
  const found = levelsOf(score);
  return soundsOf(score).map((sound) => Math.round(100 * (found.get(sound) ?? 1)) / 100);
}

describe('dynamics', () => {
  test('are for all that follows, and music that names none is rather loud', () => {
    expect(levels('4 4[p] 4 4 | 4 4[ff] 4[mf] 4')).toEqual([1, 0.5, 0.5, 0.5, 0.5, 1.6, 1, 1]);
  });
  test('are for what a note is held through', () => {
    expect(levels('4[p] = = = | = = 4[f] =')).toEqual([0.5, 0.5, 1.3]);
  });
  test('are led to evenly by a crescendo or a diminuendo', () => {
    expect(levels('4[p cresc] 4 4 4 | 4[f] 4[dim] 4 4[mf]')).toEqual([0.5, 0.7, 0.9, 1.1, 1.3, 1.3, 1.15, 1]);
  });
  test('are one step on where nothing follows, or what follows is in the other direction', () => {
    expect(levels('4[mf cresc] 4 4 4')).toEqual([1, 1.08, 1.15, 1.23]);
    expect(levels('4[mf cresc] = = = | 4[p] 4 4 4')).toEqual([1, 0.5, 0.5, 0.5, 0.5]);
    expect(levels('4[mf cresc] 4 4 4 | 4[p] 4 4 4')).toEqual([1, 1.08, 1.15, 1.23, 0.5, 0.5, 0.5, 0.5]);
    expect(levels('4[f dim] 4 4 4 | 4[ff] 4 4 4')).toEqual([1.3, 1.23, 1.15, 1.08, 1.6, 1.6, 1.6, 1.6]);
    expect(levels('4[ff cresc] 4 4 4')).toEqual([1.6, 1.6, 1.6, 1.6]);
  });
  test('are in a coda those of the bar that leaves for it', () => {
    expect(levels('4[p] = = = |to-coda 4[f] = = = |D.C.,coda 4 = = =')).toEqual([0.5, 1.3, 0.5]);
  });
  test('are in every ending those of the bar before the first one', () => {
    expect(levels('|: 4[p] = = = |1 4[ff] = = = :|2 4 = = = |]')).toEqual([0.5, 1.6, 0.5]);
  });
  test('behind a quotation are those of its first note', () => {
    expect(levels('phrase a: 4 5\n4 <a>[p] 6[f] | <a>[cresc] <a>[ff]')).toEqual([
      1, 0.5, 0.5, 1.3, 1.3, 1.45, 1.6, 1.6,
    ]);
  });
  test('are always between the softest and the loudest', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        for (const level of levelsOf(scoreOf(text)).values()) {
          expect(level).toBeGreaterThanOrEqual(0.36);
          expect(level).toBeLessThanOrEqual(1.6);
        }
      }),
    );
  });
});
