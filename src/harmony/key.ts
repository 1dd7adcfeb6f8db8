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
import { itemAt } from '../values/checked.ts';

/** The song's key: where numerals count from and what the staff's signature says. */
export interface SongKey {
  readonly tonic: PitchClass;
  readonly mode: 'major' | 'minor';
}

/** `Eb minor`: as an author types it. */
export const plainKey = ({ tonic, mode }: SongKey): string => `${plainName(tonic)} ${mode}`;

/** `E♭ minor`: as a reader sees it. */
export const printedKey = ({ tonic, mode }: SongKey): string => `${printedName(tonic)} ${mode}`;

/** Sharps (positive) or flats (negative) of the key signature, -7 to 7. */
export const signatureOf = (key: SongKey): number => fifthsOf(key.tonic) - (key.mode === 'minor' ? 3 : 0);

/** The key on a tonic, named so that its signature has at most seven signs: Gb minor is written F# minor. */
export function songKey(tonic: PitchClass, mode: SongKey['mode']): SongKey {
  const shift = mode === 'minor' ? 3 : 0;
  let fifths = fifthsOf(tonic);
  while (fifths - shift > 6) fifths -= 12;
  while (fifths - shift < -6) fifths += 12;
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

/** Half steps above the tonic; minor has its sixth and seventh in both forms. */
const SCALES_OF_MODES: Readonly<Record<SongKey['mode'], readonly number[]>> = {
  major: [0, 2, 4, 5, 7, 9, 11],
  minor: [0, 2, 3, 5, 7, 8, 9, 10, 11],
};

/** Whether a pitch, by its MIDI number, is in the key's scale. */
export const isInScale = (midi: number, { tonic, mode }: SongKey): boolean =>
  SCALES_OF_MODES[mode].includes(mod(midi - chromaOf(tonic), 12));

/**
 * A pitch spelled by the key alone, flat for the blue notes and what is borrowed. A flat fifth that would be Cb, Fb or a
 * double flat is the sharp fourth, as players write it: B in F, E in Bb.
 */
export function spellInKey(midi: number, key: SongKey): Pitch {
  const semitones = mod(midi - chromaOf(key.tonic), 12);
  const name = nameAbove(key.tonic, itemAt(FLAT_DEGREES, semitones), semitones);
  if (semitones === 6 && fifthsOf(name) < -6) return pitchOf(nameAbove(key.tonic, 4, semitones), midi);
  return pitchOf(name, midi);
}
