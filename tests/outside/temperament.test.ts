/** Frequencies and tempered reeds against published standards and ratios. Each check names its source. */
import { describe, expect, it } from 'vitest';
import { type Harp, readHarp } from '../../src/instrument/harp.ts';
import { notesOf, tabOf } from '../../src/instrument/playable.ts';
import {
  CONCERT_A,
  centsOf,
  centsOfRatio,
  frequencyOf,
  frequencyOfMidi,
  ratioToKey,
  TEMPERAMENTS,
} from '../../src/instrument/temperament.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { itemAt, present } from '../../src/values/checked.ts';

const [, compromise, just] = TEMPERAMENTS;
const harp = (name: string): Harp => present(readHarp(name, RICHTER), 'the harp');
const note = (tab: string, on: Harp) => {
  const found = notesOf(on).find((each) => tabOf(each) === tab);
  if (!found) throw new Error(`no ${tab}`);
  return found;
};
const cents = (tab: string, temperament: (typeof TEMPERAMENTS)[number]) => {
  const found = note(tab, harp('C'));
  return centsOf(harp('C'), found.breath, found, temperament);
};

describe('equal temperament', () => {
  it('takes A4 as 440 Hz (ISO 16:1975, from memory)', () => {
    expect(CONCERT_A).toBe(440);
    expect(frequencyOfMidi(69)).toBe(440);
  });

  // f = 440 · 2^((n − 69) / 12), worked out to two decimals outside this project.
  it.each([
    [60, 261.63], [61, 277.18], [62, 293.66], [63, 311.13], [64, 329.63], [65, 349.23],
    [66, 369.99], [67, 392.0], [68, 415.3], [69, 440.0], [70, 466.16], [71, 493.88],
    [72, 523.25], [81, 880.0], [84, 1046.5], [95, 1975.53],
  ])('note %i sounds at %f Hz', (midi, hertz) => {
    expect(frequencyOfMidi(midi)).toBeCloseTo(hertz, 2);
  }); // biome-ignore format: a table

  // Hole 1 blow of the twelve keys, computed from the layout's octaves.
  it.each([
    ['G', 196.0], ['Ab', 207.65], ['A', 220.0], ['Bb', 233.08], ['B', 246.94], ['C', 261.63],
    ['Db', 277.18], ['D', 293.66], ['Eb', 311.13], ['E', 329.63], ['F', 349.23], ['F#', 369.99],
    ['low F', 174.61],
  ] as const)('hole 1 blow of a harp in %s is at %f Hz', (key, hertz) => {
    const found = note('1', harp(key));
    expect(frequencyOf(harp(key), found.breath, found)).toBeCloseTo(hertz, 2);
  }); // biome-ignore format: a table

  it('moves with concert A: 443 Hz is 11.76 cents up, 442 is 7.85 (Hansson)', () => {
    const up = (a: number) => 1200 * Math.log2(frequencyOfMidi(60, a) / frequencyOfMidi(60));
    expect(up(443)).toBeCloseTo(11.76, 2);
    expect(up(442)).toBeCloseTo(7.85, 2);
  });
});

describe('just temperament (Hansson, "Theory of harmonica tuning", seven-limit scheme with the draw chord of holes 2 to 5 beatless)', () => {
  const PUBLISHED: Readonly<Record<string, number>> = {
    '1': 0, '2': -14, '3': 2, '4': 0, '5': -14, '6': 2, '7': 0, '8': -14, '9': 2, '10': 0,
    '-1': 4, '-2': 2, '-3': -12, '-4': 4, '-5': -29, '-6': 6, '-7': -12, '-8': 4, '-9': -29, '-10': 6,
  }; // biome-ignore format: a table
  it.each(Object.entries(PUBLISHED))('%s lies %i cents from equal', (tab, published) => {
    expect(Math.round(cents(tab, just))).toBe(published);
  });

  it.each([
    ['-1', [9, 8]], ['-2', [3, 2]], ['-3', [15, 8]], ['-5', [21, 16]], ['-6', [27, 16]], ['2', [5, 4]], ['3', [3, 2]],
  ] as const)('%s is in its published ratio to the key note', (tab, ratio) => {
    const found = note(tab, harp('C'));
    expect(ratioToKey(RICHTER, found.breath, found.midi - 60)).toEqual(ratio);
  }); // biome-ignore format: a table

  it.each([
    [[5, 4], 386.31], [[3, 2], 701.96], [[9, 8], 203.91], [[15, 8], 1088.27], [[21, 16], 470.78], [[27, 16], 905.87], [[7, 4], 968.83], [[4, 3], 498.04], [[27, 20], 519.55],
  ] as const)('%j is %f cents', (ratio, size) => {
    expect(centsOfRatio(ratio)).toBeCloseTo(size, 1);
  }); // biome-ignore format: a table

  it('makes the draw chord of holes 2 to 5 are as 4 : 5 : 6 : 7', () => {
    const hertz = ['-2', '-3', '-4', '-5'].map((tab) => {
      const found = note(tab, harp('A'));
      return frequencyOf(harp('A'), found.breath, found, { temperament: just });
    });
    const lowest = itemAt(hertz, 0);
    expect(hertz.map((each) => (4 * each) / lowest)).toEqual([4, 5, 6, 7].map((each) => expect.closeTo(each, 9)));
  });

  it('makes a minor draw chord are as 10 : 12 : 15 : 18, whose seventh is the published 27/20 over the key note', () => {
    const minor = TUNINGS.find(({ id }) => id === 'natural-minor');
    if (!minor) throw new Error('no natural minor');
    expect(ratioToKey(minor, 'draw', 17)).toEqual([27, 20]);
    expect(ratioToKey(minor, 'draw', 10)).toEqual([9, 5]);
  });

  it('tunes the solo layout to its draw chord of the second, as the published third-position scheme does (27/20, 27/16)', () => {
    const solo = TUNINGS.find(({ id }) => id === 'solo-chromatic');
    if (!solo) throw new Error('no solo tuning');
    expect([2, 5, 9, 11].map((semitones) => ratioToKey(solo, 'draw', semitones))).toEqual([
      [9, 8],
      [27, 20],
      [27, 16],
      [15, 8],
    ]);
  });
});

describe('the compromise', () => {
  it('comes within a cent of the published half-tempered one: roots 0, fifths +1, thirds -7.5 (Missin, "Compromise temperaments for the harmonica")', () => {
    for (const [tab, published] of [['1', 0], ['4', 0], ['3', 1], ['6', 1], ['2', -7.5], ['5', -7.5]] as const) {
      expect(Math.abs(cents(tab, compromise) - published)).toBeLessThanOrEqual(1);
    }
  }); // biome-ignore format: pairs
});
