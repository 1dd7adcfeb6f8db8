/** Spelled pitch: a letter and an accidental as well as a number, since Bb and A# are one key and two notes. */
import { itemAt, present } from '../values/checked.ts';
/** The names of the notes, in the order of an octave of scientific pitch. */
export const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;
/** One of {@link LETTERS}. */
export type Letter = (typeof LETTERS)[number];

/** A note name without its octave. `alter` counts half steps: -1 flat, 1 sharp, -0.5 a quarter step below the natural (`quarter-step.ts`). */
export interface PitchClass {
  readonly letter: Letter;
  readonly alter: number;
}

/** `octave` is scientific (C4 is middle C) and belongs to the letter: Cb4 sounds as B3. `midi` numbers middle C 60, and ends in .5 for a quarter step. */
export interface Pitch extends PitchClass {
  readonly octave: number;
  readonly midi: number;
}

const MAJOR_SCALE = [0, 2, 4, 5, 7, 9, 11] as const;
/** Half steps of a degree of the major scale (1 to 7) above its tonic. */
export const majorDegree = (degree: number): number => itemAt(MAJOR_SCALE, degree - 1);

/** The plain letters are the major scale on C. */
const [C, D, E, F, G, A, B] = MAJOR_SCALE;
const SEMITONES: Readonly<Record<Letter, number>> = { C, D, E, F, G, A, B };
/** The line of fifths with C at 0: … Bb -2, F -1, C 0, G 1, D 2 … ; each sharp adds seven. */
const FIFTHS: Readonly<Record<Letter, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };
const LINE: readonly Letter[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** The remainder of a division that is never negative; `m` is positive. */
export const mod = (n: number, m: number): number => ((n % m) + m) % m;

/** Where a pitch class is on the line of fifths: C is 0, G is 1, F is -1. */
export const fifthsOf = (p: PitchClass): number => FIFTHS[p.letter] + 7 * p.alter;

/** The pitch class at a place of the line of fifths. */
export function atFifths(fifths: number): PitchClass {
  const letter = itemAt(LINE, mod(fifths + 1, 7));
  return { letter, alter: Math.floor((fifths + 1) / 7) };
}

/** Half steps above C, 0 to 11. */
export const chromaOf = (p: PitchClass): number => mod(SEMITONES[p.letter] + p.alter, 12);

/** The MIDI number of a chroma in the octave that begins at `floor`. */
export const lowestFrom = (floor: number, chroma: number): number => floor + mod(chroma - floor, 12);

/** The pitch of that name whose number is `midi`, or undefined where the name does not sound so. */
export function pitchNamed(name: PitchClass, midi: number): Pitch | undefined {
  if (chromaOf(name) !== mod(midi, 12)) return undefined;
  const octave = (midi - SEMITONES[name.letter] - name.alter) / 12 - 1;
  return { letter: name.letter, alter: name.alter, octave, midi };
}

/** The pitch whose number is `midi`, by a name that sounds so: for any other name this throws. */
export function pitchOf(name: PitchClass, midi: number): Pitch {
  const pitch = pitchNamed(name, midi);
  if (!pitch) throw new RangeError(`${midi} is not a ${plainName(name)}`);
  return pitch;
}

/**
 * The name `degree` letters above `root` (1 is the root's own letter) that sounds `semitones` above it:
 * degree 3 and 3 half steps above E is G natural. The accidental may be double or worse; callers decide.
 */
export function nameAbove(root: PitchClass, degree: number, semitones: number): PitchClass {
  const index = LETTERS.indexOf(root.letter) + degree - 1;
  const letter = itemAt(LETTERS, mod(index, 7));
  const natural = SEMITONES[letter] - SEMITONES[root.letter];
  // Whichever octave the letter is taken from, the nearest is meant.
  return { letter, alter: mod(root.alter + semitones - natural + 6, 12) - 6 };
}

/** The degrees whose letters name the twelve half steps above a key note: a flat for what lies outside its major scale. */
export const FLAT_DEGREES = [1, 2, 2, 3, 3, 4, 5, 5, 6, 6, 7, 7] as const;

/** The signs of a name; `lower` comes after those of the note that is a quarter step above. */
function signs(alter: number, flat: string, sharp: string, lower: string): string {
  const whole = Math.ceil(alter);
  return (whole < 0 ? flat.repeat(-whole) : sharp.repeat(whole)) + (whole === alter ? '' : lower);
}

/** `Bb`, `F#`: as an author types it. `Bq` is a quarter step below B, as `q` is in the tab. */
export const plainName = (p: PitchClass): string => p.letter + signs(p.alter, 'b', '#', 'q');
/** `B♭`, `F♯`: as a reader sees it. `B↓` is a quarter step below B. */
export const printedName = (p: PitchClass): string =>
  p.letter + signs(p.alter, '♭', '♯', '↓').replace('♭♭', '𝄫').replace('♯♯', '𝄪');
/** `Bb4`. */
export const plainPitch = (p: Pitch): string => plainName(p) + p.octave;
/** `B♭4`. */
export const printedPitch = (p: Pitch): string => printedName(p) + p.octave;

/** Reads `Bb`, `B♭`, `F#`, `f♯`; undefined for anything else. */
export function readPitchClass(text: string): PitchClass | undefined {
  const match = /^([A-Ga-g])(b|♭|#|♯)?$/.exec(text);
  if (!match) return undefined;
  const name = itemAt(match, 1).toUpperCase();
  const sign = match[2];
  return {
    letter: present(
      LETTERS.find((letter) => letter === name),
      name,
    ),
    alter: sign === undefined ? 0 : sign === 'b' || sign === '♭' ? -1 : 1,
  };
}
