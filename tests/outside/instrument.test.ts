/** The harp's reeds, bends and overbends against published layouts. Each check names its source. */
import { describe, expect, it } from 'vitest';
import { bendsOfHole, sounding } from '../../src/instrument/bend.ts';
import { type Harp, namedOnHarp, readHarp, reed } from '../../src/instrument/harp.ts';
import { plainName } from '../../src/instrument/pitch.ts';
import { notesOf, tabOf } from '../../src/instrument/playable.ts';
import { RICHTER, TUNINGS, type Tuning } from '../../src/instrument/tuning.ts';
import { present, valueAt } from '../../src/values/checked.ts';

const harp = (name: string, tuning: Tuning = RICHTER): Harp => {
  const read = readHarp(name, tuning);
  if (!read) throw new Error(`no harp ${name}`);
  return read;
};
const tuning = (id: string): Tuning =>
  present(
    TUNINGS.find((row) => row.id === id),
    'the tuning',
  );
const range = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);
const midi = (tab: string, on: Harp): number => {
  const note = notesOf(on).find((each) => tabOf(each) === tab);
  if (!note) throw new Error(`no ${tab}`);
  return note.midi;
};
const LETTERS = new Map(Object.entries({ C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 }));
/** MIDI number of `Bb4`, by the scientific octave numbers. */
const number = (name: string): number => {
  const at = valueAt(LETTERS, name.charAt(0));
  return 12 * (Number(name.at(-1)) + 1) + at + (name[1] === 'b' ? -1 : name[1] === '#' ? 1 : 0);
};

describe('the Richter layout (encyclopaedia article "Richter-tuned harmonica", key of C)', () => {
  const C = harp('C');
  it('has the published blow and draw notes', () => {
    expect(range(10).map((hole) => reed(C, hole, 'blow'))).toEqual([60, 64, 67, 72, 76, 79, 84, 88, 91, 96]);
    expect(range(10).map((hole) => reed(C, hole, 'draw'))).toEqual([62, 67, 71, 74, 77, 81, 83, 86, 89, 93]);
  });

  it('has nineteen different notes on its twenty reeds', () => {
    const reeds = range(10).flatMap((hole) => [reed(C, hole, 'blow'), reed(C, hole, 'draw')]);
    expect(reeds).toHaveLength(20);
    expect(new Set(reeds).size).toBe(19);
  });

  // Computed in the source sheet from the dual-reed rule, hole by hole, deepest bend last.
  const BENDS: Readonly<Record<number, readonly string[]>> = {
    1: ['Db4'], 2: ['Gb4', 'F4'], 3: ['Bb4', 'A4', 'Ab4'], 4: ['Db5'], 5: [], 6: ['Ab5'], 7: [], 8: ['Eb6'], 9: ['Gb6'], 10: ['B6', 'Bb6'],
  }; // biome-ignore format: one row
  it.each(range(10))('bends hole %i as far as its two reeds allow and no further', (hole) => {
    const breath = hole <= 6 ? 'draw' : 'blow';
    const expected = present(BENDS[hole], `hole ${hole}`).map(number);
    const { deepest } = bendsOfHole(C, hole);
    expect(deepest).toBe(expected.length);
    const bent = expected.map((_, index) => sounding(C, breath, { hole, bend: index + 1, over: false, slide: false }));
    expect(bent).toEqual(expected.map((each) => ({ midi: each })));
    const other = breath === 'draw' ? 'blow' : 'draw';
    expect(sounding(C, other, { hole, bend: 1, over: false, slide: false })).toHaveProperty('fault');
    expect(sounding(C, breath, { hole, bend: expected.length + 1, over: false, slide: false })).toHaveProperty('fault');
  });

  it('overbends a half step above the higher reed (nominal, common practice, no source)', () => {
    const overblows = ['Eb4', 'Ab4', 'C5', 'Eb5', 'Gb5', 'Bb5'].map(number);
    const overdraws = ['Db6', 'F6', 'Ab6', 'Db7'].map(number);
    expect(range(6).map((hole) => midi(`${hole}o`, C))).toEqual(overblows);
    expect([7, 8, 9, 10].map((hole) => midi(`-${hole}o`, C))).toEqual(overdraws);
  });

  it('lacks exactly six notes from C4 to C7 without overbends, and none with them', () => {
    const all = notesOf(C);
    const has = (each: number, over: boolean) => all.some((note) => note.midi === each && (over || !note.over));
    const span = Array.from({ length: 37 }, (_, index) => 60 + index);
    expect(span.filter((each) => !has(each, false))).toEqual(['Eb4', 'Eb5', 'Gb5', 'Bb5', 'Db6', 'Ab6'].map(number));
    expect(span.filter((each) => !has(each, true))).toEqual([]);
    expect(new Set(all.filter((note) => !note.over).map((note) => note.midi)).size).toBe(31);
  });

  it('splits into true octaves at the published holes, and not elsewhere', () => {
    const gap = (breath: 'blow' | 'draw', low: number, high: number) => reed(C, high, breath) - reed(C, low, breath);
    for (const [low, high] of [[1, 4], [2, 5], [3, 6], [4, 7], [5, 8], [6, 9], [7, 10]] as const) expect(gap('blow', low, high)).toBe(12);
    for (const [low, high] of [[1, 4], [3, 7], [4, 8], [5, 9], [6, 10]] as const) expect(gap('draw', low, high)).toBe(12);
    expect([gap('draw', 2, 5), gap('draw', 2, 6), gap('draw', 1, 5)]).toEqual([10, 14, 15]);
  }); // biome-ignore format: pairs
});

