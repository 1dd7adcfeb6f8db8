import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  isInScale,
  MODE_NAMES,
  type Mode,
  plainKey,
  printedKey,
  type SongKey,
  signatureAlter,
  signatureOf,
  songKey,
  spellInKey,
} from '../../src/harmony/key.ts';
import { LETTERS, plainPitch, readPitchClass } from '../../src/instrument/pitch.ts';
import { quarterBelow } from '../../src/instrument/quarter-step.ts';
import { present } from '../../src/values/checked.ts';

const key = (text: string): SongKey => {
  const [name = '', mode] = text.split(' ');
  return songKey(present(readPitchClass(name), name), mode === 'minor' ? 'minor' : 'major');
};

/** The MIDI numbers of the octave from middle C up. */
const octave = Array.from({ length: 12 }, (_, index) => 60 + index);

describe('a key', () => {
  test.each([
    ['C major', 0],
    ['A minor', 0],
    ['F# major', 6],
    ['Gb major', -6],
    ['D# minor', 6],
    ['Eb minor', -6],
    ['D major', 2],
    ['G minor', -2],
  ])('%s has a signature of %i sharps', (name, sharps) => {
    expect(plainKey(key(name))).toBe(name);
    expect(signatureOf(key(name))).toBe(sharps);
  });

  test.each([
    ['C# major', 'Db major'],
    ['Cb major', 'B major'],
    ['Gb minor', 'F# minor'],
    ['A# minor', 'Bb minor'],
    ['Ab minor', 'G# minor'],
  ])('%s has seven signs or more, and is written as %s', (name, written) => {
    expect(plainKey(key(name))).toBe(written);
  });

  test('is shown with printed signs', () => {
    expect(printedKey(key('Eb minor'))).toBe('E♭ minor');
  });

  test.each([
    ['C major', 'C D E F G A B'],
    ['D major', 'C# D E F# G A B'],
    ['Eb major', 'C D Eb F G Ab Bb'],
    ['F# major', 'C# D# E# F# G# A# B'],
    ['Gb major', 'Cb Db Eb F Gb Ab Bb'],
    ['E minor', 'C D E F# G A B'],
  ])('%s has its signs on %s', (name, letters) => {
    const sign = (alter: number): string => (alter > 0 ? '#' : alter < 0 ? 'b' : '');
    expect(LETTERS.map((letter) => letter + sign(signatureAlter(key(name), letter))).join(' ')).toBe(letters);
  });

  // Common practice, no source: a mode is the white keys from its tonic on, and minor has both forms of its sixth and seventh.
  test.each<[Mode, string]>([
    ['major', 'C'],
    ['dorian', 'D'],
    ['phrygian', 'E'],
    ['lydian', 'F'],
    ['mixolydian', 'G'],
    ['locrian', 'B'],
  ])('%s from %s on is the white keys, and has no signs', (mode, letter) => {
    const white = songKey(present(readPitchClass(letter), letter), mode);
    expect(signatureOf(white)).toBe(0);
    expect(octave.filter((midi) => isInScale(midi, white))).toEqual([60, 62, 64, 65, 67, 69, 71]);
  });
  test('minor has its sixth and seventh in both forms', () => {
    expect(octave.filter((midi) => isInScale(midi, key('A minor')))).toEqual([60, 62, 64, 65, 66, 67, 68, 69, 71]);
  });
  test('has the same scale in every octave, and none of the quarter steps', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 120 }), fc.constantFrom(...MODE_NAMES), (midi, mode) => {
        const own = songKey({ letter: 'E', alter: -1 }, mode);
        expect(isInScale(midi + 12, own)).toBe(isInScale(midi, own));
        expect(isInScale(midi + 0.5, own)).toBe(false);
      }),
    );
  });
  test('spells a quarter step below the note that is spelled above it', () => {
    // A quarter step under D, and under the E flat of the blues.
    expect(plainPitch(spellInKey(61.5, key('C major')))).toBe(plainPitch(quarterBelow(spellInKey(62, key('C major')))));
    expect(spellInKey(62.5, key('C major'))).toMatchObject({ letter: 'E', octave: 4, midi: 62.5 });
  });

  test('spells what lies outside of it flat, except for a flat fifth that would be Cb, Fb or doubly flat', () => {
    const spelled = (midi: number, name: string): string => plainPitch(spellInKey(midi, key(name)));
    expect([spelled(66, 'C major'), spelled(71, 'F major'), spelled(64, 'Bb major')]).toEqual(['Gb4', 'B4', 'E4']);
    expect([spelled(69, 'Db major'), spelled(67, 'Db major')]).toEqual(['Bbb4', 'G4']);
  });
});
