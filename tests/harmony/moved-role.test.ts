/** Notes that keep their role over another chord. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Chord } from '../../src/harmony/chord.ts';
import { songKey } from '../../src/harmony/key.ts';
import { movedPitch, rootShifts, sameRoleOver } from '../../src/harmony/moved-role.ts';
import { roleOf } from '../../src/harmony/role.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { chromaOf, mod } from '../../src/instrument/pitch.ts';
import { present } from '../../src/values/checked.ts';

const KEY = songKey({ letter: 'C', alter: 0 }, 'major');
const chord = (symbol: string): Chord => present(readChord(symbol, KEY), symbol);
const SYMBOLS = ['C', 'C7', 'Cm7', 'Fmaj7', 'Am', 'Bdim7', 'G7b9', 'E+', 'Dsus4', 'Ab6'];
const someChord = fc.constantFrom(...SYMBOLS.map(chord));

describe('a role over another chord', () => {
  test('is that of the tone of the same degree', () => {
    expect(sameRoleOver(4, chord('C'), chord('Am'))).toBe(3);
    expect(sameRoleOver(10, chord('C7'), chord('Fmaj7'))).toBe(11);
    expect(sameRoleOver(7, chord('C'), chord('Bdim7'))).toBe(6);
  });
  test('of what is not of the chord, or has no counterpart, is its distance from the root', () => {
    expect(sameRoleOver(3, chord('C7'), chord('F7'))).toBe(3);
    expect(sameRoleOver(10, chord('C7'), chord('F'))).toBe(10);
  });
  test('keeps the degree of every tone that both chords have', () => {
    fc.assert(
      fc.property(someChord, someChord, fc.integer({ min: 40, max: 100 }), (from, to, midi) => {
        for (const shift of rootShifts(from, to)) {
          const moved = movedPitch(midi, from, to, shift);
          expect(mod(chromaOf(from.root) + shift - chromaOf(to.root), 12)).toBe(0);
          const [before, after] = [roleOf(midi, from, KEY), roleOf(moved, to, KEY)];
          if (before.tone && to.tones.some(({ degree }) => degree === before.degree))
            expect(after.degree).toBe(before.degree);
          else expect(after.semitones).toBe(before.semitones);
        }
      }),
    );
  });
  test('over the same chord is the same note', () => {
    fc.assert(
      fc.property(someChord, fc.integer({ min: 40, max: 100 }), (same, midi) => {
        expect(rootShifts(same, same)[0]).toBe(0);
        expect(movedPitch(midi, same, same, 0)).toBe(midi);
      }),
    );
  });
  test('comes with the nearest way of the root first, up before down', () => {
    expect(rootShifts(chord('C'), chord('Fmaj7'))).toEqual([5, -7, 17, -19]);
    expect(rootShifts(chord('Fmaj7'), chord('C'))).toEqual([-5, 7, -17, 19]);
    expect(rootShifts(chord('C'), chord('C7'))).toEqual([0, 12, -12, -24]);
  });
});
