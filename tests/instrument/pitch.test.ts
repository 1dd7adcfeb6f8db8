import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  atFifths,
  chromaOf,
  fifthsOf,
  LETTERS,
  nameAbove,
  pitchNamed,
  pitchOf,
  plainName,
  plainPitch,
  printedName,
  printedPitch,
  readPitchClass,
} from '../../src/instrument/pitch.ts';

const name = fc.record({ letter: fc.constantFrom(...LETTERS), alter: fc.integer({ min: -2, max: 2 }) });

describe('a pitch name', () => {
  test('is read as typed and printed as read', () => {
    expect(['Bb', 'B♭', 'f#', 'C'].map((text) => plainName(readPitchClass(text) ?? { letter: 'A', alter: 9 }))).toEqual(
      ['Bb', 'Bb', 'F#', 'C'],
    );
    expect(['H', 'Bbb', '', 'C4', '-B'].filter(readPitchClass)).toEqual([]);
  });
  test('has its signs as they are typed and as they are printed, doubled ones too', () => {
    const all = [-2, -1, 0, 1, 2].map((alter) => ({ letter: 'E', alter }) as const);
    expect(all.map(plainName)).toEqual(['Ebb', 'Eb', 'E', 'E#', 'E##']);
    expect(all.map(printedName)).toEqual(['E𝄫', 'E♭', 'E', 'E♯', 'E𝄪']);
    expect(printedPitch(pitchOf({ letter: 'E', alter: -1 }, 63))).toBe('E♭4');
  });
  test('is given to no number that sounds otherwise', () => {
    expect(() => pitchOf({ letter: 'E', alter: -1 }, 64)).toThrow('64 is not a Eb');
  });
  test('has its place on the line of fifths, and comes back from it', () => {
    fc.assert(
      fc.property(name, (one) => {
        expect(atFifths(fifthsOf(one))).toEqual(one);
      }),
    );
  });
  test('takes the octave of its letter: Cb4 sounds as B3', () => {
    expect(
      plainPitch(pitchNamed({ letter: 'C', alter: -1 }, 59) ?? { letter: 'C', alter: 0, octave: 0, midi: 0 }),
    ).toBe('Cb4');
    expect(plainPitch(pitchNamed({ letter: 'B', alter: 1 }, 60) ?? { letter: 'C', alter: 0, octave: 0, midi: 0 })).toBe(
      'B#3',
    );
    expect(pitchNamed({ letter: 'C', alter: 0 }, 61)).toBeUndefined();
  });
  test('above a root keeps the degree’s letter and the distance', () => {
    expect(plainName(nameAbove({ letter: 'E', alter: 0 }, 3, 3))).toBe('G');
    expect(plainName(nameAbove({ letter: 'D', alter: 0 }, 3, 4))).toBe('F#');
    fc.assert(
      fc.property(name, fc.integer({ min: 1, max: 7 }), fc.integer({ min: 0, max: 11 }), (root, degree, semitones) => {
        const above = nameAbove(root, degree, semitones);
        expect((chromaOf(root) + semitones) % 12).toBe(chromaOf(above));
        expect((LETTERS.indexOf(root.letter) + degree - 1) % 7).toBe(LETTERS.indexOf(above.letter));
      }),
    );
  });
});
