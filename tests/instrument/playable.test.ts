import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sounding } from '../../src/instrument/bend.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import {
  inWords,
  MEANS,
  meansOf,
  notesOf,
  notesOfHole,
  placesOfPitch,
  tabOf,
  tabOfNotes,
} from '../../src/instrument/playable.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';
import { someHarp } from './some-harp.ts';

const C = present(readHarp('C', RICHTER), 'the harp');

describe('the notes of a harp', () => {
  it('are reeds, then bends from shallow to deep, then the overbend', () => {
    expect(notesOfHole(C, 3).map(tabOf)).toEqual(['3', '-3', "-3'", "-3''", "-3'''", '3o']);
    expect(notesOfHole(C, 10).map(tabOf)).toEqual(['10', '-10', "10'", "10''", '-10o']);
  });

  it('come once more with the slide pressed, on a harp that has one', () => {
    const solo = {
      ...C,
      tuning: present(
        TUNINGS.find(({ id }) => id === 'solo-chromatic'),
        'the tuning',
      ),
    };
    expect(notesOfHole(solo, 1).map(tabOf)).toEqual(['1', '-1', '1*', '-1*']);
  });

  it('each have a place of their own and sound as the reeds say, on any harp', () => {
    fc.assert(
      fc.property(someHarp(), (harp) => {
        const notes = notesOf(harp);
        expect(new Set(notes.map(tabOf)).size).toBe(notes.length);
        for (const note of notes) expect(sounding(harp, note.breath, note)).toEqual({ midi: note.midi });
      }),
    );
  });
});

describe('the places of a pitch', () => {
  it('begin with the easiest', () => {
    expect(placesOfPitch(C, 67).map(tabOf)).toEqual(['-2', '3']);
    expect(placesOfPitch(C, 68).map(tabOf)).toEqual(["-3'''", '2o']);
    expect(placesOfPitch(C, 63).map(tabOf)).toEqual(['1o']);
    expect(placesOfPitch(C, 40)).toEqual([]);
  });

  it('are reeds before the slide, and shallow bends before deep ones', () => {
    const solo = present(
      TUNINGS.find(({ id }) => id === 'solo-chromatic'),
      'the tuning',
    );
    expect(placesOfPitch({ ...C, tuning: solo }, 65).map(tabOf)).toEqual(['-2', '2*']);
    const own = { id: 'own', title: 'Own', blow: [0, 0], draw: [5, 4] };
    expect(placesOfPitch({ ...C, tuning: own }, 63).map(tabOf)).toEqual(["-2'", "-1''"]);
  });

  it('are in order of means on any harp', () => {
    fc.assert(
      fc.property(someHarp(), fc.integer({ min: 40, max: 110 }), (harp, midi) => {
        const order = placesOfPitch(harp, midi).map((note) => MEANS.indexOf(meansOf(note)));
        expect(order).toEqual([...order].sort((a, b) => a - b));
      }),
    );
  });
});

it.each([
  [{ breath: 'draw', hole: 3, bend: 1, over: false, slide: false }, 'draw 3, half-step bend'],
  [{ breath: 'draw', hole: 3, bend: 3, over: false, slide: false }, 'draw 3, step-and-a-half bend'],
  [{ breath: 'draw', hole: 3, bend: 4, over: false, slide: false }, 'draw 3, two-step bend'],
  [{ breath: 'blow', hole: 6, bend: 0, over: true, slide: false }, 'overblow 6'],
  [{ breath: 'draw', hole: 7, bend: 0, over: true, slide: false }, 'overdraw 7'],
  [{ breath: 'blow', hole: 4, bend: 0, over: false, slide: true }, 'blow 4, slide pressed'],
] as const)('reads %j aloud as “%s”', (note, words) => {
  expect(inWords(note)).toBe(words);
});

it('writes the notes of one breath side by side, and a single one alone', () => {
  const note = { bend: 0, over: false, slide: false };
  const notes = [1, 2, 3].map((hole) => ({ ...note, hole }));
  expect([tabOfNotes(notes, 'draw'), tabOfNotes(notes, 'blow')]).toEqual(['-(1 2 3)', '(1 2 3)']);
  expect(tabOfNotes([{ ...note, hole: 3, bend: 1 }], 'draw')).toBe("-3'");
});
