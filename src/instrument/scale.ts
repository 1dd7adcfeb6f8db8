/** Scales as data, and where their notes lie on a harp. */
import { itemAt } from '../values/checked.ts';
import type { Harp } from './harp.ts';
import {
  atFifths,
  chromaOf,
  fifthsOf,
  majorDegree,
  mod,
  nameAbove,
  type Pitch,
  type PitchClass,
  pitchOf,
} from './pitch.ts';
import { type Means, meansOf, notesOf, type Playable, placesOfPitch } from './playable.ts';

/** A scale, as steps above its tonic. */
export interface Scale {
  readonly id: string;
  readonly title: string;
  /** Degrees against the major scale: `1 b3 4 b5 5 b7`. */
  readonly degrees: string;
}

/** Common knowledge of music theory; the tests compare the rows with tonal's scale dictionary. */
export const SCALES = [
  { id: 'blues', title: 'Blues', degrees: '1 b3 4 b5 5 b7' },
  { id: 'major-pentatonic', title: 'Major pentatonic', degrees: '1 2 3 5 6' },
  { id: 'minor-pentatonic', title: 'Minor pentatonic', degrees: '1 b3 4 5 b7' },
  { id: 'ionian', title: 'Ionian (major)', degrees: '1 2 3 4 5 6 7' },
  { id: 'dorian', title: 'Dorian', degrees: '1 2 b3 4 5 6 b7' },
  { id: 'phrygian', title: 'Phrygian', degrees: '1 b2 b3 4 5 b6 b7' },
  { id: 'lydian', title: 'Lydian', degrees: '1 2 3 #4 5 6 7' },
  { id: 'mixolydian', title: 'Mixolydian', degrees: '1 2 3 4 5 6 b7' },
  { id: 'aeolian', title: 'Aeolian (natural minor)', degrees: '1 2 b3 4 5 b6 b7' },
  { id: 'locrian', title: 'Locrian', degrees: '1 b2 b3 4 b5 b6 b7' },
  { id: 'harmonic-minor', title: 'Harmonic minor', degrees: '1 2 b3 4 5 b6 7' },
] as const satisfies readonly Scale[];

export type ScaleId = (typeof SCALES)[number]['id'];
/** The seven modes of the major scale, by the old names. */
export const CHURCH_MODES: readonly ScaleId[] = [
  'ionian',
  'dorian',
  'phrygian',
  'lydian',
  'mixolydian',
  'aeolian',
  'locrian',
];

/** The scale with an id; undefined for an unknown id. */
export const scaleOf = (id: string): Scale | undefined => SCALES.find((scale) => scale.id === id);

/** One step of a scale, or any degree of a key. */
export interface Step {
  /** 1 to 7. */
  readonly degree: number;
  /** Half steps above the tonic, 0 to 11. */
  readonly semitones: number;
  /** As a reader sees it: `♭3`. */
  readonly label: string;
}

/** The steps of a scale from its tonic up. */
export function stepsOf({ degrees }: Pick<Scale, 'degrees'>): readonly Step[] {
  return degrees.split(' ').map((text) => {
    const degree = Number(text.at(-1));
    const alter = text.startsWith('b') ? -1 : text.startsWith('#') ? 1 : 0;
    const semitones = mod(majorDegree(degree) + alter, 12);
    return { degree, semitones, label: text.replace('b', '♭').replace('#', '♯') };
  });
}

/** The twelve degrees of a key, flat for what lies outside the major scale. */
export const CHROMATIC_STEPS: readonly Step[] = stepsOf({ degrees: '1 b2 2 b3 3 4 b5 5 b6 6 b7 7' });

/**
 * The names of a scale's notes. A tonic with two usual names takes the other one (Gb becomes F#) where that saves a double
 * sign; a double flat that is left is written as players do: the flat fifth of Eb is A, not B double flat.
 */
export function scaleNoteNames(tonic: PitchClass, steps: readonly Step[]): readonly PitchClass[] {
  const spelled = (from: PitchClass) => steps.map(({ degree, semitones }) => nameAbove(from, degree, semitones));
  const isDouble = ({ alter }: PitchClass) => Math.abs(alter) > 1;
  const given = spelled(tonic);
  if (!given.some(isDouble)) return given;
  const fifths = fifthsOf(tonic);
  const otherFifths = fifths > 0 ? fifths - 12 : fifths + 12;
  const other = Math.abs(otherFifths) <= MOST_SIGNS ? spelled(atFifths(otherFifths)) : given;
  // A tonic with double sharps above it always has another name: what is left is flat.
  return other.map((name) => (isDouble(name) ? atFifths(fifthsOf(name) + 12) : name));
}

/** No key signature has more. */
const MOST_SIGNS = 7;

/** A note of a scale at one height on a harp. */
export interface LaidNote {
  readonly step: Step;
  readonly pitch: Pitch;
  /** Every place of it, easiest first; none where the harp lacks the note. */
  readonly places: readonly Playable[];
  /** The easiest means, or undefined where the harp lacks the note. */
  readonly means: Means | undefined;
}

/**
 * A scale over the whole range of a harp, upwards from its lowest note: each note with its places, the missing ones too.
 * The range is that of the reeds and bends, since an overbend past the highest reed belongs to no scale a player expects.
 */
export function layOut(harp: Harp, tonic: PitchClass, steps: readonly Step[]): readonly LaidNote[] {
  const reached = notesOf(harp).filter((note) => !note.over);
  const lowest = Math.min(...reached.map(({ midi }) => midi));
  const highest = Math.max(...reached.map(({ midi }) => midi));
  const names = scaleNoteNames(tonic, steps);
  const laid: LaidNote[] = [];
  for (let midi = lowest; midi <= highest; midi++) {
    const index = steps.findIndex(({ semitones }) => mod(midi - chromaOf(tonic) - semitones, 12) === 0);
    const step = steps[index];
    if (!step) continue;
    const places = placesOfPitch(harp, midi);
    const easiest = places[0];
    laid.push({
      step,
      pitch: pitchOf(itemAt(names, index), midi),
      places,
      means: easiest && meansOf(easiest),
    });
  }
  return laid;
}

/** Those notes of a laid-out scale that neither reed, slide nor bend gives; `overbend` says whether one of those would. */
export const missingOf = (laid: readonly LaidNote[]): readonly LaidNote[] =>
  laid.filter(({ means }) => means === undefined || means === 'overbend');
