/** What is heard beside what, and that no hand on the desk clicks; measured by sox. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { SoundPart } from '../../../src/browser/sound/mixing-desk.ts';
import { playbackFrom, SETTINGS } from '../../schedule/some-block.ts';
import { alsoLong, LONG } from '../../setup/long.ts';
import { loudnessOf, peakAbove, peakOf } from './aubio.ts';
import { LEAD_IN, openSound, type SoundPage, writeWav } from './browser-sound.ts';
import type { Act } from './page.ts';

let page: SoundPage;
beforeAll(async () => {
  page = await openSound();
});
afterAll(() => page?.close());

const BAND: readonly SoundPart[] = ['bass', 'drums', 'chords'];
const EIGHTHS = [
  "-2 -3'> -3 -4 5 -4 -3' -2",
  '2 -2 3 -2 -(1 2 3) = -2 2',
  "-4 -4> -4' 5 6 5 -4 -3",
  "-2 = = -1 -2 -3' -3 -4",
];
/** A whole chorus in the long run, else four bars with each of its chords. */
const CHORDS = LONG ? 'I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | I7' : 'I7 | IV7 | V7 | I7';
const BARS = CHORDS.split('|').length;
const chorus = (header: string, bars: readonly string[]) =>
  `harp: A\nposition: 2\nchords: ${CHORDS}\n${header}\n\n${Array.from({ length: BARS }, (_, bar) => bars[bar % bars.length]).join(' | ')}`;

describe('with the faders as a new visitor finds them', () => {
  test.each(
    alsoLong<[string, string, number, number]>(
      [['shuffle', chorus('feel: shuffle', EIGHTHS), 110, 2 / 3]],
      [
        ['straight', chorus('feel: straight', EIGHTHS), 110, 0.5],
        ['slow twelve-eight', chorus('meter: 12/8', ["-2 = -3' -3 = -4 5 -4 -3' -2 = ="]), 60, 0.5],
      ],
    ),
  )(
    'the tune leads and each of the band is heard beside it: %s',
    { timeout: 120_000 },
    async (_name, text, tempo, swing) => {
      const playback = playbackFrom(text);
      const settings = { ...SETTINGS, tempo, swing, loop: true };
      const seconds = (BARS * 4 * 60) / tempo;
      const hear = async (parts: readonly SoundPart[]) => {
        const wav = writeWav(await page.render({ playback, settings, rounds: 1, parts, usual: true }));
        const loud = (above?: number) => loudnessOf(wav, LEAD_IN, LEAD_IN + seconds, above);
        return { wav, all: loud(), small: loud(200) };
      };
      const tune = await hear(['tune']);
      for (const part of BAND) {
        const { all, small } = await hear([part]);
        expect(tune.all - all, part).toBeGreaterThan(4);
        expect(tune.all - all, part).toBeLessThan(12);
        // A small loudspeaker has little below 200 hertz, and still has all of the band.
        expect(tune.small - small, `${part} in a small loudspeaker`).toBeLessThan(15);
      }
      const band = await hear(BAND);
      expect(tune.all - band.all).toBeGreaterThan(2);
      expect(tune.all - band.all).toBeLessThan(6);
      // The limiter bends what is above 0.8.
      const { samples } = await page.render({ playback, settings, rounds: 1, parts: ['tune', ...BAND], usual: true });
      expect(samples.filter((sample) => Math.abs(sample) > 0.8).length / samples.length).toBeLessThan(0.0005);
    },
  );
});

describe('a reed', () => {
  test.each(alsoLong(['low F'], ['C', 'high G']))(
    'of a %s harp is as loud as any other, within four decibels',
    async (harp) => {
      const tabs = Array.from({ length: 10 }, (_, hole) => [`${hole + 1}`, `-${hole + 1}`]).flat();
      const playback = playbackFrom(
        `harp: ${harp}\nmeter: 2/4\nslot: 1/4\n\n${tabs.map((tab) => `${tab} =`).join(' | ')}`,
      );
      const wav = writeWav(
        await page.render({ playback, settings: { ...SETTINGS, tempo: 60 }, rounds: 1, parts: ['tune'] }),
      );
      const levels = tabs.map((_, note) => loudnessOf(wav, LEAD_IN + 2 * note + 0.4, LEAD_IN + 2 * note + 1.8));
      expect(Math.max(...levels) - Math.min(...levels)).toBeLessThan(4);
    },
  );
});

describe('a hand on the desk does not click', () => {
  // A click is loud at the top of the spectrum, where this low reed has nothing but its breath.
  const TOP = 15000;
  const playback = playbackFrom('harp: low F\nslot: 1/4\n3 = = = | = = = =');
  const sound = async (parts: readonly SoundPart[], acts: readonly Act[]) =>
    writeWav(await page.render({ playback, settings: { ...SETTINGS, tempo: 60 }, rounds: 1, parts, acts }));
  const around = (wav: string, { at }: Act) => peakAbove(wav, TOP, at - 0.1, at + 0.4);
  let breath = 0;
  beforeAll(async () => {
    breath = peakAbove(await sound(['tune'], []), TOP, 2, 4);
  });

  test('by a measure that finds a drone cut off', async () => {
    const job = { playback, settings: { ...SETTINGS, tempo: 60 }, rounds: 1, parts: ['drone'] as const };
    const { samples, rate } = await page.render({ ...job, acts: [{ at: 1.3, drone: [196, 247, 294] }] });
    samples.fill(0, Math.round(2.3 * rate));
    expect(peakAbove(writeWav({ samples, rate }), TOP, 2.2, 2.7)).toBeGreaterThan(4 * breath);
  });

  test.each<[string, readonly SoundPart[], readonly Act[]]>([
    [
      'that mutes a part and lets it in again',
      ['tune'],
      [
        { at: 1.3, part: 'tune', level: 0 },
        { at: 2.3, part: 'tune', level: 1 },
      ],
    ],
    [
      'that stops and continues',
      ['tune'],
      [
        { at: 1.3, gate: 'shut' },
        { at: 2.3, gate: 'open' },
      ],
    ],
    [
      'that starts, changes and hushes a drone',
      ['drone'],
      [
        { at: 1.3, drone: [196, 247, 294] },
        { at: 2.3, drone: [220, 277, 330] },
        { at: 2.35, drone: [196] },
        { at: 3.3, drone: [] },
      ],
    ],
    [
      'that presses notes of a figure',
      ['tune'],
      [
        { at: 0.3, gate: 'shut' },
        { at: 1.3, press: { tab: '3', hertz: 262 } },
        { at: 2.3, press: { tab: "-3''", hertz: 440 } },
        { at: 3.3, release: true },
        { at: 4.3, press: { tab: '2', hertz: 220 } },
        { at: 4.4, release: true },
      ],
    ],
  ])('%s', async (_name, parts, acts) => {
    const wav = await sound(parts, acts);
    // What is changed is heard at all.
    expect(peakOf(wav)).toBeGreaterThan(0.05);
    for (const act of acts) expect(around(wav, act), JSON.stringify(act)).toBeLessThan(2 * breath);
  });
});
