import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readHarp } from '../../src/instrument/harp.ts';
import { type PitchClass, plainName, plainPitch, readPitchClass } from '../../src/instrument/pitch.ts';
import { tabOf } from '../../src/instrument/playable.ts';
import { layOut, missingOf, SCALES, scaleNoteNames, scaleOf, stepsOf } from '../../src/instrument/scale.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';
import { KEYS, someHarp } from './some-harp.ts';

const C = present(readHarp('C', RICHTER), 'the harp');
const key = (name: string): PitchClass => present(readPitchClass(name), 'the pitch class');

describe('the table of scales', () => {
  it.each(SCALES.map(({ id }) => id))('has %s rise from its tonic within an octave', (id) => {
    const semitones = stepsOf(present(scaleOf(id), 'the scale')).map((step) => step.semitones);
    expect(semitones[0]).toBe(0);
    expect(semitones).toEqual([...new Set(semitones)].sort((a, b) => a - b));
  });

  it('knows no scale it has no row for', () => {
    expect(scaleOf('bebop')).toBeUndefined();
  });
});

describe('the names of a scale', () => {
  it('need no double sign in any key with a usual name', () => {
    for (const tonic of KEYS) {
      for (const scale of SCALES) {
        const names = scaleNoteNames(tonic, stepsOf(scale));
        expect(names.every(({ alter }) => Math.abs(alter) <= 1)).toBe(true);
      }
    }
  });

  it('keep the tonic where it serves, and rename it where it does not', () => {
    expect(
      scaleNoteNames(key('Eb'), stepsOf(present(scaleOf('blues'), 'the scale')))
        .map(plainName)
        .join(' '),
    ).toBe('Eb Gb Ab A Bb Db');
    expect(
      scaleNoteNames(key('Gb'), stepsOf(present(scaleOf('aeolian'), 'the scale')))
        .map(plainName)
        .join(' '),
    ).toBe('F# G# A B C# D E');
  });
});

describe('the names of a scale with many signs', () => {
  it.each([
    ['Db', 'ionian', 'Db Eb F Gb Ab Bb C'],
    ['C#', 'ionian', 'C# D# E# F# G# A# B#'],
    ['C#', 'lydian', 'Db Eb F G Ab Bb C'],
    ['Db', 'aeolian', 'C# D# E F# G# A B'],
    ['Cb', 'dorian', 'B C# D E F# G# A'],
  ])('%s %s is %s', (tonic, id, names) => {
    const scale = present(scaleOf(id), id);
    expect(scaleNoteNames(key(tonic), stepsOf(scale)).map(plainName).join(' ')).toBe(names);
  });

  it('have steps with the signs a reader sees', () => {
    expect(stepsOf(present(scaleOf('lydian'), 'lydian')).map(({ label }) => label)).toContain('♯4');
    expect(stepsOf(present(scaleOf('blues'), 'blues')).map(({ label }) => label)).toContain('♭5');
  });
});

describe('a scale laid out on a harp', () => {
  const heights = (tonic: string) =>
    layOut(C, key(tonic), stepsOf(present(scaleOf('ionian'), 'the scale'))).map(({ pitch }) => plainPitch(pitch));

  it('goes from the lowest reed to the highest, and not on to an overbend', () => {
    expect([heights('C')[0], heights('C').at(-1)]).toEqual(['C4', 'C7']);
    expect(heights('Db').at(-1)).toBe('C7');
  });

  it('misses what no reed, bend or overbend gives', () => {
    const valved = { ...C, tuning: { ...RICHTER, valves: true } };
    const laid = layOut(valved, key('C'), stepsOf({ degrees: '1 b2' }));
    expect(missingOf(laid).map(({ pitch }) => plainPitch(pitch))).toEqual(['Db4', 'Db5', 'Db6']);
  });

  it('names the notes the harp lacks, with the overbend that would give them', () => {
    const laid = layOut(C, key('C'), stepsOf(present(scaleOf('blues'), 'the scale')));
    const missing = missingOf(laid).map(({ pitch, places }) =>
      `${plainPitch(pitch)} ${places.map(tabOf).join(' ')}`.trim(),
    );
    expect(missing).toEqual(['Eb4 1o', 'Eb5 4o', 'Gb5 5o', 'Bb5 6o']);
  });

  it('lacks nothing of its own major scale but what lies between the holes', () => {
    const laid = layOut(C, key('C'), stepsOf(present(scaleOf('ionian'), 'the scale')));
    expect(missingOf(laid)).toEqual([]);
    expect(laid.filter(({ means }) => means === 'bend').map(({ pitch }) => plainPitch(pitch))).toEqual([
      'F4',
      'A4',
      'B6',
    ]);
  });

  it('gives each note at its height with all its places, on any harp and tonic', () => {
    fc.assert(
      fc.property(someHarp(), fc.constantFrom(...KEYS), fc.constantFrom(...SCALES), (harp, tonic, scale) => {
        const laid = layOut(harp, tonic, stepsOf(scale));
        for (const { pitch, places, means } of laid) {
          expect(places.every(({ midi }) => midi === pitch.midi)).toBe(true);
          expect(means === undefined).toBe(places.length === 0);
        }
        const heights = laid.map(({ pitch }) => pitch.midi);
        expect(heights).toEqual([...new Set(heights)].sort((a, b) => a - b));
      }),
    );
  });
});
