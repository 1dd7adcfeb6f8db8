/** The sound as it is rendered, measured by aubio and sox. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { SoundPart } from '../../../src/browser/sound/mixing-desk.ts';
import { readHarp } from '../../../src/instrument/harp.ts';
import { notesOf, quarterStepsOf, tabOf } from '../../../src/instrument/playable.ts';
import { RICHTER } from '../../../src/instrument/tuning.ts';
import type { PlaySettings } from '../../../src/schedule/settings.ts';
import type { Playback } from '../../../src/score/playback.ts';
import { itemAt } from '../../../src/values/checked.ts';
import { playbackFrom, SETTINGS } from '../../schedule/some-block.ts';
import { alsoLong, cases, LONG } from '../../setup/long.ts';
import { delayOf, median, onsetsOf, peakAbove, peakOf, pitchesOf } from './aubio.ts';
import { LEAD_IN, openSound, RATE, type Sound, type SoundPage, writeWav } from './browser-sound.ts';

const ALL: readonly SoundPart[] = ['tune', 'bass', 'drums', 'chords', 'click'];

let page: SoundPage;
beforeAll(async () => {
  page = await openSound();
});
afterAll(() => page?.close());

const render = (
  playback: Playback,
  settings: PlaySettings,
  rounds: number,
  parts: readonly SoundPart[],
): Promise<Sound> => page.render({ playback, settings, rounds, parts });

/** The nearest onset found to each that is expected, as far as it is off, in milliseconds. */
const offBy = (found: readonly number[], expected: readonly number[]): number[] =>
  expected.map((time) => {
    const nearest = found.reduce((best, one) => (Math.abs(one - time) < Math.abs(best - time) ? one : best), -1);
    return (nearest - time) * 1000;
  });

/** Bars of one round: a whole chorus in the long run, else one of each chord. */
const CHORDS = LONG ? 'I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | I7' : 'I7 | IV7 | V7';
const BARS = CHORDS.split('|').length;
const ROUND = (bar: string, header: string): Playback =>
  playbackFrom(`harp: C\nposition: 2\nchords: ${CHORDS}\n${header}\n\n${Array(BARS).fill(bar).join(' | ')}`);

describe('onsets over four rounds', () => {
  test('of the tune lie within a millisecond of the exact shuffle grid', { timeout: 300_000 }, async () => {
    const tempo = 92;
    const playback = ROUND('-2 3 -2 3 -2 3 -2 3', 'feel: shuffle');
    const sound = await render(playback, { ...SETTINGS, tempo, swing: 2 / 3, loop: true }, 4, ['tune']);
    const beat = 60 / tempo;
    // Written out here and not taken from the schedule: four rounds of bars of four beats, long and short.
    const grid = Array.from({ length: 4 * BARS * 4 }, (_, number) => number).flatMap((number) => [
      LEAD_IN + number * beat,
      LEAD_IN + (number + 2 / 3) * beat,
    ]);
    const found = onsetsOf(writeWav(sound));
    expect(found).toHaveLength(grid.length);
    const late = delayOf(0.008, 392) * 1000;
    for (const off of offBy(found, grid)) expect(Math.abs(off - late)).toBeLessThan(1);
  });

  test('of the metronome lie within a millisecond of the beats, while a loop speeds up', {
    timeout: 300_000,
  }, async () => {
    const playback = ROUND('-2 = = = = = = =', 'feel: straight');
    const settings = { ...SETTINGS, tempo: 100, loop: true, climb: { step: 10, goal: 120 } };
    const sound = await render(playback, settings, 4, ['click']);
    const grid: number[] = [];
    let start = LEAD_IN;
    for (const tempo of [100, 110, 120, 120]) {
      for (let beat = 0; beat < 4 * BARS; beat++) grid.push(start + (beat * 60) / tempo);
      start += (4 * BARS * 60) / tempo;
    }
    const found = onsetsOf(writeWav(sound));
    expect(found).toHaveLength(grid.length);
    // A click begins at once; what is left of aubio's delay is the same for all of them.
    const offs = offBy(found, grid);
    for (const off of offs) expect(Math.abs(off - median(offs))).toBeLessThan(1);
    expect(Math.abs(median(offs) - delayOf(0.0005, 1560) * 1000)).toBeLessThan(1);
  });
});

