/** The sound as it is played in real time, recorded on the audio thread while the page is busy. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { itemAt, lastOf } from '../../../src/values/checked.ts';
import { playbackFrom, SETTINGS } from '../../schedule/some-block.ts';
import { onsetsOf, peakAbove } from './aubio.ts';
import { openSound, type SoundPage, writeWav } from './browser-sound.ts';

let page: SoundPage;
beforeAll(async () => {
  page = await openSound();
});
afterAll(() => page?.close());

/** Times of shuffled eighths at a tempo, from 0. */
const shuffled = (tempo: number, count: number): number[] =>
  Array.from(
    { length: count },
    (_, number) => (60 / tempo) * (Math.floor(number / 2) + (number % 2 === 0 ? 0 : 2 / 3)),
  );

const playback = playbackFrom(
  `harp: C\nposition: 2\nfeel: shuffle\nform: twelve-bar\n\n${Array(12).fill('-2 3 -2 3 -2 3 -2 3').join(' | ')}`,
);
const music = { playback, settings: { ...SETTINGS, tempo: 120, swing: 2 / 3, loop: true } };

describe('played in real time', () => {
  test('every onset stays within a millisecond of the grid while the page is busy for half a second, again and again', async () => {
    const acts = [1, 2.2, 3.1, 4.4].map((at) => ({ at, busy: 0.5 }));
    const sound = await page.record({ music, parts: ['tune'], seconds: 5.5, acts });
    const found = onsetsOf(writeWav(sound));
    const grid = shuffled(120, found.length);
    expect(found.length).toBeGreaterThan(18);
    const first = itemAt(found, 0);
    for (const [index, onset] of found.entries()) {
      expect(Math.abs(onset - first - itemAt(grid, index)) * 1000).toBeLessThan(1);
    }
  });

  test('continues in the grid of a new tempo from the place in the music', async () => {
    const acts = [
      { at: 2.1, settings: { tempo: 90 } },
      { at: 3, busy: 0.5 },
    ];
    const sound = await page.record({ music, parts: ['tune'], seconds: 7, acts });
    const found = onsetsOf(writeWav(sound));
    const first = itemAt(found, 0);
    const before = found.filter((onset) => onset - first < 2);
    const grid = shuffled(120, before.length);
    for (const [index, onset] of before.entries()) {
      expect(Math.abs(onset - first - itemAt(grid, index)) * 1000).toBeLessThan(1);
    }
    // The note that sounded when the tempo changed is taken up again off the grid; what follows is on it.
    const after = found.filter((onset) => onset - first > 2.4);
    expect(after.length).toBeGreaterThan(10);
    const [long, short] = [(60 / 90) * (2 / 3), 60 / 90 / 3];
    for (const [index, onset] of after.slice(1).entries()) {
      const step = onset - itemAt(after, index);
      expect(Math.min(Math.abs(step - long), Math.abs(step - short)) * 1000).toBeLessThan(1);
    }
    const whole = lastOf(after) - itemAt(after, 0);
    const beats = whole / (60 / 90);
    const thirds = beats * 3;
    expect(Math.abs(thirds - Math.round(thirds)) * (60 / 90 / 3) * 1000).toBeLessThan(1);
  });

  test('is faded, not cut, where the tempo changes in the middle of a held note', async () => {
    const held = playbackFrom('harp: low F\nslot: 1/4\n3 = = = | = = = =');
    const acts = [{ at: 2, settings: { tempo: 100 } }];
    const settings = { ...SETTINGS, tempo: 60 };
    const sound = await page.record({ music: { playback: held, settings }, parts: ['tune'], seconds: 3.5, acts });
    const wav = writeWav(sound);
    // A click is loud at the top of the spectrum, where this low reed has nothing but its breath.
    const steady = peakAbove(wav, 15000, 1.2, 2);
    expect(peakAbove(wav, 15000, 2.1, 2.8)).toBeLessThan(2 * steady);
    // The measure itself: a cut in the same place stands out.
    const cut = { ...sound, samples: sound.samples.slice() };
    cut.samples.fill(0, Math.round(2.3 * sound.rate));
    expect(peakAbove(writeWav(cut), 15000, 2.2, 2.4)).toBeGreaterThan(4 * steady);
  });
});
