import { describe, expect, test } from 'vitest';
import type { Chord } from '../../src/harmony/chord.ts';
import { songKey } from '../../src/harmony/key.ts';
import { roleInWords, roleOf, spell } from '../../src/harmony/role.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { plainPitch } from '../../src/instrument/pitch.ts';
import { present } from '../../src/values/checked.ts';

const C = songKey({ letter: 'C', alter: 0 }, 'major');
const chord = (text: string): Chord => present(readChord(text, C), 'the chord');
const labels = (text: string): string[] => Array.from({ length: 12 }, (_, i) => roleOf(60 + i, chord(text)).label);

describe('a role', () => {
  test('is counted from the root, with the blues’ flat spellings over a dominant chord', () => {
    expect(labels('C7').join(' ')).toBe('R ♭9 2 ♭3 3 4 ♭5 5 ♭6 6 ♭7 7');
  });
  test.each([
    ['Cmaj7', 6, '♯11'],
    ['Cm7b5', 6, '♭5'],
    ['Cdim7', 9, '♭♭7'],
    ['Caug', 8, '♯5'],
    ['C7#9', 3, '♯9'],
    ['C9', 2, '9'],
    ['Csus4', 5, '4'],
    ['C13', 9, '13'],
    ['C6', 9, '6'],
  ])('is the chord’s own tone where it has one: over %s, %i half steps up is %s', (text, semitones, label) => {
    expect(roleOf(60 + semitones, chord(text)).label).toBe(label);
  });
  test('distinguishes tones from colours', () => {
    expect([0, 2, 4, 7, 10].map((semitones) => roleOf(60 + semitones, chord('C7')).tone)).toEqual([
      true,
      false,
      true,
      true,
      true,
    ]);
  });
  test.each([
    ['C7', 0, 'the root'],
    ['C7', 3, 'the flat third'],
    ['C7', 4, 'the third'],
    ['C7', 10, 'the flat seventh'],
    ['C7', 11, 'the major seventh'],
    ['C7', 1, 'the flat ninth'],
    ['C7', 2, 'the second'],
    ['Cmaj7', 6, 'the sharp eleventh'],
    ['Cdim7', 9, 'the double flat seventh'],
  ])('in words: over %s, %i half steps up is %s', (text, semitones, words) => {
    expect(roleInWords(roleOf(60 + semitones, chord(text)))).toBe(words);
  });
});

describe('spelling follows the role', () => {
  test.each([
    ['E7', 67, 'G4'],
    ['E7', 68, 'G#4'],
    ['A7', 60, 'C4'],
    ['D7', 66, 'F#4'],
    ['C7', 70, 'Bb4'],
    ['F#7', 70, 'A#4'],
    ['Db7', 59, 'Cb4'],
    ['E7#9', 67, 'G4'],
    ['Gb7', 64, 'Fb4'],
  ])('over %s, number %i is %s', (text, midi, name) => {
    expect(plainPitch(spell(midi, chord(text), C))).toBe(name);
  });
  test('without a chord the key spells, blue notes flat', () => {
    const G = songKey({ letter: 'G', alter: 0 }, 'major');
    expect([70, 65, 66, 61].map((midi) => plainPitch(spell(midi, undefined, G)))).toEqual(['Bb4', 'F4', 'F#4', 'Db4']);
  });
  test('where the role’s letter would take three signs, the key’s spelling stands', () => {
    expect(plainPitch(spell(68, chord('Cbdim7'), songKey({ letter: 'G', alter: -1 }, 'major')))).toBe('Ab4');
  });
});
