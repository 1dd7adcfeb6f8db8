import { describe, expect, test } from 'vitest';
import type { Chord } from '../../src/harmony/chord.ts';
import { songKey } from '../../src/harmony/key.ts';
import { roleInWords, roleOf, spell } from '../../src/harmony/role.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { plainPitch, readPitchClass } from '../../src/instrument/pitch.ts';
import { present } from '../../src/values/checked.ts';

const C = songKey({ letter: 'C', alter: 0 }, 'major');
const chord = (text: string): Chord => present(readChord(text, C), 'the chord');
const labels = (text: string): string[] => Array.from({ length: 12 }, (_, i) => roleOf(60 + i, chord(text), C).label);

describe('a role', () => {
  test('is counted from the root, with the blues’ flat spellings over a dominant chord', () => {
    expect(labels('C7').join(' ')).toBe('R ♭9 2 ♭3 3 4 ♭5 5 ♭6 6 ♭7 7');
  });
  test('is the plain one beside a chord that has another form of it', () => {
    expect(labels('Cdim7').join(' ')).toBe('R ♭9 2 ♭3 3 4 ♭5 5 ♭6 ♭♭7 ♭7 7');
    expect(labels('C').join(' ')).toBe('R ♭9 2 ♭3 3 4 ♭5 5 ♭6 6 ♭7 7');
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
    expect(roleOf(60 + semitones, chord(text), C).label).toBe(label);
  });
  // The song's scale decides: [chord, key, pitch class, label, name].
  test.each([
    ['Bb', 'D minor', 64, '♯4', 'E4'],
    ['Bb7', 'D minor', 64, '♯11', 'E4'],
    ['Gm7', 'D minor', 61, '♯11', 'C#4'],
    ['F', 'D minor', 71, '♯4', 'B4'],
    ['F', 'C major', 71, '♯4', 'B4'],
    ['Fmaj7', 'C major', 71, '♯11', 'B4'],
    ['Bb7', 'C major', 64, '♯11', 'E4'],
    ['Db7', 'C major', 67, '♯11', 'G4'],
    ['Fm7', 'C major', 71, '♯11', 'B4'],
    ['G7', 'D minor', 61, '♯11', 'C#4'],
    ['C', 'G major', 66, '♯4', 'F#4'],
    // Over the IV7 of a major song it is the blues' flat fifth, and so it is wherever the scale lacks the note.
    ['C7', 'G major', 66, '♭5', 'Gb4'],
    ['G7', 'G major', 73, '♭5', 'Db5'],
    ['G', 'G major', 73, '♭5', 'Db5'],
    ['D7', 'G major', 68, '♭5', 'Ab4'],
    // The letter decides too: F over B is a fifth.
    ['B', 'C major', 65, '♭5', 'F4'],
    ['Dm7', 'D minor', 68, '♭5', 'Ab4'],
  ])('six half steps over %s in %s are %i: %s, written %s', (text, keyName, midi, label, name) => {
    const [tonic = '', mode] = keyName.split(' ');
    const key = songKey(present(readPitchClass(tonic), tonic), mode === 'minor' ? 'minor' : 'major');
    expect(roleOf(midi, present(readChord(text, key), text), key).label).toBe(label);
    expect(plainPitch(spell(midi, present(readChord(text, key), text), key))).toBe(name);
  });
  test('distinguishes tones from colours', () => {
    expect([0, 2, 4, 7, 10].map((semitones) => roleOf(60 + semitones, chord('C7'), C).tone)).toEqual([
      true,
      false,
      true,
      true,
      true,
    ]);
    expect(roleOf(66, chord('Cmaj7'), C).tone).toBe(false);
  });
  test.each([
    ['C7', 0, 'the root'],
    ['C7', 3, 'the flat third'],
    ['C7', 4, 'the third'],
    ['C7', 10, 'the flat seventh'],
    ['C7', 11, 'the major seventh'],
    ['C7', 1, 'the flat ninth'],
    ['C7', 2, 'the second'],
    ['C7', 5, 'the fourth'],
    ['C7', 7, 'the fifth'],
    ['C13', 9, 'the thirteenth'],
    ['Cmaj7', 6, 'the sharp eleventh'],
    ['Cdim7', 9, 'the double flat seventh'],
  ])('in words: over %s, %i half steps up is %s', (text, semitones, words) => {
    expect(roleInWords(roleOf(60 + semitones, chord(text), C))).toBe(words);
  });
});

