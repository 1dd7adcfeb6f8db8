import { describe, expect, test } from 'vitest';
import { plainKey } from '../../src/harmony/key.ts';
import { keyOfSong } from '../../src/harmony/song-key.ts';
import { POSITIONS, positionOn } from '../../src/instrument/position.ts';
import { stepsOf } from '../../src/instrument/scale.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';

const keyOn = (id: string, position: number, ...symbols: string[]): string => {
  const tuning = TUNINGS.find((one) => one.id === id);
  if (!tuning) throw new Error(`no tuning ${id}`);
  return plainKey(keyOfSong({ key: { letter: 'C', alter: 0 }, register: 'standard', tuning }, position, symbols));
};

describe('the key of a song without a home chord', () => {
  test.each([
    ['richter', ['C major', 'G major', 'D minor', 'A minor', 'E minor', 'B minor', 'F# minor', 'Db major']],
    ['natural-minor', ['C minor', 'G minor', 'D minor']],
    ['harmonic-minor', ['C minor', 'G major', 'D minor']],
    ['raised-third-blow', ['C major', 'G major', 'D minor']],
    // All twelve notes are plain reeds of a harp with a slide only when it is pressed: its scale is that of the key note.
    ['solo-chromatic', ['C major', 'G major', 'D minor', 'A minor', 'E minor', 'B minor']],
  ])('on %s, first position onwards, is what the reeds play', (tuning, keys) => {
    expect(keys.map((_, index) => keyOn(tuning, index + 1))).toEqual(keys);
  });
});

test('a tuning that is stamped minor in a position is in minor there, whatever its reeds', () => {
  const tuning = { ...RICHTER, stamped: { position: 2, mode: 'minor' } } as const;
  const harp = { key: { letter: 'C', alter: 0 }, register: 'standard', tuning } as const;
  expect([1, 2].map((position) => plainKey(keyOfSong(harp, position)))).toEqual(['C major', 'G minor']);
});

test('where all scales on the plain reeds of a position are of one mode, the key is of that mode', () => {
  const known = TUNINGS.flatMap((tuning) =>
    POSITIONS.flatMap((position) => {
      const { modes } = positionOn({ key: { letter: 'C', alter: 0 }, register: 'standard', tuning }, position);
      const thirds = new Set(modes.map((scale) => stepsOf(scale).some(({ semitones }) => semitones === 3)));
      const [minor] = thirds;
      return thirds.size === 1 ? [{ tuning: tuning.id, position, mode: minor ? 'minor' : 'major' }] : [];
    }),
  );
  expect(known.length).toBeGreaterThan(30);
  for (const { tuning, position, mode } of known)
    expect(keyOn(tuning, position), `${tuning}, position ${position}`).toMatch(mode);
});

describe('the home chord decides over the reeds', () => {
  test.each([
    ['a numeral', 'richter', 2, ['i7', 'iv7'], 'G minor'],
    ['a numeral that is not the first', 'richter', 2, ['iv7', 'V7', 'i'], 'G minor'],
    ['a major chord in a position of minor', 'richter', 3, ['I7', 'IV7'], 'D major'],
    ['a chord by its name', 'richter', 2, ['Gm7', 'Cm7'], 'G minor'],
    ['a chord by its name in major', 'natural-minor', 2, ['G7'], 'G major'],
    ['the first of two that differ', 'richter', 2, ['I', 'i'], 'G major'],
    ['not a chord over a tonic bass', 'richter', 2, ['C/G', 'Gm'], 'G minor'],
    ['not a chord without a third', 'richter', 3, ['I5', 'D5'], 'D minor'],
    ['not a chord that leads to another step', 'richter', 2, ['V7/iv', 'iv', 'i'], 'G minor'],
    ['not a suspended chord', 'richter', 2, ['Gsus4', 'Gm'], 'G minor'],
    ['not another degree', 'richter', 2, ['iv', 'ii7', 'bIII'], 'G major'],
    ['not what cannot be read', 'richter', 2, ['?', 'Gm'], 'G minor'],
  ])('%s', (_, tuning, position, symbols, key) => {
    expect(keyOn(tuning, position, ...symbols)).toBe(key);
  });
});
