/**
 * Numerals in minor songs, against tonal, a general-purpose library of music theory, which counts them from the major scale of the
 * tonic as we do. That the third, sixth and seventh steps of natural minor are lowered: tonal’s own minor scales.
 */
import { Note, Progression, Scale } from 'tonal';
import { describe, expect, test } from 'vitest';
import { plainChord } from '../../src/harmony/chord.ts';
import { songKey } from '../../src/harmony/key.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { readPitchClass } from '../../src/instrument/pitch.ts';
import { readBlock } from '../../src/notation/read.ts';
import { present } from '../../src/values/checked.ts';

const TONICS = ['A', 'E', 'B', 'F#', 'C#', 'D', 'G', 'C', 'F', 'Bb', 'Eb'];
const keyOf = (tonic: string) => songKey(present(readPitchClass(tonic), tonic), 'minor');

describe.each(TONICS)('in %s minor', (tonic) => {
  test.each([
    ['i', 'Im'],
    ['bIII', 'bIII'],
    ['iv7', 'IVm7'],
    ['V7', 'V7'],
    ['bVI7', 'bVI7'],
    ['bVII', 'bVII'],
    ['III', 'III'],
    ['VI', 'VI'],
  ])('%s is the chord that tonal names', (numeral, theirs) => {
    const ours = present(readChord(numeral, keyOf(tonic)), numeral);
    const [named = ''] = Progression.fromRomanNumerals(tonic, [theirs]);
    const root = /^[A-G](?:b|#)*/.exec(named)?.[0] ?? '';
    // A name with two signs is written with its enharmonic twin here.
    expect(Note.chroma(/^[A-G][b#]?/.exec(plainChord(ours))?.[0] ?? '')).toBe(Note.chroma(root));
    expect(plainChord(ours).replace(/^[A-G][b#]?/, '')).toBe(named.slice(root.length));
  });

  test('bIII, bVI and bVII are on steps of its scale, and III, VI and VII are not', () => {
    const steps = Scale.get(`${tonic} minor`).notes.map((note) => Note.chroma(note));
    const rootOf = (numeral: string) =>
      Note.chroma(/^[A-G][b#]?/.exec(plainChord(present(readChord(numeral, keyOf(tonic)), numeral)))?.[0] ?? '');
    expect(['bIII', 'bVI', 'bVII'].filter((numeral) => !steps.includes(rootOf(numeral)))).toEqual([]);
    expect(['III', 'VI', 'VII'].filter((numeral) => steps.includes(rootOf(numeral)))).toEqual([]);
  });
});

/**
 * Applied (secondary) chords: “V7 of V” is the dominant seventh of the key whose tonic is the V. Published: Walter Piston,
 * “Harmony”, the chapter on secondary dominants; Kostka and Payne, “Tonal Harmony”, “Secondary Functions 1” (both from memory).
 * The rows are the usual examples in C major, from memory.
 */
describe('a numeral of a numeral', () => {
  test.each([
    ['V7/V', 'D7'],
    ['V7/ii', 'A7'],
    ['V7/iii', 'B7'],
    ['V7/IV', 'C7'],
    ['V7/vi', 'E7'],
    ['viidim7/V', 'F#dim7'],
    ['viidim7/ii', 'C#dim7'],
    ['viidim7/vi', 'G#dim7'],
    ['V7/bVI', 'Eb7'],
  ])('%s in C is %s', (numeral, name) => {
    expect(plainChord(present(readChord(numeral, songKey({ letter: 'C', alter: 0 }, 'major')), numeral))).toBe(name);
  });

  const STEPS = ['bII', 'II', 'bIII', 'III', 'IV', 'V', 'bVI', 'VI', 'bVII', 'VII'];
  const APPLIED = ['I', 'bII', 'II', 'bIII', 'IV', 'V', 'bVI', 'bVII', 'VII'];
  test.each(TONICS)('in %s is on the root to which tonal comes in two steps', (tonic) => {
    for (const step of STEPS) {
      const [inner = ''] = Progression.fromRomanNumerals(tonic, [step]);
      for (const numeral of APPLIED) {
        const [root = ''] = Progression.fromRomanNumerals(inner, [numeral]);
        const ours = plainChord(present(readChord(`${numeral}7/${step}`, keyOf(tonic)), `${numeral}/${step}`));
        expect(Note.chroma(ours.slice(0, -1)), `${numeral}7/${step}`).toBe(Note.chroma(root));
      }
    }
  });
});

test('those that are not are reported in a minor song, and in no major one', () => {
  const codes = (position: number) =>
    readBlock(`position: ${position}\nslot: 1/1\nchords: III | VI | VII\n\n-4 | -5 | -4`).diagnostics.map(
      ({ code }) => code,
    );
  expect(codes(3)).toEqual(['numeral-in-minor', 'numeral-in-minor', 'numeral-in-minor']);
  expect(codes(1)).toEqual([]);
});
