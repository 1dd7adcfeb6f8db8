import { type PitchClass, plainName, printedName } from '../instrument/pitch.ts';

/** A degree of a chord or scale within one octave: the 9th of a chord counts as its 2nd. */
export type Degree = (typeof DEGREES)[number];
/** The degrees of an octave. */
export const DEGREES = [1, 2, 3, 4, 5, 6, 7] as const;

/** One tone of a chord: its degree within the octave, its height, and the number it goes by (9 for an added second). */
export interface ChordTone {
  readonly degree: Degree;
  /** Half steps above the root, 0 to 11. */
  readonly semitones: number;
  /** 1 to 13. */
  readonly number: number;
}

/** A chord: a root, the tones above it, and perhaps another note in the bass. */
export interface Chord {
  readonly root: PitchClass;
  /** The degree of the song's key that the root's letter is: 7 for B, Bb and B# in C. */
  readonly step: Degree;
  /** What follows the root in the chord's name: `7`, `m7`, `maj7`, or nothing for a plain triad. */
  readonly suffix: string;
  /** The bass where it is not the root: E of `C/E`. Only a chord that was written by its name has one. */
  readonly bass?: PitchClass;
  readonly tones: readonly ChordTone[];
  /** The roman numeral, where the chord was written as one: it counts from the song's tonic, and `V7/V` from the V of the song. */
  readonly numeral?: string;
}

/** What players sort chords by: the third, the fifth and the seventh. */
export const CHORD_KINDS = ['major', 'minor', 'dominant', 'diminished', 'augmented', 'other'] as const;
/** One of {@link CHORD_KINDS}. */
export type ChordKind = (typeof CHORD_KINDS)[number];

/** The kind of a chord. `other` has no third, or a fifth that belongs to no other kind. */
export function kindOfChord({ tones }: Chord): ChordKind {
  const has = (degree: Degree, semitones: number): boolean =>
    tones.some((tone) => tone.degree === degree && tone.semitones === semitones);
  if (has(3, 4)) {
    if (has(7, 10)) return 'dominant';
    if (has(5, 8)) return 'augmented';
    return has(5, 6) ? 'other' : 'major';
  }
  if (has(3, 3)) return has(5, 6) ? 'diminished' : 'minor';
  return 'other';
}

/**
 * What stands for a chord where the author wrote that none sounds (`N.C.`). A place without a chord and without this word is one
 * of which nothing is said.
 */
export type NoChord = 'none';
/** No chord, as it is written, printed and shown. */
export const NO_CHORD = 'N.C.';

/** What a chord is called by. */
type Named = Pick<Chord, 'root' | 'suffix' | 'bass'>;

/** `A7`, `Bbm7`, `C/E`: as an author types it. */
export function plainChord(chord: Named | NoChord): string {
  if (chord === 'none') return NO_CHORD;
  const { root, suffix, bass } = chord;
  return plainName(root) + suffix + (bass ? `/${plainName(bass)}` : '');
}

/** `A7`, `B♭m7`, `D/F♯`: as a reader sees it. */
export function printedChord(chord: Named | NoChord): string {
  if (chord === 'none') return NO_CHORD;
  const { root, suffix, bass } = chord;
  const signed = suffix.replace(/b(?=\d)/g, '♭').replace(/#(?=\d)/g, '♯');
  return printedName(root) + signed + (bass ? `/${printedName(bass)}` : '');
}

/** What a chord was written as: its numeral or its name. */
export const writtenChord = (chord: Chord | NoChord): string =>
  (chord === 'none' ? undefined : chord.numeral) ?? plainChord(chord);

/** `♭VI7`, `vii°7`, `iiø7`, `V7/♭VI`: the numeral as a reader sees it. */
export const printedNumeral = (numeral: string): string =>
  numeral
    .replace('dim', '°')
    .replace(/(?<=[iv])7b5(?=$|\/)/, 'ø7')
    .replace(/b(?=[IViv\d])/g, '♭')
    .replace(/#(?=[IViv\d])/g, '♯');

const SUFFIX_WORDS: readonly (readonly [RegExp, string])[] = [
  [/^m(?!aj)/, 'minor'],
  [/maj/g, 'major'],
  [/dim/g, 'diminished'],
  [/aug/g, 'augmented'],
  [/sus/g, 'suspended'],
  [/add/g, 'added'],
  [/no(?=\d)/g, 'without'],
  [/b(?=\d)/g, 'flat'],
  [/#(?=\d)/g, 'sharp'],
];

const nameInWords = (name: PitchClass): string => plainName(name).replace(/b/g, ' flat').replace(/#/g, ' sharp');

/** `E7`, `B flat minor 7 flat 5`, `C over E`: the chord as read aloud. */
export function chordInWords(chord: Named | NoChord): string {
  if (chord === 'none') return 'no chord';
  const { root, suffix, bass } = chord;
  const words = SUFFIX_WORDS.reduce((text, [sign, word]) => text.replace(sign, ` ${word} `), suffix);
  const named = `${nameInWords(root)} ${words.replace(/[()/]/g, ' ')}`
    .replace(/\s+/g, ' ')
    .replace(/([A-G]) (?=\d)/, '$1')
    .trim();
  return named + (bass ? ` over ${nameInWords(bass)}` : '');
}

/** Whether two chords sound the same and are written the same. */
export const sameChord = (a: Chord, b: Chord): boolean => plainChord(a) === plainChord(b) && a.numeral === b.numeral;
