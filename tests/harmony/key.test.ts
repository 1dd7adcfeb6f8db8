import { describe, expect, test } from 'vitest';
import {
  plainKey,
  printedKey,
  type SongKey,
  signatureAlter,
  signatureOf,
  songKey,
  spellInKey,
} from '../../src/harmony/key.ts';
import { LETTERS, plainPitch, readPitchClass } from '../../src/instrument/pitch.ts';
import { present } from '../../src/values/checked.ts';

const key = (text: string): SongKey => {
  const [name = '', mode] = text.split(' ');
  return songKey(present(readPitchClass(name), name), mode === 'minor' ? 'minor' : 'major');
};

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

  test('spells what lies outside of it flat, except for a flat fifth that would be Cb, Fb or doubly flat', () => {
    const spelled = (midi: number, name: string): string => plainPitch(spellInKey(midi, key(name)));
    expect([spelled(66, 'C major'), spelled(71, 'F major'), spelled(64, 'Bb major')]).toEqual(['Gb4', 'B4', 'E4']);
    expect([spelled(69, 'Db major'), spelled(67, 'Db major')]).toEqual(['Bbb4', 'G4']);
  });
});
