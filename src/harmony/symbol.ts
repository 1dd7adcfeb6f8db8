/** Chord symbols and roman numerals, read into chords. The qualities and their spellings are tonal's chord dictionary. */
import { ChordType, Interval } from 'tonal';
import { fifthsOf, readPitchClass } from '../instrument/pitch.ts';
import { itemAt } from '../values/checked.ts';
import { type Chord, type ChordTone, DEGREES } from './chord.ts';
import type { SongKey } from './key.ts';
import { readNumeral, rootAt } from './numeral.ts';

const tonesOfSuffix = new Map<string, readonly ChordTone[] | undefined>();

/** The tones a suffix stands for (`7`, `m7`, `maj7` …), root first; undefined where no such chord is known. */
function tonesOf(suffix: string): readonly ChordTone[] | undefined {
  // A long text is no suffix, and must not fill the memory of those that were.
  if (suffix.length > 12) return undefined;
  if (!tonesOfSuffix.has(suffix)) {
    const type = ChordType.get(suffix);
    tonesOfSuffix.set(suffix, type.empty ? undefined : type.intervals.map(toneOf));
  }
  return tonesOfSuffix.get(suffix);
}

function toneOf(name: string): ChordTone {
  const interval = Interval.get(name);
  const number = interval.num ?? 1;
  return { degree: itemAt(DEGREES, (number - 1) % 7), semitones: interval.chroma ?? 0, number };
}

/** One spelling for each chord, whatever sign the author used for it. */
const plainSuffix = (text: string): string =>
  text
    .replaceAll('♭', 'b')
    .replaceAll('♯', '#')
    .replace(/^(°|o)(?=7?$)/, 'dim')
    .replace(/^(ø|h)7?$/, 'm7b5')
    .replace(/^(M7|Δ7?)$/, 'maj7');

function readNumeralChord(text: string, key: SongKey): Chord | undefined {
  const numeral = readNumeral(text);
  if (!numeral) return undefined;
  let suffix = plainSuffix(numeral.suffix);
  // The small letters already say minor: `ii7` is a minor seventh chord.
  if (numeral.minor && !/^(m(?!aj)|dim)/.test(suffix))
    suffix = suffix.startsWith('maj') ? `mM${suffix.slice(3)}` : `m${suffix}`;
  const tones = tonesOf(suffix);
  if (!tones) return undefined;
  const written = text.replaceAll('♭', 'b').replaceAll('♯', '#');
  return { root: rootAt(fifthsOf(key.tonic) + numeral.fifths), suffix, tones, numeral: written };
}

function readNamedChord(text: string): Chord | undefined {
  const match = /^([A-G][b♭#♯]?)(.*)$/.exec(text);
  const root = match && readPitchClass(itemAt(match, 1));
  if (!root) return undefined;
  const suffix = plainSuffix(itemAt(match, 2));
  const tones = tonesOf(suffix);
  return tones && { root, suffix, tones };
}

/** No root or numeral with a suffix that is known is longer. */
const LONGEST = 20;
/** A course names the same few chords over and over: by the fifths of the tonic, then by the text. */
const known = new Map<number, Map<string, Chord | undefined>>();

/** Reads `IV7`, `bVI7`, `A7`, `F#m7b5`; undefined for what is no chord symbol. */
export function readChord(text: string, key: SongKey): Chord | undefined {
  if (text.length > LONGEST) return undefined;
  const fifths = fifthsOf(key.tonic);
  const inKey = known.get(fifths) ?? new Map<string, Chord | undefined>();
  known.set(fifths, inKey);
  if (!inKey.has(text)) inKey.set(text, readNumeralChord(text, key) ?? readNamedChord(text));
  return inKey.get(text);
}

/** Whether a text is a chord symbol in any key. */
export const isChordSymbol = (text: string): boolean => readChord(text, C_MAJOR) !== undefined;
const C_MAJOR: SongKey = { tonic: { letter: 'C', alter: 0 }, mode: 'major' };
