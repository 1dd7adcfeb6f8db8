/** What marks, glides and temperaments do to the sound, measured: each can be distinguished from a plain note. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { exampleOf, MARK_NAMES, markText, rowOf } from '../../../src/score/mark.ts';
import { playbackFrom, SETTINGS } from '../../schedule/some-block.ts';
import { median, peakAbove, pitchesOf } from './aubio.ts';
import { LEAD_IN, openSound, RATE, type Sound, type SoundPage, writeWav } from './browser-sound.ts';
import { brightness, centsAt, hertzOf, loudness, partial } from './loudness.ts';

let page: SoundPage;
beforeAll(async () => {
  page = await openSound();
});
afterAll(() => page?.close());

/** Bars of two seconds, two slots in each. */
async function bars(music: string, justness = 0, harp = 'C'): Promise<Sound> {
  const playback = playbackFrom(`harp: ${harp}\nmeter: 2/4\nslot: 1/4\nmouth: tongue\n\n${music}`);
  return page.render({ playback, settings: { ...SETTINGS, tempo: 60 }, rounds: 1, parts: ['tune'], justness });
}
const renderNote = (text: string, justness = 0, harp = 'C'): Promise<Sound> => bars(`${text} =`, justness, harp);
const notes = new Map<string, Promise<Sound>>();
/** Two seconds of one note, rendered once. */
function note(text: string, justness = 0, harp = 'C'): Promise<Sound> {
  const key = `${text} ${justness} ${harp}`;
  const sound = notes.get(key) ?? renderNote(text, justness, harp);
  notes.set(key, sound);
  return sound;
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

/** Draw 4 of a C harp: D5. */
const D5 = 74;

/** The largest difference of two sounds, sample by sample. */
const apart = (one: Sound, other: Sound): number =>
  one.samples.reduce((most, sample, index) => Math.max(most, Math.abs(sample - (other.samples[index] ?? 0))), 0);

describe('every row of the table of marks', () => {
  // Music that names no loudness is as loud as mf.
  test.each(MARK_NAMES.filter((name) => name !== 'mf'))('%s is heard', async (name) => {
    // What is for all that follows is heard in the notes after it.
    const music = (text: string): string => `${text} ${rowOf(name).onward ? '-4 | -4 -4 | -4 -4 | -4 -4' : '='}`;
    const marked = await bars(music(`-4[${markText(exampleOf(name))}]`));
    const [plain, again] = [await bars(music('-4')), await bars(music('-4'))];
    // What differs between two plain notes is the noise of the breath.
    expect(apart(plain, marked)).toBeGreaterThan(0.05 + 3 * apart(plain, again));
  });
});

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
    // Every half swing takes 72 ms; in the middle of each one reed sounds and the other does not.
    const higher = Array.from({ length: 12 }, (_, swing) => {
      const middle = 0.072 * (swing + 4) + 0.011;
      return partial(sound, 698.46, middle + 0.025, 0.05).size > partial(sound, 587.33, middle + 0.025, 0.05).size;
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

  test('tremolo swings the loudness five or six times a second, slower than flutter, and keeps the pitch', async () => {
    const levels = loudness(await note('-4[tremolo]'), 10).slice(40, 180);
    expect(Math.max(...levels) / Math.min(...levels)).toBeGreaterThan(1.8);
    const middle = median(levels);
    const crossings = levels.filter(
      (value, index) => index > 0 && value > middle !== (levels[index - 1] ?? 0) > middle,
    ).length;
    // 1.4 seconds at five and a half a second, twice each.
    expect(crossings).toBeGreaterThanOrEqual(14);
    expect(crossings).toBeLessThanOrEqual(17);
    expect(range(within(await curve('-4[tremolo]', D5), 0.4, 1.8))).toBeLessThan(4);
  });

  test('hand closes and opens the sound', async () => {
    const plain = brightness(await note('-4'), 20).slice(10, 85);
    const waved = brightness(await note('-4[hand]'), 20).slice(10, 85);
    expect(Math.max(...plain) / Math.min(...plain)).toBeLessThan(1.3);
    expect(Math.max(...waved) / Math.min(...waved)).toBeGreaterThan(2);
  });

  test('wah opens the sound once in the course of the note, however long it is', async () => {
    for (const [music, windows] of [
      ['-4[wah] =', 95],
      ['-4[wah] 4', 47],
    ] as const) {
      const waved = brightness(await bars(music), 20).slice(2, windows);
      expect(waved.at(-1)).toBeGreaterThan(2 * (waved[0] ?? 0));
      // It never closes again: every tenth of a second is at least as bright as the one before.
      const tenths = Array.from({ length: Math.floor(waved.length / 5) }, (_, at) =>
        median(waved.slice(5 * at, 5 * at + 5)),
      );
      for (const [at, bright] of tenths.entries()) expect(bright).toBeGreaterThan(0.98 * (tenths[at - 1] ?? 0));
    }
    // Hands that go on opening and closing are another mark.
    const again = brightness(await note('-4[hand]'), 20).slice(2, 95);
    expect(Math.min(...again.slice(50))).toBeLessThan(0.6 * Math.max(...again));
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

  test('accent begins louder, staccato ends earlier', async () => {
    const [plain, accented, short] = [await note('-4'), await note('-4[accent]'), await note('-4[staccato]')];
    expect(Math.max(...loudness(accented, 20).slice(0, 5))).toBeGreaterThan(
      1.2 * Math.max(...loudness(plain, 20).slice(0, 5)),
    );
    expect(loudness(short, 20)[60]).toBeLessThan(0.02 * (loudness(plain, 20)[60] ?? 0));
  });

  test('tenuto sounds on until the next attack, where a plain note leaves a gap', async () => {
    const [plain, held] = [loudness(await bars('-4 -4'), 5), loudness(await bars('-4[tenuto] -4'), 5)];
    // The second note begins at one second: 30 ms of silence before it, of which the release takes some.
    expect(Math.min(...plain.slice(194, 200))).toBeLessThan(0.2 * (plain[180] ?? 0));
    expect(Math.min(...held.slice(194, 200))).toBeGreaterThan(0.9 * (held[180] ?? 0));
    // It is attacked all the same: a reed begins dull and opens.
    const bright = brightness(await bars('-4[tenuto] -4'), 10);
    expect(bright[100] ?? 0).toBeLessThan(0.95 * (bright[90] ?? 0));
  });

  test('ghost is as soft and dull from its beginning to its end as its row says', async () => {
    const [plain, hinted] = [await note('-4'), await note('-4[ghost]')];
    const [loud, soft] = [loudness(plain, 20), loudness(hinted, 20)];
    for (const window of [2, 10, 40, 80]) {
      const share = (soft[window] ?? 0) / (loud[window] ?? 1);
      expect(share).toBeGreaterThan(0.25);
      expect(share).toBeLessThan(0.4);
    }
    expect(median(brightness(hinted, 50).slice(5, 30))).toBeLessThan(0.85 * median(brightness(plain, 50).slice(5, 30)));
  });

  test('a note glided into is as loud as ever after a ghost note, and softer as one', async () => {
    const [after, into, plain] = await Promise.all(
      ["-4[ghost]> -4'", "-4> -4'[ghost]", "-4> -4'"].map(async (music) => loudness(await bars(music), 20)),
    );
    expect((after?.[70] ?? 0) / (plain?.[70] ?? 1)).toBeCloseTo(1, 1);
    expect((into?.[30] ?? 0) / (plain?.[30] ?? 1)).toBeCloseTo(1, 1);
    expect((into?.[70] ?? 0) / (plain?.[70] ?? 1)).toBeLessThan(0.4);
  });

  test('breath ends the note a fifth of a second early, and the next one begins in time', async () => {
    const [plain, breathed] = [loudness(await bars('-4 -4'), 20), loudness(await bars('-4[breath] -4'), 20)];
    expect((breathed[38] ?? 0) / (plain[38] ?? 1)).toBeCloseTo(1, 1);
    for (const window of [43, 45, 48]) expect(breathed[window]).toBeLessThan(0.02 * (plain[window] ?? 0));
    expect((breathed[55] ?? 0) / (plain[55] ?? 1)).toBeCloseTo(1, 1);
  });

  test('slap smacks and is short, pull is soft and lasts', async () => {
    const [plain, slap, pull] = [await note('-4'), await note('-4[slap]'), await note('-4[pull]')];
    const added = (sound: Sound): Sound => ({
      samples: sound.samples.map((sample, index) => sample - (plain.samples[index] ?? 0)),
      rate: RATE,
    });
    const top = (sound: Sound): number => peakAbove(writeWav(sound), 8000, LEAD_IN, LEAD_IN + 0.03);
    expect(top(slap)).toBeGreaterThan(4 * top(pull));
    expect(loudness(added(slap), 10)[10]).toBeLessThan(0.2 * (loudness(added(pull), 10)[10] ?? 0));
  });

  test.each([
    ['an overblow', '6o', '-6'],
    ['an overdraw', '-7o', '7'],
  ])('%s is thinner than the reed beside it', async (_name, overbent, open) => {
    // The higher note would be the brighter one if both were plain.
    const [over, plain] = [brightness(await note(overbent), 50), brightness(await note(open), 50)];
    expect(median(over.slice(5, 30))).toBeLessThan(0.9 * median(plain.slice(5, 30)));
  });

  test('the tongue is darker than the lips', async () => {
    const [tongue, lips] = [brightness(await note('-4'), 50), brightness(await note('-4[lips]'), 50)];
    expect(median(tongue.slice(5, 30))).toBeLessThan(0.95 * median(lips.slice(5, 30)));
  });
});

describe('a bend', () => {
  test.each([
    ["-3''", 69],
    ["-2''", 65],
    ["10''", 94],
    ['6o', 82],
  ])(
    'entered from nothing is heard to settle, and lies within two cents from sixty thousandths of a second on: %s',
    async (tab, midi) => {
      const sound = await note(tab);
      expect(Math.abs(centsAt(sound, hertzOf(midi), 0.018))).toBeGreaterThan(2.5);
      for (const time of [0.06, 0.08, 0.1, 0.15, 0.3, 1, 1.8]) {
        expect(Math.abs(centsAt(sound, hertzOf(midi), time)), `at ${time} s`).toBeLessThan(2);
      }
      const plain = await note('-4');
      for (const time of [0.018, 0.06]) expect(Math.abs(centsAt(plain, hertzOf(D5), time))).toBeLessThan(1.5);
    },
  );

  test('is darker than an open reed of the same height', async () => {
    // A4: draw 3 bent a whole step on a C harp, draw 4 on a G harp.
    const [bent, open] = [brightness(await note("-3''"), 50), brightness(await note('-4', 0, 'G'), 50)];
    expect(median(bent.slice(5, 30))).toBeLessThan(0.95 * median(open.slice(5, 30)));
  });

  test('glides the longer the further it goes, through every pitch between', async () => {
    const tenths = (to: number, sound: Sound): number[] =>
      Array.from({ length: 300 }, (_, step) => centsAt(sound, hertzOf(70), 0.98 + step / 1000) + 100 * (70 - 69)).map(
        (cents) => cents / to,
      );
    const takes = (way: readonly number[]): number =>
      way.findIndex((share) => share > 0.9) - way.findIndex((share) => share > 0.1);
    const half = takes(tenths(100, await bars("-3''> -3'")));
    const whole = takes(tenths(200, await bars("-3''> -3")));
    expect(half).toBeGreaterThan(30);
    expect(whole).toBeGreaterThan(1.2 * half);
    expect(whole).toBeLessThan(150);
  });
});

describe('within one breath', () => {
  test('a fall comes at the end of a held note, not at the bar line', async () => {
    const sound = await bars('-4[fall] = | = =');
    for (const time of [1.5, 1.99, 2.5, 3.5]) expect(Math.abs(centsAt(sound, hertzOf(D5), time))).toBeLessThan(2);
    expect(centsAt(sound, hertzOf(D5 - 2), 3.94, 0.01) - 200).toBeLessThan(-80);
  });

  test.each([
    ["-4[fall]> -4'", D5 - 1],
    ["-4[shake 5]> -4'", D5 - 1],
    ["-4[vibrato]> -4'", D5 - 1],
    ['-4[fall]> -4', D5],
    ['-4[shake 5]> -4', D5],
  ])('what follows in %s is in tune', async (music, midi) => {
    const sound = await bars(music);
    for (const time of [1.4, 1.6, 1.9]) expect(Math.abs(centsAt(sound, hertzOf(midi), time))).toBeLessThan(2);
  });

  test.each(['hand', 'wah'])('what follows %s is as bright as without it', async (mark) => {
    const [after, plain] = [brightness(await bars(`-4[${mark}]> -4'`), 50), brightness(await bars("-4> -4'"), 50)];
    for (const window of [28, 32, 36]) expect((after[window] ?? 0) / (plain[window] ?? 1)).toBeCloseTo(1, 1);
  });

  test('an accent is heard on a note that is glided into', async () => {
    const [accented, plain] = [loudness(await bars("-4'> -4[accent]"), 20), loudness(await bars("-4'> -4"), 20)];
    expect(Math.max(...accented.slice(50, 56))).toBeGreaterThan(1.2 * Math.max(...plain.slice(50, 56)));
    expect((accented[85] ?? 0) / (plain[85] ?? 1)).toBeCloseTo(1, 1);
  });
});

describe('holes on one breath', () => {
  const size = (sound: Sound, midi: number): number => partial(sound, hertzOf(midi), 1, 0.2).size;

  test('of a chord all sound, and no other', async () => {
    const sound = await note('-(2 3 4)');
    // G4, B4 and D5; between them nothing.
    const tones = [67, 71, 74].map((midi) => size(sound, midi));
    expect(Math.min(...tones)).toBeGreaterThan(0.5 * Math.max(...tones));
    for (const midi of [69, 72]) expect(size(sound, midi)).toBeLessThan(0.02 * Math.min(...tones));
  });

  test('of a split leave out what the tongue covers', async () => {
    const [octave, lower] = [await note('(1 4)'), await note('1')];
    // C4 and C5: the upper one is more than the lower one's own second harmonic. E4 and G4 lie under the tongue.
    expect(size(octave, 72) / size(octave, 60)).toBeGreaterThan(1.4 * (size(lower, 72) / size(lower, 60)));
    for (const midi of [64, 67]) expect(size(octave, midi)).toBeLessThan(0.02 * size(octave, 60));
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

  test('tunes both reeds of a split, the other hole of a shake, and the holes under the tongue', async () => {
    // Draw 4 and 5, 9/8 and 21/16 above the key note: D5 a little sharp, F5 flat. Source: as above.
    const [D, F] = [3.91, -29.22];
    const F5 = 77;
    for (const justness of [0, 0.5, 1]) {
      const both = await note('-(4 5)', justness);
      expect(centsAt(both, hertzOf(D5), 1, 0.06)).toBeCloseTo(D * justness, 0);
      expect(centsAt(both, hertzOf(F5), 1, 0.06)).toBeCloseTo(F * justness, 0);
      // In the middle of the sixth half swing.
      const shaken = await note('-4[shake 5]', justness);
      expect(Math.abs(centsAt(shaken, hertzOf(F5), 5.5 * 0.072, 0.036) - F * justness)).toBeLessThan(3);
      const [struck, plain] = [await note('-7[pull]', justness), await note('-7', justness)];
      const under = {
        samples: struck.samples.map((sample, index) => sample - (plain.samples[index] ?? 0)),
        rate: RATE,
      };
      expect(Math.abs(centsAt(under, hertzOf(F5), 0.06, 0.05) - F * justness)).toBeLessThan(3);
    }
  });
});
