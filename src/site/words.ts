/** A course's settings in the words a student reads. */
import type { Harp } from '../instrument/harp.ts';
import { printedName } from '../instrument/pitch.ts';
import { positionInWords, positionName } from '../instrument/position.ts';
import type { Tuning } from '../instrument/tuning.ts';
import type { Feel } from '../time/feel.ts';
import { isCompound, type Meter, meterName } from '../time/meter.ts';

export const harpInWords = (harp: Pick<Harp, 'key' | 'register'>, tuning: Tuning): string =>
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

/** What is played: how fast, and how. */
export interface Pace {
  readonly tempo: number;
  readonly meter: Meter;
  readonly feel: Feel;
}

/**
 * The tempo of a lesson, from its blocks’: `♩ = 92, shuffle` where they agree, `♩ = 60 to 92` where they do not, and both
 * kinds of beat where it has both: `♩ = 72, ♩. = 60`. Empty where there is no block. `aloud` is the same for a voice.
 */
export function tempoInWords(paces: readonly Pace[], aloud = false): string {
  const manners = new Set(paces.map(({ feel }) => mannerOf(feel)));
  const counts = [false, true].flatMap((dotted) => {
    const tempi = paces.filter(({ meter }) => isCompound(meter) === dotted).map(({ tempo }) => tempo);
    if (tempi.length === 0) return [];
    const [least, most] = [Math.min(...tempi), Math.max(...tempi)];
    const range = least === most ? `${least}` : `${least} to ${most}`;
    return aloud ? `${range} ${dotted ? 'dotted ' : ''}quarter notes a minute` : `♩${dotted ? '.' : ''} = ${range}`;
  });
  // Where some of it swings and some does not, each block says so itself.
  return counts.join(', ') + (manners.size === 1 ? [...manners].join() : '');
}

const mannerOf = ({ name, long, short }: Feel): string =>
  name === 'straight' ? '' : name === 'shuffle' ? ', shuffle' : `, swung ${long} to ${short}`;

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
