// Reeds, bends and overbends. Layouts and keys: the encyclopaedia articles "Richter-tuned harmonica" and "Solo tuning"; the two
// raised reeds: Eyers, "Shift Tuning", HarmonicaUK Magazine, Winter 2022. Two reeds in a hole: Bahnson, Antaki & Beery, J. Acoust.
// Soc. Am. 103(4), 1998; that bends stop a half step above the lower reed, and overbends are a half step above the higher: common
// practice, no source.
import { fifths, mod12 } from './pitch.ts';

export const TUNINGS = [
  'richter',
  'raised-third-blow',
  'raised-fifth-draw',
  'natural-minor',
  'harmonic-minor',
  'solo-chromatic',
] as const;
export type Tuning = (typeof TUNINGS)[number];

interface Reeds {
  blow: number[]; // half steps above hole 1 blow, hole 1 first
  draw: number[];
}

function reeds(tuning: Tuning): Reeds {
  if (tuning === 'solo-chromatic') {
    // Solo tuning: C E G C blown and D F A B drawn in every four holes.
    const every = (four: number[]): number[] => [0, 12, 24].flatMap((up) => four.map((x) => x + up));
    return { blow: every([0, 4, 7, 12]), draw: every([2, 5, 9, 11]) };
  }
  const blow = [0, 4, 7, 12, 16, 19, 24, 28, 31, 36];
  const draw = [2, 7, 11, 14, 17, 21, 23, 26, 29, 33];
  const lower = (list: number[], holes: number[]): void => {
    for (const hole of holes) list[hole - 1]! -= 1;
  };
  if (tuning === 'raised-third-blow') blow[2]! += 2;
  if (tuning === 'raised-fifth-draw') draw[4]! += 1;
  if (tuning === 'natural-minor' || tuning === 'harmonic-minor') lower(blow, [2, 5, 8]);
  if (tuning === 'natural-minor') lower(draw, [3, 7]);
  if (tuning === 'harmonic-minor') lower(draw, [6, 10]);
  return { blow, draw };
}

export interface Playable {
  text: string;
  hole: number;
  draw: boolean;
  half: number; // half steps above hole 1 blow; a quarter step ends in .5
  kind: 'plain' | 'bend' | 'quarter' | 'overbend' | 'slide';
}

export function playables(tuning: Tuning): Playable[] {
  const { blow, draw } = reeds(tuning);
  const out: Playable[] = [];
  for (let i = 0; i < blow.length; i++) {
    const hole = i + 1;
    const b = blow[i]!;
    const d = draw[i]!;
    out.push({ text: `${hole}`, hole, draw: false, half: b, kind: 'plain' });
    out.push({ text: `-${hole}`, hole, draw: true, half: d, kind: 'plain' });
    if (tuning === 'solo-chromatic') {
      // The slide raises by a half step. The top hole is left out: makers differ there.
      if (hole === 12) continue;
      out.push({ text: `${hole}*`, hole, draw: false, half: b + 1, kind: 'slide' });
      out.push({ text: `-${hole}*`, hole, draw: true, half: d + 1, kind: 'slide' });
      continue;
    }
    const drawHigher = d > b;
    const high = Math.max(b, d);
    const low = Math.min(b, d);
    const sign = (isDraw: boolean): string => (isDraw ? '-' : '');
    // Bends: on the breath of the higher reed, down to one half step above the lower one.
    for (let depth = 1; high - depth > low; depth++) {
      out.push({
        text: `${sign(drawHigher)}${hole}${"'".repeat(depth)}`,
        hole,
        draw: drawHigher,
        half: high - depth,
        kind: 'bend',
      });
    }
    // Quarter steps: 50 cents under each note of the breath of the higher reed that has another one under it, and under the reed itself
    // where the other reed is its neighbour (common practice, no source).
    for (let depth = 0; high - depth - 1 > low || (depth === 0 && high - low === 1); depth++) {
      out.push({
        text: `${sign(drawHigher)}${hole}${"'".repeat(depth)}q`,
        hole,
        draw: drawHigher,
        half: high - depth - 0.5,
        kind: 'quarter',
      });
    }
    // Overbends: on the other breath, one half step above the higher reed.
    out.push({ text: `${sign(!drawHigher)}${hole}o`, hole, draw: !drawHigher, half: high + 1, kind: 'overbend' });
  }
  return out;
}

/** Hole 1 blow as a MIDI number (the same article). */
const FIRST: Record<string, number> = {
  G: 55,
  Ab: 56,
  A: 57,
  Bb: 58,
  B: 59,
  C: 60,
  Db: 61,
  D: 62,
  Eb: 63,
  E: 64,
  F: 65,
  'F#': 66,
};
export const HARP_KEYS = Object.keys(FIRST);
// Which keys are made low or high: common practice, no source; the octave is what counts.
export const LOW = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'A', 'Bb'];
export const HIGH = ['G', 'Ab', 'A', 'Bb', 'B', 'C'];

export function firstHole(key: string, register: '' | 'low' | 'high'): number {
  return FIRST[key]! + (register === 'low' ? -12 : register === 'high' ? 12 : 0);
}

/** Position p: up p - 1 fifths (circle of fifths, common practice). */
/**
 * The place of a position's tonic on the line of fifths: positions 8 to 12 are named from the flat side, and no major key has
 * more than six signs.
 */
export function tonicFifth(key: string, position: number): number {
  const place = fifths(key) + (position <= 7 ? position - 1 : position - 13);
  return place > 6 ? place - 12 : place < -6 ? place + 12 : place;
}

export const tonicOf = (key: string, position: number): number => mod12(FIRST[key]! + 7 * (position - 1));

/** The mode the harp itself suggests, for songs whose chords do not tell (common practice, no source). */
export function harpMode(tuning: Tuning, position: number): 'major' | 'minor' {
  if (tuning === 'natural-minor' && position === 2) return 'minor';
  if (tuning === 'harmonic-minor' && position === 1) return 'minor';
  const { blow, draw } = reeds(tuning);
  const above = new Set([...blow, ...draw].map((half) => mod12(half - 7 * (position - 1))));
  return above.has(3) && !above.has(4) ? 'minor' : 'major';
}