describe('the twelve keys (same article: G to B start below middle C, D to F above; Db above and F# on top from a mirror of an older version)', () => {
  it.each([
    ['G', 55], ['Ab', 56], ['A', 57], ['Bb', 58], ['B', 59], ['C', 60],
    ['Db', 61], ['D', 62], ['Eb', 63], ['E', 64], ['F', 65], ['F#', 66],
  ] as const)('a harp in %s begins on %i', (key, first) => {
    expect(reed(harp(key), 1, 'blow')).toBe(first);
    expect(reed(harp(key), 10, 'blow')).toBe(first + 36);
  }); // biome-ignore format: a table

  it('puts low and high harps an octave away (common practice, no source)', () => {
    expect(reed(harp('low F'), 1, 'blow')).toBe(53);
    expect(reed(harp('high G'), 1, 'blow')).toBe(67);
  });

  it('spells an A and a B harp in their own keys', () => {
    const row = (key: string, breath: 'blow' | 'draw') =>
      range(10)
        .map((hole) => plainName(namedOnHarp(harp(key), reed(harp(key), hole, breath))))
        .join(' ');
    expect(row('A', 'blow')).toBe('A C# E A C# E A C# E A');
    expect(row('A', 'draw')).toBe('B E G# B D F# G# B D F#');
    expect(row('B', 'blow')).toBe('B D# F# B D# F# B D# F# B');
    expect(row('B', 'draw')).toBe('C# F# A# C# E G# A# C# E G#');
  });
});

describe('the other tunings, on C', () => {
  const notes = (id: string, breath: 'blow' | 'draw') =>
    tuning(id)
      [breath].map((semitones) => plainName(namedOnHarp(harp('C', tuning(id)), 60 + semitones)))
      .join(' ');

  it('raises the third blow and the fifth draw (Eyers, "Shift Tuning", HarmonicaUK Magazine, Winter 2022)', () => {
    expect(notes('raised-third-blow', 'blow')).toBe('C E A C E G C E G C');
    expect(notes('raised-third-blow', 'draw')).toBe(notes('richter', 'draw'));
    expect(notes('raised-fifth-draw', 'draw')).toBe('D G B D F# A B D F A');
    expect(notes('raised-fifth-draw', 'blow')).toBe(notes('richter', 'blow'));
  });

  it('has both minor tunings (encyclopaedia article, "Specially-tuned instruments", from a mirror)', () => {
    expect(notes('natural-minor', 'blow')).toBe('C Eb G C Eb G C Eb G C');
    expect(notes('natural-minor', 'draw')).toBe('D G Bb D F A Bb D F A');
    expect(notes('harmonic-minor', 'blow')).toBe('C Eb G C Eb G C Eb G C');
    expect(notes('harmonic-minor', 'draw')).toBe('D G B D F Ab B D F Ab');
  });

  it('lays the solo tuning out in fours from middle C to C7, a half step higher with the slide (encyclopaedia articles "Solo tuning" and "Chromatic harmonica")', () => {
    expect(notes('solo-chromatic', 'blow')).toBe('C E G C C E G C C E G C');
    expect(notes('solo-chromatic', 'draw')).toBe('D F A B D F A B D F A B');
    const solo = harp('C', tuning('solo-chromatic'));
    expect([midi('1', solo), midi('12', solo), midi('-12', solo)]).toEqual([60, 96, 95]);
    for (const hole of range(12)) {
      expect(midi(`${hole}*`, solo)).toBe(midi(`${hole}`, solo) + 1);
      expect(midi(`-${hole}*`, solo)).toBe(midi(`-${hole}`, solo) + 1);
    }
    const all = new Set(notesOf(solo).map((note) => note.midi));
    for (let each = 60; each <= 97; each++) expect(all.has(each)).toBe(true);
  });

  // Computed from the dual-reed rule; no published bend table for these tunings was available.
  it('bends the changed holes as the rule of two reeds says', () => {
    const bends = (id: string, hole: number) =>
      notesOf(harp('C', tuning(id)))
        .filter((note) => note.hole === hole && note.bend > 0)
        .map((note) => note.midi);
    expect(bends('raised-fifth-draw', 5)).toEqual([number('F5')]);
    expect(bends('raised-third-blow', 3)).toEqual([number('Bb4')]);
    expect(bends('natural-minor', 2)).toEqual(['Gb4', 'F4', 'E4'].map(number));
    expect(bends('natural-minor', 3)).toEqual(['A4', 'Ab4'].map(number));
  });
});

describe('the two-reed rule (Bahnson, Antaki & Beery, J. Acoust. Soc. Am. 103(4), 1998, abstract)', () => {
  it('keeps every bend between the two notes of its hole, and every overbend outside them', () => {
    for (const row of TUNINGS) {
      const on = harp('C', row);
      for (const note of notesOf(on).filter(({ slide }) => !slide)) {
        const two = [reed(on, note.hole, 'blow'), reed(on, note.hole, 'draw')];
        if (note.bend > 0) expect(note.midi > Math.min(...two) && note.midi < Math.max(...two)).toBe(true);
        if (note.over) expect(note.midi < Math.min(...two) || note.midi > Math.max(...two)).toBe(true);
      }
    }
  });
});
