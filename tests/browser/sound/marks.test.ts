/** What marks, glides and temperaments do to the sound, measured: each can be told from a plain note. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { playbackFrom, SETTINGS } from '../schedule/some-block.ts';
import { median, pitchesOf } from './aubio.ts';
import { LEAD_IN, openSound, RATE, type Sound, type SoundPage, writeWav } from './studio.ts';

let page: SoundPage;
beforeAll(async () => {
  page = await openSound();
});
afterAll(() => page?.close());

/** Two seconds of one note. */
async function note(text: string, justness = 0): Promise<Sound> {
  const playback = playbackFrom(`harp: C\nmeter: 2/4\nslot: 1/4\nmouth: tongue\n\n${text} =`);
  return page.render({ playback, settings: { ...SETTINGS, tempo: 60 }, rounds: 1, parts: ['tune'], justness });
}

/** Cents from a note, over time from its onset. */
async function curve(text: string, midi: number): Promise<{ time: number; cents: number }[]> {
  const hertz = 440 * 2 ** ((midi - 69) / 12);
  return pitchesOf(writeWav(await note(text)))
    .map(({ time, hertz: found }) => ({ time: time - LEAD_IN, cents: 1200 * Math.log2(found / hertz) }))
    .filter(({ time, cents }) => time > 0 && time < 2 && Math.abs(cents) < 1300);
}
const within = (points: readonly { time: number; cents: number }[], from: number, to: number): number[] =>
  points.filter(({ time }) => time >= from && time < to).map(({ cents }) => cents);
const range = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

/** Loudness (root mean square) of windows of some milliseconds, from the note's onset. */
function loudness({ samples, rate }: Sound, milliseconds: number): number[] {
  const size = Math.round((milliseconds * rate) / 1000);
  const start = Math.round(LEAD_IN * rate);
  return Array.from({ length: Math.floor((1.9 * rate) / size) }, (_, window) => {
    let sum = 0;
    for (let i = 0; i < size; i++) sum += (samples[start + window * size + i] ?? 0) ** 2;
    return Math.sqrt(sum / size);
  });
}
/** Brightness of the same windows: how much of the sound is in its change from sample to sample. */
function brightness({ samples, rate }: Sound, milliseconds: number): number[] {
  const changes = samples.map((sample, index) => sample - (samples[index - 1] ?? 0));
  const high = loudness({ samples: changes, rate }, milliseconds);
  return loudness({ samples, rate }, milliseconds).map((all, index) => (high[index] ?? 0) / (all + 1e-9));
}

/** Draw 4 of a C harp: D5. */
const D5 = 74;