describe('pitch', () => {
  test.each(alsoLong(['C'], ['low F', 'high G']))(
    'of every hole, bend and overbend of a %s harp is within two cents of its note',
    { timeout: 300_000 },
    async (name) => {
      const harp = readHarp(name, RICHTER);
      if (!harp) throw new Error(name);
      const notes = [...notesOf(harp), ...quarterStepsOf(harp)];
      const music = notes.map((note) => `${tabOf(note)} =`).join(' | ');
      const playback = playbackFrom(`harp: ${name}\nmeter: 2/4\nslot: 1/4\n\n${music}`);
      const sound = await render(playback, { ...SETTINGS, tempo: 120 }, 1, ['tune']);
      const pitches = pitchesOf(writeWav(sound), 0.04);
      expect(notes).toHaveLength(42 + 14);
      for (const [index, { midi }] of notes.entries()) {
        const start = LEAD_IN + index;
        const heard = pitches.filter(({ time }) => time > start + 0.4 && time < start + 0.9).map(({ hertz }) => hertz);
        expect(heard.length).toBeGreaterThan(8);
        // Equal temperament: A4, number 69, is 440 Hz.
        const cents = 1200 * Math.log2(median(heard) / (440 * 2 ** ((midi - 69) / 12)));
        expect(Math.abs(cents), `${tabOf(itemAt(notes, index))} on ${name}`).toBeLessThan(2);
      }
    },
  );

  test('of a glide leaves the bend, takes its time, and arrives at the reed', async () => {
    const playback = playbackFrom("harp: C\nslot: 1/2\n-3''> -3");
    const sound = await render(playback, { ...SETTINGS, tempo: 60 }, 1, ['tune']);
    const pitches = pitchesOf(writeWav(sound));
    const cents = (time: number): number => {
      const near = pitches.filter((one) => Math.abs(one.time - time) < 0.006);
      return 1200 * Math.log2(median(near.map(({ hertz }) => hertz)) / (440 * 2 ** ((71 - 69) / 12)));
    };
    const turn = LEAD_IN + 2;
    // A window of aubio's is 85 ms long and reported at its end.
    expect(cents(turn - 0.05)).toBeCloseTo(-200, -0.5);
    expect(Math.abs(cents(turn + 1))).toBeLessThan(2);
    const between = pitches
      .filter(({ time }) => time > turn && time < turn + 0.3)
      .map(({ hertz }) => 1200 * Math.log2(hertz / (440 * 2 ** ((71 - 69) / 12))))
      .filter((value) => value > -180 && value < -20);
    expect(between.length).toBeGreaterThan(3);
  });
});

describe('the level', () => {
  const LOUD = "-(1 2 3 4)[accent] (4 5 6)[accent] -4[tongue slap] -4[tongue pull] -3'' 6o (1 4)[tongue] 10";

  test.each([
    ['straight', 'feel: straight', 0.5],
    ['shuffle', 'feel: shuffle', 2 / 3],
  ])(
    'of everything at once, all parts full up, never clips: %s',
    { timeout: 300_000 },
    async (_name, header, swing) => {
      const settings = { ...SETTINGS, tempo: 120, swing, loop: true };
      const sound = await render(ROUND(LOUD, header), settings, cases(2, 4), ALL);
      expect(peakOf(writeWav(sound))).toBeLessThan(0.985);
      expect(peakOf(writeWav(sound))).toBeGreaterThan(0.3);
    },
  );

  test('of the tune alone stays in the part of the limiter that changes nothing', async () => {
    const sound = await render(ROUND('-2 3 4 -4 5 6 -6 -3', ''), { ...SETTINGS, tempo: 120 }, 1, ['tune']);
    expect(peakOf(writeWav(sound))).toBeLessThan(0.8);
  });

  test('has no click where a loop ends in the middle of a held note', async () => {
    const playback = playbackFrom('harp: low F\nslot: 1/4\n3 = = = | = = = =');
    const settings = { ...SETTINGS, tempo: 120, loop: true, range: { first: 0, last: 0 } };
    const sound = await render(playback, settings, 3, ['tune']);
    // A click is a burst at the top of the spectrum, where a low reed with 24 harmonics has nothing but its breath.
    const wav = writeWav(sound);
    const steady = peakAbove(wav, 15000, LEAD_IN + 0.5, LEAD_IN + 1.5);
    const ends = [2, 4, 6].map((end) => peakAbove(wav, 15000, LEAD_IN + end - 0.15, LEAD_IN + end + 0.15));
    for (const end of ends) expect(end).toBeLessThan(2 * steady);
    // The measure itself: a note that is cut off there stands out at once.
    const cut = { ...sound, samples: sound.samples.slice() };
    const at = Math.round((LEAD_IN + 1.8) * RATE);
    cut.samples.fill(0, at, at + RATE / 10);
    expect(peakAbove(writeWav(cut), 15000, LEAD_IN + 1.75, LEAD_IN + 2.05)).toBeGreaterThan(4 * steady);
  });
});
