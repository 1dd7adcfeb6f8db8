import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  HARP_KEYS,
  harpName,
  keyNote,
  namedOnHarp,
  readHarp,
  reed,
  tonicInPosition,
} from '../../src/instrument/harp.ts';
import { plainName, readPitchClass } from '../../src/instrument/pitch.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';
import { someHarp } from './some-harp.ts';

const C = present(readHarp('C', RICHTER), 'the harp');

describe('readHarp', () => {
  it.each(['A', 'Bb', 'F#', 'low F', 'high G'])('reads %s and names it so again', (name) => {
    expect(harpName(present(readHarp(name, RICHTER), 'the harp'))).toBe(name);
  });

  it('takes any case and any number of spaces', () => {
    expect(harpName(present(readHarp(' LOW   f ', RICHTER), 'the harp'))).toBe('low F');
  });

  it('takes every key with up to six flats or seven sharps, and none beyond', () => {
    const isRead = (name: string) => readHarp(name, RICHTER) !== undefined;
    expect(['Gb', 'F#', 'C#'].filter(isRead)).toEqual(['Gb', 'F#', 'C#']);
    expect(['Cb', 'G#', 'D#'].filter(isRead)).toEqual([]);
  });

  it.each(['', 'H', 'low', 'lower F', 'Fb', 'E#', 'B#', 'low low F', 'C4', 'C sharp'])('refuses “%s”', (name) => {
    expect(readHarp(name, RICHTER)).toBeUndefined();
  });
});

describe('the names on a harp', () => {
  it('are those of its key, in every key and register', () => {
    fc.assert(
      fc.property(someHarp(), (harp) => {
        expect(plainName(namedOnHarp(harp, keyNote(harp)))).toBe(plainName(harp.key));
        expect(namedOnHarp(harp, keyNote(harp) + 7).midi).toBe(keyNote(harp) + 7);
      }),
    );
  });

  it('write a reed on the raised fourth with a sharp and a bend there with a flat', () => {
    const raised = present(
      TUNINGS.find(({ id }) => id === 'raised-fifth-draw'),
      'the tuning',
    );
    expect(plainName(namedOnHarp({ ...C, tuning: raised }, 78))).toBe('F#');
    expect(plainName(namedOnHarp(C, 78))).toBe('Gb');
  });

  it.each(TUNINGS.map(({ id }) => id))('are twelve different ones in %s', (id) => {
    const tuning = present(
      TUNINGS.find((row) => row.id === id),
      'the tuning',
    );
    const names = Array.from({ length: 12 }, (_, index) => plainName(namedOnHarp({ ...C, tuning }, 60 + index)));
    expect(new Set(names).size).toBe(12);
  });
});

describe('a harp', () => {
  const noteOf = (name: string) => keyNote(present(readHarp(name, RICHTER), name));

  it('has its key note from G3 to F#4, an octave lower where it is low and higher where it is high', () => {
    expect(['G', 'C', 'F#'].map(noteOf)).toEqual([55, 60, 66]);
    expect(['low F', 'F', 'high G'].map(noteOf)).toEqual([53, 65, 67]);
  });

  it('is sold in twelve keys, from G up', () => {
    expect(HARP_KEYS.map(plainName).join(' ')).toBe('G Ab A Bb B C Db D Eb E F F#');
  });

  it('has no reed beyond its last hole', () => {
    expect(reed(C, 10, 'blow')).toBe(96);
    expect(() => reed(C, 11, 'blow')).toThrow('hole 11 is not on a 10-hole harp');
  });

  it.each([
    ['C', 'C G D A E B F# Db Ab Eb Bb F'],
    ['A', 'A E B F# Db Ab Eb Bb F C G D'],
    ['Db', 'Db Ab Eb Bb F C G D A E B Gb'],
  ])('in %s has its tonics a fifth apart, with flats from the eighth position on', (name, tonics) => {
    const key = present(readPitchClass(name), name);
    const all = Array.from({ length: 12 }, (_, index) => plainName(tonicInPosition(key, index + 1)));
    expect(all.join(' ')).toBe(tonics);
  });
});
