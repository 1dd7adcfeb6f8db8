// The settings of a random block.

import type { Frac } from './frac.ts';
import { frac } from './frac.ts';
import type { Tuning } from './instrument.ts';
import { HARP_KEYS, HIGH, LOW, TUNINGS } from './instrument.ts';
import type { Random } from './random.ts';

const METERS: [string, number][] = [
  ['4/4', 8],
  ['3/4', 3],
  ['2/4', 2],
  ['6/8', 3],
  ['12/8', 3],
  ['5/4', 2],
  ['9/8', 2],
];
const SLOTS: [string, number][] = [
  ['1/8', 6],
  ['1/4', 4],
  ['1/16', 2],
];

export function fraction(text: string): Frac {
  const [n, d] = text.split('/').map(Number);
  return frac(n!, d!);
}

export interface Settings {
  harp: string;
  register: '' | 'low' | 'high';
  tuning: Tuning;
  position: number;
  meter: string;
  slot: string;
  full: number; // slots in a bar
  feel: string;
  swing: Frac | undefined; // the first half's part of a beat, if that matters here
}

export function chooseSettings(r: Random): Settings {
  const harp = r.pick(HARP_KEYS);
  const registers: ('' | 'low' | 'high')[] = ['', '', ''];
  if (LOW.includes(harp)) registers.push('low');
  if (HIGH.includes(harp)) registers.push('high');
  const tuning = r.weighted<Tuning>(TUNINGS.map((t) => [t, t === 'richter' ? 4 : 1.5]));
  const position = r.chance(0.4) ? r.pick([1, 2, 2, 3]) : r.int(1, 12);
  const meter = r.weighted(METERS);
  let slot = r.weighted(SLOTS);
  if (meter === '9/8' && slot === '1/4') slot = '1/8';
  const whole = fraction(meter);
  const one = fraction(slot);
  const full = (whole[0] * one[1]) / (whole[1] * one[0]);
  const feel = r.weighted([
    ['straight', 5],
    ['shuffle', 3],
    ['60:40', 1],
    ['55:45', 0.4],
    ['65:35', 0.4],
    ['70:30', 0.3],
  ]);
  let swing: Frac | undefined;
  if (feel !== 'straight' && meter.endsWith('/4')) {
    const [a, b] = feel === 'shuffle' ? [2, 1] : feel.split(':').map(Number);
    swing = frac(a!, a! + b!);
  }
  return { harp, register: r.pick(registers), tuning, position, meter, slot, full, feel, swing };
}
