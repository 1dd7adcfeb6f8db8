/** A course's settings in the words a student reads. */
import { printedName } from '../instrument/pitch.ts';
import { positionInWords, positionName } from '../instrument/position.ts';
import type { Tuning } from '../instrument/tuning.ts';
import type { Settings } from '../notation/settings.ts';
import type { Feel } from '../time/feel.ts';
import { isCompound, type Meter, meterName } from '../time/meter.ts';

export const harpInWords = (harp: Settings['harp'], tuning: Tuning): string =>
  [
    harp.register === 'standard' ? '' : harp.register,
    printedName(harp.key),
    tuning.id === 'richter' ? '' : `(${tuning.title.toLowerCase()})`,
  ]
    .filter((word) => word !== '')
    .join(' ');

/** `second position (cross harp)`. */
export function positionWithName(position: number): string {
  const name = positionName(position);
  return positionInWords(position) + (name === undefined ? '' : ` (${name} harp)`);
}

/** `♩ = 92, shuffle`. */
export function tempoInWords(tempo: number, meter: Meter, feel: Feel): string {
  const manner =
    feel.name === 'straight' ? '' : feel.name === 'shuffle' ? ', shuffle' : `, swung ${feel.long} to ${feel.short}`;
  return `${isCompound(meter) ? '♩. ' : '♩ '}= ${tempo}${manner}`;
}

/** The same for a voice: `92 quarter notes a minute, shuffle`. */
export const tempoAloud = (tempo: number, meter: Meter, feel: Feel): string =>
  tempoInWords(tempo, meter, feel).replace(
    /^♩(\.?) = (\d+)/,
    (_, dot, number) => `${number} ${dot ? 'dotted ' : ''}quarter notes a minute`,
  );

export const meterInWords = (meter: Meter): string => meterName(meter).replace('/', '⁄');

/** `45 minutes`, `1 hour`, `3 hours 20 minutes`. */
export function minutesInWords(minutes: number): string {
  const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  return [hours > 0 ? count(hours, 'hour') : '', rest > 0 || hours === 0 ? count(rest, 'minute') : '']
    .filter(Boolean)
    .join(' ');
}

/** `PT1H20M`, as schema.org wants a duration. */
export const minutesAsDuration = (minutes: number): string => `PT${minutes}M`;

/** `one, two and three`. */
export function listInWords(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** Each harp the lessons are written for, the most used first. */
export function harpsOf(lessons: readonly { readonly defaults: Settings }[]): readonly string[] {
  const uses = new Map<string, number>();
  for (const { defaults } of lessons) {
    const harp = harpInWords(defaults.harp, defaults.tuning);
    uses.set(harp, (uses.get(harp) ?? 0) + 1);
  }
  return [...uses].sort(([, a], [, b]) => b - a).map(([harp]) => harp);
}