describe('a quarter step', () => {
  test('is a role below another one, and no tone of a chord', () => {
    const below = Array.from({ length: 12 }, (_, i) => roleOf(60.5 + i, chord('C7'), C));
    expect(below.map(({ label }) => label).join(' ')).toBe('↓♭9 n2 ↓♭3 n3 ↓4 ↓♭5 ↓5 ↓♭6 n6 ↓♭7 n7 ↓R');
    expect(below.map(({ semitones }) => semitones)).toEqual(Array.from({ length: 12 }, (_, i) => i + 0.5));
    expect(below.some(({ tone }) => tone)).toBe(false);
    expect(roleOf(63.5, chord('Am7'), C).label).toBe('↓5');
    expect(roleOf(63.5, chord('C7'), C)).toMatchObject({ degree: 3, alter: -0.5 });
  });

  test.each([
    [63.5, 'the neutral third'],
    [70.5, 'the neutral seventh'],
    [66.5, 'a quarter step below the fifth'],
    [62.5, 'a quarter step below the flat third'],
    [59.5, 'a quarter step below the root'],
    [69.5, 'a quarter step below the flat seventh'],
  ])('%s over C7 is %s', (midi, words) => expect(roleInWords(roleOf(midi, chord('C7'), C))).toBe(words));

  test.each([
    ['C7', 63.5, 'Eq4'],
    ['Cm7', 62.5, 'Ebq4'],
    ['D7', 65.5, 'F#q4'],
    ['C°7', 68.5, 'Aq4'],
    ['Eb°7', 71.5, 'Cq5'],
  ])('over %s, %s is spelled %s', (text, midi, name) => {
    expect(plainPitch(spell(midi, chord(text), C))).toBe(name);
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
    ['C9', 62, 'D4'],
    ['C7b9', 61, 'Db4'],
    ['Caug', 68, 'G#4'],
  ])('over %s, number %i is %s', (text, midi, name) => {
    expect(plainPitch(spell(midi, chord(text), C))).toBe(name);
  });
  test('a note outside of the chord takes no double sign where the key’s own name has none', () => {
    expect(plainPitch(spell(69, chord('Ab7'), C))).toBe('A4');
    expect(plainPitch(spell(60, chord('Cdim7'), C))).toBe('C4');
    expect(plainPitch(spell(69, chord('Cdim7'), C))).toBe('Bbb4');
  });
  test('what is of the song’s scale and not of the chord keeps its name', () => {
    const G = songKey({ letter: 'G', alter: 0 }, 'major');
    const over = (text: string, midi: number, key: typeof C): string =>
      plainPitch(spell(midi, present(readChord(text, key), text), key));
    expect(over('#IVdim7', 60, G)).toBe('C4');
    expect(over('bVI7', 64, C)).toBe('E4');
    expect(over('bII7', 64, songKey({ letter: 'D', alter: 0 }, 'minor'))).toBe('E4');
    // What is of the chord is spelled by it, and blue notes by their role.
    expect(over('bVI7', 66, C)).toBe('Gb4');
    expect(over('I7', 70, G)).toBe('Bb4');
  });
  test('the note between fourth and fifth is written as players write it', () => {
    const fourth = (letter: 'F' | 'B' | 'G' | 'E', alter: number): string =>
      plainPitch(spell({ F: 71, B: 64, G: 73, E: 69 }[letter], undefined, songKey({ letter, alter }, 'major')));
    expect([fourth('F', 0), fourth('B', -1), fourth('E', -1), fourth('G', 0)]).toEqual(['B4', 'E4', 'A4', 'Db5']);
  });
  test('without a chord the key spells, blue notes flat', () => {
    const G = songKey({ letter: 'G', alter: 0 }, 'major');
    expect([70, 65, 66, 61].map((midi) => plainPitch(spell(midi, undefined, G)))).toEqual(['Bb4', 'F4', 'F#4', 'Db4']);
  });
  test('where the role’s letter would take three signs, the key’s spelling stands', () => {
    expect(plainPitch(spell(68, chord('Cbdim7'), songKey({ letter: 'G', alter: -1 }, 'major')))).toBe('Ab4');
  });
});
