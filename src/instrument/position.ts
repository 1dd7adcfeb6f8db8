/** Positions: the keys one harp is played in, and what each finds on the reeds. */
import { itemAt } from '../values/checked.ts';
import { type Harp, keyNote, tonicInPosition } from './harp.ts';
import { chromaOf, mod, type PitchClass } from './pitch.ts';
import { MEANS, type Means, meansOf, notesOf, type Playable } from './playable.ts';
import { CHROMATIC_STEPS, CHURCH_MODES, SCALES, type Scale, type Step, scaleNoteNames, stepsOf } from './scale.ts';

/** Each is a fifth above the one before. */
export const POSITIONS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12] as const;

/** Names players use for the first three. Common practice; no name is in general use for the rest. */
const NAMES: Readonly<Record<number, string>> = { 1: 'straight', 2: 'cross', 3: 'slant' };

/** The name players use for a position, such as `cross`; undefined if it has none. */
export const positionName = (position: number): string | undefined => NAMES[position];

const ORDINALS = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
  'eleventh',
  'twelfth',
];
/** `second`, for 1 to 12. */
export const ordinal = (n: number): string => ORDINALS[n - 1] ?? `${n}th`;

/** `second position`. */
export const positionInWords = (position: number): string => `${ordinal(position)} position`;

/** One degree of a position's key and everywhere the harp sounds it. */
export interface DegreePlaces {
  readonly step: Step;
  readonly places: readonly Playable[];
  /** The easiest means, or undefined where the harp lacks it in every octave. */
  readonly means: Means | undefined;
}

/** What a harp plays in one position. */
export interface Position {
  readonly number: number;
  readonly tonic: PitchClass;
  /** The tonic on plain reeds. */
  readonly tonicPlaces: readonly Playable[];
  /**
   * The seven-note scales whose every note lies on plain reeds: one for a harp with the reeds of a major scale, none where
   * the tonic itself takes a bend, more where two reeds offer both forms of a degree.
   */
  readonly modes: readonly Scale[];
  /** All twelve degrees, from the tonic up. */
  readonly degrees: readonly DegreePlaces[];
}

/** The tonic as a player names it: after the position's mode where it has one, C sharp Phrygian rather than D flat. */
export const namedTonic = ({ tonic, modes }: Position): PitchClass =>
  (modes[0] && scaleNoteNames(tonic, stepsOf(modes[0]))[0]) ?? tonic;

const SEVEN_NOTE: readonly Scale[] = SCALES.filter(({ id }) => CHURCH_MODES.includes(id) || id === 'harmonic-minor');

/** A position (1 to 12) of a harp. With a slide, its notes count as plain ones only where it is out. */
export function positionOn(harp: Harp, number: number): Position {
  const tonic = tonicInPosition(harp.key, number);
  const notes = notesOf(harp);
  const degrees = CHROMATIC_STEPS.map((step): DegreePlaces => {
    const places = notes.filter(({ midi }) => mod(midi - chromaOf(tonic) - step.semitones, 12) === 0);
    return { step, places, means: easiest(places) };
  });
  const plain = new Set(degrees.filter(({ means }) => means === 'reed').map(({ step }) => step.semitones));
  return {
    number,
    tonic,
    tonicPlaces: itemAt(degrees, 0).places.filter((place) => meansOf(place) === 'reed'),
    modes: SEVEN_NOTE.filter((scale) => stepsOf(scale).every(({ semitones }) => plain.has(semitones))),
    degrees,
  };
}

const easiest = (places: readonly Playable[]): Means | undefined =>
  MEANS.find((means) => places.some((place) => meansOf(place) === means));

/** The position that plays a song of some key on a harp. */
export const positionFor = (harp: Harp, tonic: PitchClass): number =>
  mod(7 * (chromaOf(tonic) - mod(keyNote(harp), 12)), 12) + 1;
