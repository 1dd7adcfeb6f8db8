import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bendsOfHole, deepestQuarterStep, sounding } from '../../src/instrument/bend.ts';
import { easiestHoles } from '../../src/instrument/easiest-holes.ts';
import { HARP_KEYS, type Harp, holeCount, namedOnHarp, readHarp, reed } from '../../src/instrument/harp.ts';
import { chromaOf, plainPitch, printedPitch, readPitchClass } from '../../src/instrument/pitch.ts';
import { inWords, notesOf, placesOfPitch, quarterStepsOf, tabOf } from '../../src/instrument/playable.ts';
import { endsInQuarter, quarterBelow, quarterLabel } from '../../src/instrument/quarter-step.ts';
import { centsOf, frequencyOf, TEMPERAMENTS } from '../../src/instrument/temperament.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';

const C = present(readHarp('C', RICHTER), 'the harp');
const plain = { over: false, slide: false };
const anyHarp = fc
  .record({ key: fc.constantFrom(...HARP_KEYS), tuning: fc.constantFrom(...TUNINGS) })
  .map(({ key, tuning }): Harp => ({ key, register: 'standard', tuning }));

describe('the quarter steps of a harp', () => {
  it('lie between the notes of a hole, and where two reeds are a half step apart', () => {
    expect(quarterStepsOf(C).map(tabOf)).toEqual([
      ...['-1q', '-2q', "-2'q", '-3q', "-3'q", "-3''q", '-4q', '-5q', '-6q'],
      ...['7q', '8q', '9q', '10q', "10'q"],
    ]);
  });

  it('are 50 cents below the upper half step, however the harp is tuned', () => {
    fc.assert(
      fc.property(anyHarp, fc.constantFrom(...TEMPERAMENTS), (harp, temperament) => {
        for (const note of quarterStepsOf(harp)) {
          const upper = { ...note, bend: note.bend - 0.5 };
          expect(note.midi).toBe(reed(harp, note.hole, note.breath) - note.bend + (note.slide ? 1 : 0));
          const [own, above] = [note, upper].map((one) => frequencyOf(harp, note.breath, one, { temperament }));
          expect(1200 * Math.log2((above ?? 0) / (own ?? 1))).toBeCloseTo(50, 6);
          expect(centsOf(harp, note.breath, note, temperament)).toBe(centsOf(harp, note.breath, upper, temperament));
        }
      }),
    );
  });

  it('are all that a hole can bend to besides its half steps', () => {
    fc.assert(
      fc.property(anyHarp, (harp) => {
        const found = new Set(quarterStepsOf(harp).map(tabOf));
        for (let hole = 1; hole <= holeCount(harp); hole++)
          for (const breath of ['blow', 'draw'] as const)
            for (let bend = 0.5; bend < 6; bend++) {
              const sound = sounding(harp, breath, { ...plain, hole, bend });
              expect('midi' in sound).toBe(found.has(tabOf({ ...plain, hole, bend, breath })));
            }
      }),
    );
  });

  it('have a fault of their own below the deepest bend', () => {
    const fault = (hole: number, bend: number) => sounding(C, 'draw', { ...plain, hole, bend });
    expect(fault(2, 2.5)).toEqual({ fault: 'quarter-too-deep' });
    expect(fault(2, 3.5)).toEqual({ fault: 'bend-too-deep' });
    expect(fault(5, 1.5)).toEqual({ fault: 'no-bend' });
    expect(fault(7, 0.5)).toEqual({ fault: 'no-bend' });
    expect(deepestQuarterStep(bendsOfHole(C, 2))).toBe(1.5);
    expect(deepestQuarterStep({ bends: undefined, deepest: 0, overbends: undefined })).toBe(0);
  });

  it('are found by their pitch, and are none of the notes that a harp has without being asked for them', () => {
    expect(placesOfPitch(C, 70.5).map(tabOf)).toEqual(['-3q']);
    expect(placesOfPitch(C, 66.5).map(tabOf)).toEqual(['-2q']);
    expect(placesOfPitch(C, 75.5)).toEqual([]);
    expect(notesOf(C).some(({ midi }) => endsInQuarter(midi))).toBe(false);
    const found = easiestHoles(C, [{ pitches: [70.5], glides: false, sideBySide: true }]);
    expect(found?.sounds).toMatchObject([{ breath: 'draw', notes: [{ hole: 3, bend: 0.5 }] }]);
    expect(easiestHoles(C, [{ pitches: [75.5], glides: false, sideBySide: true }])).toBe(undefined);
  });

  it('are read aloud as what is bent', () => {
    const words = (hole: number, bend: number) => inWords({ ...plain, hole, bend, breath: 'draw' });
    expect(words(3, 0.5)).toBe('draw 3, quarter-step bend');
    expect(words(3, 2.5)).toBe('draw 3, whole-step bend and a quarter step');
  });
});

describe('a quarter step is named', () => {
  it('after the note it is below', () => {
    const below = (name: string, midi: number) =>
      quarterBelow({ ...present(readPitchClass(name), name), octave: 4, midi });
    expect(plainPitch(below('B', 71))).toBe('Bq4');
    expect(printedPitch(below('Bb', 70))).toBe('B♭↓4');
    expect(printedPitch(below('F#', 66))).toBe('F♯↓4');
    expect(below('F#', 66)).toMatchObject({ letter: 'F', alter: 0.5, midi: 65.5 });
    // No sign lowers a double flat.
    expect(quarterBelow({ letter: 'B', alter: -2, octave: 4, midi: 69 })).toEqual({
      ...{ letter: 'A', alter: -0.5, octave: 4, midi: 68.5 },
    });
    expect(plainPitch(namedOnHarp(C, 69.5))).toBe('Bbq4');
  });

  it('so that its name sounds as it does', () => {
    fc.assert(
      fc.property(anyHarp, (harp) => {
        for (const { midi } of quarterStepsOf(harp)) {
          const pitch = namedOnHarp(harp, midi);
          expect([chromaOf(pitch), pitch.midi]).toEqual([midi % 12, midi]);
        }
      }),
    );
  });

  it('as a role by the neutral interval, or by an arrow', () => {
    expect(['R', '♭9', '2', '♭3', '3', '4', '5', '6', '♭7', '7', '9', '11'].map(quarterLabel)).toEqual([
      ...['↓R', '↓♭9', 'n2', '↓♭3', 'n3', '↓4', '↓5', 'n6', '↓♭7', 'n7', '↓9', '↓11'],
    ]);
  });
});
