import { itemAt, present } from '../values/checked.ts';
import {
  atFifths,
  chromaOf,
  FLAT_DEGREES,
  fifthsOf,
  lowestFrom,
  mod,
  nameAbove,
  type Pitch,
  type PitchClass,
  pitchOf,
  plainName,
  readPitchClass,
} from './pitch.ts';
import { endsInQuarter, QUARTER, quarterBelow } from './quarter-step.ts';
import type { Tuning } from './tuning.ts';

/** A harp sounds in the octave that is usual for its key, one lower or one higher. */
export const REGISTERS = ['low', 'standard', 'high'] as const;
/** One of {@link REGISTERS}. */
export type Register = (typeof REGISTERS)[number];
/** The direction of the breath. */
export type Breath = 'blow' | 'draw';

/** One harp: a tuning in a key and a register. */
export interface Harp {
  readonly key: PitchClass;
  readonly register: Register;
  readonly tuning: Tuning;
}

/** What the player does at one hole; the breath is the whole breath's, see {@link Breath}. */
export interface HoleNote {
  /** 1 is the lowest. */
  readonly hole: number;
  /** Half steps down from the reed; 0 for none. It ends in .5 where a quarter step is the last of them: 1.5 for `-3'q`. */
  readonly bend: number;
  /** Overblow or overdraw, by the breath. */
  readonly over: boolean;
  /** The slide pressed, on a harp that has one. */
  readonly slide: boolean;
}

/**
 * Hole 1 blow of a standard harp lies between G3 (55) and F#4 (66), C at middle C.
 * Source: encyclopaedia article "Richter-tuned harmonica". Low and high harps are an octave away: common practice, no source.
 */
const LOWEST_STANDARD = 55;
const OCTAVE_OF: Readonly<Record<Register, number>> = { low: -12, standard: 0, high: 12 };

/** The keys harps are sold in, from the lowest standard one up. Source: the same article; all twelve are common practice. */
export const HARP_KEYS: readonly PitchClass[] = ['G', 'Ab', 'A', 'Bb', 'B', 'C', 'Db', 'D', 'Eb', 'E', 'F', 'F#'].map(
  (name) => present(readPitchClass(name), name),
);

/** The MIDI number of the key note, from which a tuning counts its reeds: hole 1 blow of all the usual ones. */
export const keyNote = (harp: Harp): number =>
  lowestFrom(LOWEST_STANDARD, chromaOf(harp.key)) + OCTAVE_OF[harp.register];

/** How many holes the harp has. */
export const holeCount = (harp: Harp): number => harp.tuning.blow.length;

/** The MIDI number of a hole's reed. `hole` must be on the harp. */
export function reed(harp: Harp, hole: number, breath: Breath): number {
  const semitones = harp.tuning[breath][hole - 1];
  if (semitones === undefined) throw new RangeError(`hole ${hole} is not on a ${holeCount(harp)}-hole harp`);
  return keyNote(harp) + semitones;
}

/** A pitch as named on the harp itself, in the harp's own key, whatever the song's key is. */
export function namedOnHarp(harp: Harp, midi: number): Pitch {
  if (endsInQuarter(midi)) return quarterBelow(namedOnHarp(harp, midi + QUARTER));
  const semitones = mod(midi - keyNote(harp), 12);
  // A reed six half steps up is the fourth of the key raised by its maker; a bend there is the blues' flat fifth.
  const raisedFourth =
    semitones === 6 && [...harp.tuning.blow, ...harp.tuning.draw].some((reed) => mod(reed, 12) === 6);
  const degree = raisedFourth ? 4 : itemAt(FLAT_DEGREES, semitones);
  const name = nameAbove(harp.key, degree, semitones);
  // A harp key has at most one accidental, so a name here has at most two.
  return pitchOf(name, midi);
}

/** Reads `A`, `Bb`, `low F`, `high G`; undefined for anything else. */
export function readHarp(text: string, tuning: Tuning): Harp | undefined {
  const match = /^(?:(low|high)\s+)?(\S+)$/i.exec(text.trim());
  const key = match && readPitchClass(itemAt(match, 2));
  if (!key) return undefined;
  // Keys nobody stamps on a cover (Fb, E#, B#, Cb …) are mistakes, not harps.
  if (fifthsOf(key) < -6 || fifthsOf(key) > 7) return undefined;
  const register = REGISTERS.find((one) => one === match[1]?.toLowerCase()) ?? 'standard';
  return { key, register, tuning };
}

/** `low F`, `Bb`: as {@link readHarp} reads it. */
export const harpName = (harp: Harp): string =>
  (harp.register === 'standard' ? '' : `${harp.register} `) + plainName(harp.key);

/**
 * The song's tonic on a harp: position 1 is the harp's key, and each further position lies a fifth higher.
 * Positions 8 to 12 are named from the flat side, as players do (12 is the key's fourth).
 * Source: circle-of-fifths convention, common practice.
 */
export function tonicInPosition(key: PitchClass, position: number): PitchClass {
  let fifths = fifthsOf(key) + (position <= 7 ? position - 1 : position - 13);
  while (fifths > 6) fifths -= 12;
  while (fifths < -6) fifths += 12;
  return atFifths(fifths);
}
