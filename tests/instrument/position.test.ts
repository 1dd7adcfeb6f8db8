import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Harp, readHarp } from '../../src/instrument/harp.ts';
import { plainName } from '../../src/instrument/pitch.ts';
import { tabOf } from '../../src/instrument/playable.ts';
import {
  namedTonic,
  ordinal,
  POSITIONS,
  positionFor,
  positionInWords,
  positionName,
  positionOn,
} from '../../src/instrument/position.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';
import { someHarp } from './some-harp.ts';

const on = (tuning: string): Harp => ({
  ...present(readHarp('C', RICHTER), 'the harp'),
  tuning: TUNINGS.find(({ id }) => id === tuning) ?? RICHTER,
});

describe('a position', () => {
  it('says which degrees lie on reeds, which take a bend and which only an overbend', () => {
    const second = positionOn(on('richter'), 2);
    const by = (means: string) =>
      second.degrees
        .filter((each) => each.means === means)
        .map(({ step }) => step.label)
        .join(' ');
    expect(by('reed')).toBe('1 2 3 4 5 6 ♭7');
    expect(by('bend')).toBe('♭2 ♭3 ♭5 ♭6 7');
    expect(by('overbend')).toBe('');
    const thirds = second.degrees.find(({ step }) => step.label === '♭3');
    expect(thirds?.places.map(tabOf)).toEqual(["-3'", '6o', "10''"]);
  });

  it('finds the mode of another tuning from its reeds', () => {
    const modes = (tuning: string, number: number) => positionOn(on(tuning), number).modes.map(({ id }) => id);
    expect(modes('natural-minor', 2)).toEqual(['aeolian']);
    expect(modes('natural-minor', 1)).toEqual(['dorian']);
    expect(modes('harmonic-minor', 1)).toEqual(['harmonic-minor']);
    expect(modes('harmonic-minor', 2)).toEqual([]);
    // Draw 5 is raised and draw 9 is not, so both forms are there.
    expect(modes('raised-fifth-draw', 2)).toEqual(['ionian', 'mixolydian']);
    expect(modes('solo-chromatic', 3)).toEqual(['dorian']);
  });

  it('has the church mode of its reeds, and its tonic is named after it', () => {
    const modes = POSITIONS.map((number) =>
      positionOn(on('richter'), number)
        .modes.map(({ id }) => id)
        .join(' '),
    );
    expect(modes.slice(0, 6)).toEqual(['ionian', 'mixolydian', 'dorian', 'aeolian', 'phrygian', 'locrian']);
    expect(modes.slice(6)).toEqual(['', '', '', '', '', 'lydian']);
    const A: Harp = { ...on('richter'), key: { letter: 'A', alter: 0 } };
    expect([positionOn(A, 5).tonic, namedTonic(positionOn(A, 5))].map(plainName)).toEqual(['Db', 'C#']);
    expect(plainName(namedTonic(positionOn(A, 8)))).toBe('Bb');
  });

  it('has its tonic on plain reeds, and not where it is bent', () => {
    const tonics = (number: number) => positionOn(on('richter'), number).tonicPlaces.map(tabOf);
    expect(tonics(2)).toEqual(['-2', '3', '6', '9']);
    expect(tonics(12)).toEqual(['-5', '-9']);
    expect(tonics(7)).toEqual([]);
  });

  it('is found again from its tonic, on any harp', () => {
    fc.assert(
      fc.property(someHarp(), fc.constantFrom(...POSITIONS), (harp, number) => {
        expect(positionFor(harp, positionOn(harp, number).tonic)).toBe(number);
      }),
    );
  });

  it('has its twelve degrees at distinct heights with every place in one of them, on any harp', () => {
    fc.assert(
      fc.property(someHarp(), fc.constantFrom(...POSITIONS), (harp, number) => {
        const { degrees, tonicPlaces } = positionOn(harp, number);
        expect(degrees).toHaveLength(12);
        const places = degrees.flatMap((degree) => degree.places.map(tabOf));
        expect(new Set(places).size).toBe(places.length);
        for (const place of tonicPlaces) expect(degrees[0]?.places).toContain(place);
      }),
    );
  });
});

it('names the three positions that have names, and all of them in words', () => {
  expect([1, 2, 3, 4].map(positionName)).toEqual(['straight', 'cross', 'slant', undefined]);
  expect(POSITIONS.map(ordinal).join(' ')).toBe(
    'first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth',
  );
  expect(ordinal(13)).toBe('13th');
  expect(positionInWords(12)).toBe('twelfth position');
  expect(plainName(positionOn(on('richter'), 12).tonic)).toBe('F');
});
