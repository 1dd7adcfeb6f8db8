import { describe, expect, it } from 'vitest';
import { degreeIn, explain, roleSentence } from '../../src/harmony/explain.ts';
import { songKey } from '../../src/harmony/key.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { plainPitch } from '../../src/instrument/pitch.ts';
import { notesOf, tabOf } from '../../src/instrument/playable.ts';
import { TEMPERAMENTS } from '../../src/instrument/temperament.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';

const A = present(readHarp('A', RICHTER), 'the harp');
const key = songKey({ letter: 'E', alter: 0 }, 'major');
const chords = ['I7', 'IV7', 'I7', 'V7'].map((symbol) => present(readChord(symbol, key), 'the chord'));
const note = (tab: string) =>
  present(
    notesOf(A).find((each) => tabOf(each) === tab),
    'the playable',
  );

describe('a note explained', () => {
  it('has its pitch, frequency, degree and role over each chord', () => {
    const explained = explain(A, note("-3'"), key, chords);
    expect(plainPitch(explained.pitch)).toBe('G4');
    expect(explained.words).toBe('draw 3, half-step bend');
    expect(explained.frequency).toBeCloseTo(392.0, 2);
    expect(explained.cents).toBe(0);
    expect(explained.degree.label).toBe('♭3');
    expect(explained.deepest).toBe(3);
    expect(explained.roles.map((role) => roleSentence(role, key))).toEqual([
      'over E7 (I7): G, the flat third',
      'over A7 (IV7): G, the flat seventh',
      'over B7 (V7): G, the flat sixth',
    ]);
  });

  it('follows concert pitch and temperament', () => {
    const { frequency, cents } = explain(A, note('2'), key, chords, { concertA: 442, temperament: TEMPERAMENTS[2] });
    expect(cents).toBeCloseTo(-13.69, 2);
    expect(frequency).toBeCloseTo(442 * 2 ** ((61 - 69) / 12) * 2 ** (-13.69 / 1200), 2);
  });

  it('says of a reed that it does not bend on the breath that cannot', () => {
    expect(explain(A, note('3'), key, chords).deepest).toBe(0);
    expect(explain(A, note('9'), key, chords).deepest).toBe(1);
  });
});

it('counts degrees from the tonic, whatever the octave', () => {
  expect([64, 76, 67, 59].map((midi) => degreeIn(midi, key).label)).toEqual(['1', '1', '♭3', '5']);
});

it('names a quarter step by the degree above it', () => {
  expect([67.5, 79.5, 70.5].map((midi) => degreeIn(midi, key).label)).toEqual(['n3', 'n3', '↓5']);
  expect(degreeIn(67.5, key).semitones).toBe(3.5);
  expect(degreeIn(63.5, key).semitones).toBe(11.5);
});
