/** Measurements of a WAV file by programs that share no code with Reedway: aubio and sox, as Debian has them. */
import { itemAt } from '../../../src/values/checked.ts';
import { run } from '../../setup/debian.ts';
import { writeWav } from './browser-sound.ts';

const numbers = (text: string): number[] =>
  text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map(Number);

/** Steps of a third of a millisecond, by the energy that comes in; windows of several periods, or a wave's own ripple would decide. */
const ONSET = ['-r', '0', '-B', '512', '-H', '16', '-O', 'energy', '-t', '0.3', '-s', '-50'];

/** Onsets in seconds, as aubio reports them: late by a constant that {@link delayOf} measures. */
export const onsetsOf = (wav: string, least = 0.05): number[] =>
  numbers(run('aubioonset', ['-i', wav, ...ONSET, '-M', String(least)]));

/**
 * How late aubio reports the onsets of a known sound: tones that sox makes from nothing, every half second, rising in as
 * many seconds as ours do. In seconds.
 */
export function delayOf(attack: number, hertz: number): number {
  const wav = writeWav({ samples: new Float32Array(1), rate: 48000 });
  const made = wav.replace('.wav', '-known.wav');
  const tone = ['synth', '0.2', 'sawtooth', String(hertz), 'gain', '-8', 'fade', 't', String(attack), '0.2', '0.05'];
  run('sox', ['-n', '-r', '48000', '-c', '1', made, ...tone, 'pad', '0.25', '0.05', 'repeat', '19']);
  const late = onsetsOf(made).map((onset, index) => onset - 0.25 - index * 0.5);
  if (late.length !== 20) throw new Error(`aubio found ${late.length} of 20 tones`);
  return median(late);
}

export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return itemAt(sorted, sorted.length >> 1);
};

/** Pitches in hertz with their times, `apart` seconds from each other. Sox first makes the file four times as fine, or high notes would be rounded. */
export function pitchesOf(wav: string, apart = 2048 / 192000): { readonly time: number; readonly hertz: number }[] {
  const fine = wav.replace('.wav', '-fine.wav');
  run('sox', [wav, '-r', '192000', fine]);
  return run('aubiopitch', [
    '-i',
    fine,
    '-r',
    '0',
    '-B',
    '16384',
    '-H',
    String(Math.round(apart * 192000)),
    '-p',
    'yinfast',
    '-s',
    '-60',
  ])
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => line.split(/\s+/).map(Number))
    .map(([time = 0, hertz = 0]) => ({ time, hertz }));
}

/** The largest sample, by sox: 1 is full scale. */
export function peakOf(wav: string): number {
  const text = run('sox', [wav, '-n', 'stat'], { errors: true });
  const [highest, lowest] = ['Maximum', 'Minimum'].map((name) =>
    Math.abs(Number(new RegExp(`${name} amplitude:\\s*(\\S+)`).exec(text)?.[1])),
  );
  return Math.max(highest ?? Number.NaN, lowest ?? Number.NaN);
}

/** The loudest moment, between two times, of what lies above a frequency; by sox. A click is loud there. */
export function peakAbove(wav: string, hertz: number, from: number, to: number): number {
  const high = wav.replace('.wav', '-high.wav');
  // Filtered whole and cut afterwards, or the cut itself would click.
  run('sox', [wav, high, 'sinc', String(hertz), 'trim', String(from), String(to - from)]);
  return peakOf(high);
}

/**
 * Weighting by which a meter hears as a listener does, as sox's biquads at 48 kHz (b0 b1 b2 a0 a1 a2).
 * Source: ITU-R BS.1770-4, annex 1, tables 1 and 2.
 */
const K_WEIGHTING = [
  ['1.53512485958697', '-2.69169618940638', '1.19839281085285', '1', '-1.69065929318241', '0.73248077421585'],
  ['1', '-2', '1', '1', '-1.99004745483398', '0.99007225036621'],
].flatMap((coefficients) => ['biquad', ...coefficients]);

/** Weighted loudness in decibels between two times, perhaps only of what lies above a frequency; by sox. */
export function loudnessOf(wav: string, from: number, to: number, above?: number): number {
  const sieve = above === undefined ? [] : ['sinc', String(above)];
  const effects = [...sieve, ...K_WEIGHTING, 'trim', String(from), String(to - from), 'stats'];
  const text = run('sox', [wav, '-n', ...effects], { errors: true });
  return Number(/RMS lev dB\s+(\S+)/.exec(text)?.[1]);
}
