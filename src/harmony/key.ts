import { tonicInPosition } from '../instrument/harp.ts';
import {
  atFifths,
  chromaOf,
  FLAT_DEGREES,
  fifthsOf,
  mod,
  nameAbove,
  type Pitch,
  type PitchClass,
  pitchOf,
  plainName,
  printedName,
} from '../instrument/pitch.ts';
import { endsInQuarter, QUARTER, quarterBelow } from '../instrument/quarter-step.ts';
import { itemAt } from '../values/checked.ts';

/** The modes a song can be in. */
export const MODE_NAMES = ['major', 'minor', 'dorian', 'phrygian', 'lydian', 'mixolydian', 'locrian'] as const;
/** One of {@link MODE_NAMES}. */
export type Mode = (typeof MODE_NAMES)[number];

/**
 * Fifths from a major key’s signature to that of a mode on the same tonic, and its scale in half steps above the tonic: common practice,
 * no source. Minor has its sixth and seventh in both forms.
 */
const MODES: Readonly<Record<Mode, { readonly fifths: number; readonly scale: readonly number[] }>> = {
  major: { fifths: 0, scale: [0, 2, 4, 5, 7, 9, 11] },
  minor: { fifths: -3, scale: [0, 2, 3, 5, 7, 8, 9, 10, 11] },
  dorian: { fifths: -2, scale: [0, 2, 3, 5, 7, 9, 10] },
  phrygian: { fifths: -4, scale: [0, 1, 3, 5, 7, 8, 10] },
  lydian: { fifths: 1, scale: [0, 2, 4, 6, 7, 9, 11] },
  mixolydian: { fifths: -1, scale: [0, 2, 4, 5, 7, 9, 10] },
  locrian: { fifths: -5, scale: [0, 1, 3, 5, 6, 8, 10] },
};

/** The song's key: where numerals count from and what the staff's signature says. */
export interface SongKey {
  readonly tonic: PitchClass;
  readonly mode: Mode;
}

/** `Eb minor`: as an author types it. */
export const plainKey = ({ tonic, mode }: SongKey): string => `${plainName(tonic)} ${mode}`;

/** `E♭ minor`: as a reader sees it. */
export const printedKey = ({ tonic, mode }: SongKey): string => `${printedName(tonic)} ${mode}`;

/** Sharps (positive) or flats (negative) of the key signature, -7 to 7. */
export const signatureOf = ({ tonic, mode }: SongKey): number => fifthsOf(tonic) + MODES[mode].fifths;

/** The key on a tonic, named so that its signature has at most seven signs: Gb minor is written F# minor. */
export function songKey(tonic: PitchClass, mode: SongKey['mode']): SongKey {
  const shift = MODES[mode].fifths;
  let fifths = fifthsOf(tonic);
  while (fifths + shift > 6) fifths -= 12;
  while (fifths + shift < -6) fifths += 12;
  return { tonic: atFifths(fifths), mode };
}

/** The key of a mode that a harp in this key plays in a position, 1 to 12. */
export const keyInPosition = (harpKey: PitchClass, position: number, mode: SongKey['mode']): SongKey =>
  songKey(tonicInPosition(harpKey, position), mode);

/** The accidental the signature puts on a letter. */
export function signatureAlter(key: SongKey, letter: PitchClass['letter']): number {
  const place = fifthsOf({ letter, alter: 0 });
  const signature = signatureOf(key);
  return place + 1 < signature ? 1 : place >= 6 + signature ? -1 : 0;
}

/** Whether a pitch, by its MIDI number, is in the key's scale. */
export const isInScale = (midi: number, { tonic, mode }: SongKey): boolean =>
  isStep(mode, mod(midi - chromaOf(tonic), 12));

/** Whether a mode has a note so many half steps above its tonic. */
export const isStep = (mode: Mode, semitones: number): boolean => MODES[mode].scale.some((step) => step === semitones);

/**
 * A pitch spelled by the key alone, flat for the blue notes and what is borrowed. A flat fifth that would be Cb, Fb or a
 * double flat is the sharp fourth, as players write it: B in F, E in Bb.
 */
export function spellInKey(midi: number, key: SongKey): Pitch {
  if (endsInQuarter(midi)) return quarterBelow(spellInKey(midi + QUARTER, key));
  const semitones = mod(midi - chromaOf(key.tonic), 12);
  const name = nameAbove(key.tonic, itemAt(FLAT_DEGREES, semitones), semitones);
  if (semitones === 6 && fifthsOf(name) < -6) return pitchOf(nameAbove(key.tonic, 4, semitones), midi);
  return pitchOf(name, midi);
}
