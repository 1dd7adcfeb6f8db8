import { expect, it } from 'vitest';
import { type TuneOnHarp, tuneAsWritten, tuneOnHarp } from '../../../src/course/figures/same-tune.ts';
import { type Harp, readHarp } from '../../../src/instrument/harp.ts';
import { tabOfNotes } from '../../../src/instrument/playable.ts';
import { RICHTER } from '../../../src/instrument/tuning.ts';
import { readBlock } from '../../../src/notation/read.ts';
import { soundsOf } from '../../../src/score/queries.ts';
import type { Score } from '../../../src/score/score.ts';
import { present } from '../../../src/values/checked.ts';

const block = (music: string): Score => present(readBlock(`slot: 1/4\n\n${music}`).score, music);
const on = (name: string): Harp => present(readHarp(name, RICHTER), name);
const tabs = ({ score }: TuneOnHarp): string =>
  soundsOf(score)
    .filter(({ tied }) => !tied)
    .map(({ breath, notes }) => tabOfNotes(notes, breath))
    .join(' ');

it('finds the easiest holes for the same pitches', () => {
  expect(tabs(tuneOnHarp(block("4 -4 5 -5 | 6 = -3' ."), on('G'), [0]))).toBe('-5 6 -6 6o 7 4o');
});

it('takes another octave only where it has fewer missing notes or no overbend', () => {
  const tune = block('4 -4 5 6');
  expect(tuneOnHarp(tune, on('C'), [0, 12, -12])).toMatchObject({ shift: 0 });
  const high = tuneOnHarp(block('10 -10 9 .'), on('G'), [0, 12, -12]);
  expect(high.shift).toBe(-12);
});

it('rests where a note cannot be played, and ties what is held over a bar', () => {
  const found = tuneOnHarp(block('1 = 4 = | = = -4 ='), on('A'), [0]);
  expect(soundsOf(found.score).map(({ tied }) => tied)).toEqual(
    soundsOf(block('1 = 4 = | = = -4 =')).map(({ tied }) => tied),
  );
  const low = tuneOnHarp(block('1 = 4 ='), on('F'), [0]);
  expect(low.score.bars[0]?.events.map(({ kind }) => kind)).toEqual(['rest', 'sound']);
  expect(low.held.size).toBe(1);
});

it('strikes what would glide from one breath to the other', () => {
  const tune = block("-3'' > -3 = .");
  const found = tuneOnHarp(tune, on('F'), [0]);
  expect(soundsOf(found.score).map(({ glides }) => glides)).toEqual([false, false]);
  expect(tabs(tuneAsWritten(tune))).toBe("-3'' -3");
});