describe('a mark', () => {
  test('is not there in a plain note, which keeps its pitch and level', async () => {
    expect(range(within(await curve('-4', D5), 0.4, 1.8))).toBeLessThan(2);
    const levels = loudness(await note('-4'), 10).slice(40, 170);
    expect(Math.max(...levels) / Math.min(...levels)).toBeLessThan(1.25);
  });

  test('vibrato swings the pitch by some twenty cents either way, five or six times a second', async () => {
    const points = await curve('-4[vibrato]', D5);
    expect(range(within(points, 0.8, 1.8))).toBeGreaterThan(20);
    expect(range(within(points, 0.8, 1.8))).toBeLessThan(60);
    const cents = within(points, 0.8, 1.8);
    const crossings = cents.filter((value, index) => index > 0 && value > 0 !== (cents[index - 1] ?? 0) > 0).length;
    expect(crossings).toBeGreaterThanOrEqual(9);
    expect(crossings).toBeLessThanOrEqual(13);
  });

  test('dip comes up from below', async () => {
    const points = await curve('-4[dip]', D5);
    expect(Math.min(...within(points, 0, 0.15))).toBeLessThan(-25);
    expect(Math.abs(median(within(points, 0.8, 1.6)))).toBeLessThan(2);
  });

  test('fall gives way at the end', async () => {
    const points = await curve('-4[fall]', D5);
    expect(Math.abs(median(within(points, 0.4, 1.4)))).toBeLessThan(2);
    expect(Math.min(...within(points, 1.85, 2))).toBeLessThan(-40);
  });

  test('shake goes to the other hole and back, several times a second', async () => {
    // Draw 5 is F5, three half steps higher; two pitches in one window leave few readings of either alone.
    const sound = await note('-4[shake 5]');
    const plain = brightness(await note('-4'), 20).slice(20, 90);
    const shaken = loudness(sound, 20).slice(20, 90);
    expect(shaken.length).toBe(plain.length);
    const energyAt = (hertz: number, from: number): number => {
      const [start, size] = [Math.round((LEAD_IN + from) * RATE), 2400];
      let [real, imaginary] = [0, 0];
      for (let i = 0; i < size; i++) {
        const angle = (2 * Math.PI * hertz * i) / RATE;
        real += (sound.samples[start + i] ?? 0) * Math.cos(angle);
        imaginary += (sound.samples[start + i] ?? 0) * Math.sin(angle);
      }
      return Math.hypot(real, imaginary);
    };
    // Every half swing takes 72 ms; in the middle of each one reed sounds and the other does not.
    const higher = Array.from({ length: 12 }, (_, swing) => {
      const middle = 0.072 * (swing + 4) + 0.011;
      return energyAt(698.46, middle) > energyAt(587.33, middle);
    });
    expect(higher).toEqual(higher.map((_, index) => index % 2 === 1));
  });

  test('flutter shakes the loudness more than twenty times a second', async () => {
    const levels = loudness(await note('-4[flutter]'), 5).slice(80, 340);
    expect(Math.max(...levels) / Math.min(...levels)).toBeGreaterThan(2.5);
    const middle = median(levels);
    const crossings = levels.filter(
      (value, index) => index > 0 && value > middle !== (levels[index - 1] ?? 0) > middle,
    ).length;
    // 1.3 seconds at 23 a second, twice each.
    expect(crossings).toBeGreaterThan(50);
    expect(crossings).toBeLessThan(70);
  });

  test('hand closes and opens the sound', async () => {
    const plain = brightness(await note('-4'), 20).slice(10, 85);
    const waved = brightness(await note('-4[hand]'), 20).slice(10, 85);
    expect(Math.max(...plain) / Math.min(...plain)).toBeLessThan(1.3);
    expect(Math.max(...waved) / Math.min(...waved)).toBeGreaterThan(2);
  });

  test.each(['slap', 'pull'])('%s lets the holes under the tongue be heard as the note begins', async (mark) => {
    const [plain, struck] = [await note('-4'), await note(`-4[${mark}]`)];
    const difference = {
      samples: struck.samples.map((sample, index) => sample - (plain.samples[index] ?? 0)),
      rate: RATE,
    };
    const levels = loudness(difference, 20);
    const plainLevel = median(loudness(plain, 20).slice(10, 60));
    expect(Math.max(...levels.slice(0, 5))).toBeGreaterThan(0.3 * plainLevel);
    expect(Math.max(...levels.slice(20, 80))).toBeLessThan(0.05 * plainLevel);
  });

  test('accent begins louder, staccato ends sooner', async () => {
    const [plain, accented, short] = [await note('-4'), await note('-4[accent]'), await note('-4[staccato]')];
    expect(Math.max(...loudness(accented, 20).slice(0, 5))).toBeGreaterThan(
      1.2 * Math.max(...loudness(plain, 20).slice(0, 5)),
    );
    expect(loudness(short, 20)[60]).toBeLessThan(0.02 * (loudness(plain, 20)[60] ?? 0));
  });

  test('an overblow is thinner than the reed a half step below it', async () => {
    // 6 overblow is B flat 5, draw 6 is A5: the higher note would be the brighter one if both were plain.
    const [over, plain] = [brightness(await note('6o'), 50), brightness(await note('-6'), 50)];
    expect(median(over.slice(5, 30))).toBeLessThan(0.9 * median(plain.slice(5, 30)));
  });
});

describe('a temperament', () => {
  const heard = async (text: string, justness: number): Promise<number> => {
    const pitches = pitchesOf(writeWav(await note(text, justness)));
    return median(pitches.filter(({ time }) => time > 0.8 && time < 2).map(({ hertz }) => hertz));
  };

  test('tunes draw 5 and blow 2 as published for harps whose chords do not beat, and half way between', async () => {
    // Cents from equal: 21/16 and 5/4 above the key note. Source: Hansson, "Theory of harmonica tuning".
    const CASES = [
      ['-5', 77, -29.22],
      ['2', 64, -13.69],
    ] as const;
    for (const [text, midi, cents] of CASES) {
      const equal = 440 * 2 ** ((midi - 69) / 12);
      for (const justness of [0, 0.5, 1]) {
        expect(1200 * Math.log2((await heard(text, justness)) / equal)).toBeCloseTo(cents * justness, 0);
      }
    }
  });
});
