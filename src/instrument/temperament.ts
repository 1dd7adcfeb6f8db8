/** How the reeds are tuned against each other, and the frequencies that follow. */
import { gcd } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { sounding } from './bend.ts';
import { type Breath, type Harp, type HoleNote, keyNote } from './harp.ts';
import { mod } from './pitch.ts';
import { endsInQuarter, QUARTER } from './quarter-step.ts';
import type { Tuning } from './tuning.ts';

/**
 * Equal: every half step alike. Just: each note in a whole-number ratio to the chord of its breath, so that chords do not
 * beat. Compromise: half way between, note by note.
 */
export interface Temperament {
  readonly id: 'equal' | 'just' | 'compromise';
  readonly title: string;
  /** How far from equal (0) to just (1). */
  readonly justness: number;
}

/** How far a harp is tuned from equal temperament (0) towards just chords (1). */
export const TEMPERAMENTS = [
  { id: 'equal', title: 'Equal', justness: 0 },
  { id: 'compromise', title: 'Compromise', justness: 0.5 },
  { id: 'just', title: 'Just', justness: 1 },
] as const satisfies readonly Temperament[];

/** Every half step is 100 cents. */
export const EQUAL: Temperament = TEMPERAMENTS[0];

/** In hertz. Source: ISO 16 (A4 = 440 Hz). */
export const CONCERT_A = 440;
/** The range of `concertA`: wide enough for historical and high pitches, and narrow enough to catch a typing error. */
export const CONCERT_A_RANGE = { from: 392, to: 466 } as const;

/** A frequency over the key note’s. */
export type Ratio = readonly [number, number];

/**
 * Ratios to the root of a breath's chord, by half steps above it.
 * Source: Hansson, "Theory of harmonica tuning" (9/8, 5/4, 3/2, 15/8 and the draw chord's 7/4); 6/5, 4/3, 8/5 and 5/3 are
 * the five-limit ones; 7/5 and 17/16 are the harmonic series' own over a seventh chord, with no published table for harps.
 */
const RATIOS: readonly Ratio[] = [
  [1, 1],
  [17, 16],
  [9, 8],
  [6, 5],
  [5, 4],
  [4, 3],
  [7, 5],
  [3, 2],
  [8, 5],
  [5, 3],
  [7, 4],
  [15, 8],
];
/** Above a minor third the seventh lies a pure fifth over that third, or the two would beat. */
const SEVENTH_OF_MINOR: Ratio = [9, 5];

/** Half steps from the key note to the root of a breath's chord: the key note or its fifth where that breath has them, else its lowest reed. */
export function chordRoot(tuning: Tuning, breath: Breath): number {
  const usual = breath === 'blow' ? 0 : 7;
  return has(tuning, breath, usual) ? usual : mod(tuning[breath][0] ?? usual, 12);
}

const has = (tuning: Tuning, breath: Breath, semitones: number): boolean =>
  tuning[breath].some((reed) => mod(reed - semitones, 12) === 0);

/** The ratio of a note on a breath to the root of that breath's chord. `semitones` counts from the key note. */
export function ratioToChord(tuning: Tuning, breath: Breath, semitones: number): Ratio {
  const root = chordRoot(tuning, breath);
  const above = mod(semitones - root, 12);
  const minor = has(tuning, breath, root + 3) && !has(tuning, breath, root + 4);
  return above === 10 && minor ? SEVENTH_OF_MINOR : itemAt(RATIOS, above);
}

/** The ratio of a note on a breath to the key note, within one octave: draw 5 of a Richter harp is 21/16. */
export function ratioToKey(tuning: Tuning, breath: Breath, semitones: number): Ratio {
  const [a, b] = fifthsAbove(chordRoot(tuning, breath));
  const [c, d] = ratioToChord(tuning, breath, semitones);
  return withinOctave(a * c, b * d);
}

/** A chord's root is tuned to the key note by pure fifths, up to six on either side. */
function fifthsAbove(root: number): Ratio {
  const fifths = mod(7 * root + 5, 12) - 5;
  return fifths >= 0 ? [3 ** fifths, 2 ** fifths] : [2 ** -fifths, 3 ** -fifths];
}

function withinOctave(n: number, d: number): Ratio {
  let [above, below] = [n, d];
  while (above >= 2 * below) below *= 2;
  while (above < below) above *= 2;
  const divisor = gcd(above, below);
  return [above / divisor, below / divisor];
}

/** The size of a frequency ratio in cents. */
export const centsOfRatio = ([n, d]: Ratio): number => 1200 * Math.log2(n / d);

/**
 * Cents from equal temperament, the key note being 0. A bend or an overbend belongs to its breath's chord as the reeds
 * do, so that draw 2 bent a whole step is in tune with draw 5: a target for the player, since the reed alone does not fix it.
 */
export function centsOff(tuning: Tuning, breath: Breath, semitones: number, temperament: Temperament): number {
  if (temperament.justness === 0) return 0;
  // A quarter step is 50 cents below its upper neighbour as that one is tuned.
  if (endsInQuarter(semitones)) return centsOff(tuning, breath, semitones + QUARTER, temperament);
  const just = centsOfRatio(ratioToKey(tuning, breath, semitones)) - 100 * mod(semitones, 12);
  // A ratio just under the octave is a few cents flat, not nearly an octave sharp.
  return temperament.justness * (mod(just + 600, 1200) - 600);
}

/** What decides a frequency besides the note: the tuning fork and the temperament. */
export interface Pitching {
  /** The frequency of A4 in hertz; 440 where nothing is said. */
  readonly concertA?: number | undefined;
  /** Equal where nothing is said. */
  readonly temperament?: Temperament | undefined;
}

/** Hertz of a MIDI number in equal temperament. */
export const frequencyOfMidi = (midi: number, concertA: number = CONCERT_A): number =>
  concertA * 2 ** ((midi - 69) / 12);

/** Cents of a note from equal temperament on this harp. Throws a RangeError where the harp has no such note. */
export const centsOf = (harp: Harp, breath: Breath, note: HoleNote, temperament: Temperament): number =>
  centsOfMidi(harp, breath, { midi: midiOf(harp, breath, note), slide: note.slide }, temperament);

/** The same of a note whose MIDI number is known, with or without the slide. */
export function centsOfMidi(
  harp: Harp,
  breath: Breath,
  { midi, slide }: { readonly midi: number; readonly slide?: boolean },
  temperament: Temperament,
): number {
  // The reeds behind a pressed slide are a second harp a half step higher, tuned as the first.
  const raised = slide ? (harp.tuning.slide ?? 0) : 0;
  return centsOff(harp.tuning, breath, midi - keyNote(harp) - raised, temperament);
}

/** Hertz of a note on this harp. Throws a RangeError where the harp has no such note. */
export function frequencyOf(harp: Harp, breath: Breath, note: HoleNote, pitching: Pitching = {}): number {
  const { concertA = CONCERT_A, temperament = EQUAL } = pitching;
  return frequencyOfMidi(midiOf(harp, breath, note) + centsOf(harp, breath, note, temperament) / 100, concertA);
}

function midiOf(harp: Harp, breath: Breath, note: HoleNote): number {
  const sound = sounding(harp, breath, note);
  if ('fault' in sound) throw new RangeError(`${sound.fault} at hole ${note.hole}`);
  return sound.midi;
}
