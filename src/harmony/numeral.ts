/** Roman numerals: steps of the song's key, counted from the major scale of its tonic in either mode (bVI is written out). */
import { atFifths, fifthsOf, type PitchClass } from '../instrument/pitch.ts';
import { itemAt, present, valueAt } from '../values/checked.ts';
import { type Chord, DEGREES, type Degree } from './chord.ts';
import type { SongKey } from './key.ts';

/** Fifths from the tonic to each step of its major scale. */
const STEPS: ReadonlyMap<string, number> = new Map(
  Object.entries({ I: 0, II: 2, III: 4, IV: -1, V: 1, VI: 3, VII: 5 }),
);

const NUMERALS = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'];

/** A roman numeral, taken apart. */
export interface Numeral {
  /** Fifths from the tonic to the chord's root; with `of`, from the song's tonic all the same. */
  readonly fifths: number;
  /** The degree of the song's major scale whose letter the root has, whatever its accidental. */
  readonly step: Degree;
  /** A small numeral: a minor or diminished chord. */
  readonly minor: boolean;
  /** What follows the step. */
  readonly suffix: string;
  /** The numeral behind the slash, of the step that this one counts from: `V` of `V7/V`. */
  readonly of?: string;
}

// The longer steps are first, so that IV does not read as I with something behind it.
const NUMERAL = /^([b♭#♯]?)(VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)(.*)$/;
// A numeral behind the last slash, with nothing behind it: the slash of `I6/9` belongs to the suffix.
const APPLIED = /^(.+)\/([b♭#♯]?[IViv]+)$/;

/**
 * Reads a roman numeral with its accidental; undefined for anything else. One before a slash counts from the major scale of the
 * step behind it: `V7/V` is the V7 of the V. There is one such slash at most.
 */
export function readNumeral(text: string): Numeral | undefined {
  const [, applied = text, step] = APPLIED.exec(text) ?? [];
  const numeral = readPlainNumeral(applied);
  if (step === undefined) return numeral;
  const of = readPlainNumeral(step);
  if (!numeral || !of || of.suffix !== '') return undefined;
  return {
    ...numeral,
    fifths: numeral.fifths + of.fifths,
    step: itemAt(DEGREES, (numeral.step + of.step - 2) % 7),
    of: step.replace('♭', 'b').replace('♯', '#'),
  };
}

function readPlainNumeral(text: string): Omit<Numeral, 'of'> | undefined {
  const match = NUMERAL.exec(text);
  if (!match) return undefined;
  const [, sign = '', step = '', suffix = ''] = match;
  const accidental = sign === '' ? 0 : sign === 'b' || sign === '♭' ? -1 : 1;
  const numeral = step.toUpperCase();
  const fifths = valueAt(STEPS, numeral) + 7 * accidental;
  return { fifths, step: itemAt(DEGREES, NUMERALS.indexOf(numeral)), minor: step === step.toLowerCase(), suffix };
}

/** The step of the key that a numeral's root is, in capitals: `bVI` of `bVI7`, `II` of `ii7` and of `V7/V`. */
export function stepOfNumeral(text: string): string {
  const numeral = readNumeral(text);
  if (!numeral) return '';
  const { sign, step } = splitNumeral(withinReach(numeral.fifths));
  return sign + step;
}

/** What is further from the tonic than a numeral with one sign can name is taken for its enharmonic twin. */
function withinReach(fifths: number): number {
  return fifths > 12 ? fifths - 12 : fifths < -8 ? fifths + 12 : fifths;
}

/**
 * Fifths from a tonic to a root, -6 (bV) to 10 (#VI). Further away the root is taken for its enharmonic twin: C# is the
 * tonic of a song in Db.
 */
function fifthsAbove(tonic: PitchClass, root: PitchClass): number {
  const fifths = fifthsOf(root) - fifthsOf(tonic);
  return fifths > 10 ? fifths - 12 : fifths < -6 ? fifths + 12 : fifths;
}

/** The degree of a key that a root is: 3 for E, Eb and E# in C. */
export const stepBetween = (tonic: PitchClass, root: PitchClass): Degree =>
  itemAt(DEGREES, NUMERALS.indexOf(splitNumeral(fifthsAbove(tonic, root)).step));

/** A root so many fifths from C, named with at most one sign (Fb to A#). */
export function rootAt(fifths: number): PitchClass {
  let named = fifths;
  while (named > 10) named -= 12;
  while (named < -8) named += 12;
  return atFifths(named);
}

/** The same chord in another key: a numeral counts from the new tonic, a name and its bass move by the same interval. */
export function moveChord<Named extends Pick<Chord, 'root' | 'numeral' | 'bass'>>(
  chord: Named,
  from: SongKey,
  to: SongKey,
): Named {
  const numeral = chord.numeral === undefined ? undefined : readNumeral(chord.numeral);
  const fifths = numeral
    ? fifthsOf(to.tonic) + numeral.fifths
    : fifthsOf(chord.root) + fifthsOf(to.tonic) - fifthsOf(from.tonic);
  const root = rootAt(fifths);
  if (!chord.bass) return { ...chord, root };
  return { ...chord, root, bass: rootAt(fifthsOf(chord.bass) + fifthsOf(root) - fifthsOf(chord.root)) };
}

/** The numeral of a chord in a key without its bass, however it was written: A7 in D is V7, and the letter of a name stays: Gb7 in C is bV7. */
export function numeralOf(chord: Chord, key: SongKey): string {
  if (chord.numeral !== undefined) return chord.numeral;
  return writeNumeral(fifthsAbove(key.tonic, chord.root), chord.suffix);
}

/** The numeral of a chord so many fifths (-8 to 12) from the tonic: small where its suffix says minor, `ii7` for `m7`. */
export function writeNumeral(fifths: number, suffix: string): string {
  const { sign, step } = splitNumeral(fifths);
  if (/^m(?!aj)/.test(suffix)) return sign + step.toLowerCase() + suffix.slice(1);
  return sign + (suffix.startsWith('dim') ? step.toLowerCase() : step) + suffix;
}

function splitNumeral(fifths: number): { readonly sign: string; readonly step: string } {
  const sign = fifths < -1 ? 'b' : fifths > 5 ? '#' : '';
  const plain = sign === 'b' ? fifths + 7 : sign === '#' ? fifths - 7 : fifths;
  const step = [...STEPS].find(([, from]) => from === plain)?.[0];
  return { sign, step: present(step, `a numeral ${fifths} fifths from the tonic`) };
}
