/** Chord symbols and roman numerals, read into chords. */
import { fifthsOf, plainName, readPitchClass } from '../instrument/pitch.ts';
import { itemAt, present } from '../values/checked.ts';
import { type Chord, NO_CHORD, type NoChord } from './chord.ts';
import type { SongKey } from './key.ts';
import { type Numeral, readNumeral, rootAt, stepBetween, writeNumeral } from './numeral.ts';
import { minorQuality, readQuality } from './quality.ts';

function readNumeralChord(text: string, key: SongKey): Chord | undefined {
  const numeral = readNumeral(text);
  const quality = numeral && (numeral.minor ? minorQuality : readQuality)(numeral.suffix);
  if (!quality) return undefined;
  return {
    root: rootAt(fifthsOf(key.tonic) + numeral.fifths),
    step: numeral.step,
    ...quality,
    numeral: numeralText(text, numeral, quality.suffix),
  };
}

/** The numeral in the spelling in which chords name theirs. Before a slash it counts from the step behind it. */
function numeralText(text: string, { fifths, of }: Numeral, suffix: string): string {
  if (of === undefined) return writeNumeral(fifths, suffix);
  const applied = present(readNumeral(text.slice(0, text.lastIndexOf('/'))), text);
  return `${writeNumeral(applied.fifths, suffix)}/${of}`;
}

function readNamedChord(text: string, key: SongKey): Chord | undefined {
  const match = /^([A-G][b♭#♯]?)(.*?)(?:\/([A-G][b♭#♯]?))?$/.exec(text);
  const root = match && readPitchClass(itemAt(match, 1));
  const quality = root && readQuality(itemAt(match, 2));
  if (!root || !quality) return undefined;
  const bass = match[3] === undefined ? undefined : readPitchClass(match[3]);
  const hasBass = bass && plainName(bass) !== plainName(root);
  return { root, step: stepBetween(key.tonic, root), ...quality, ...(hasBass ? { bass } : {}) };
}

/** No symbol in use is longer, and a long text must not fill the memory of those that were read. */
const LONGEST = 24;
/** A course names the same few chords over and over: by the fifths of the tonic, then by the text. */
const known = new Map<number, Map<string, Chord | undefined>>();

/** Reads `IV7`, `bVI7`, `V7/V`, `A7`, `F#m7b5`, `C/E`; undefined for what is no chord symbol. */
export function readChord(text: string, key: SongKey): Chord | undefined {
  if (text.length > LONGEST) return undefined;
  const fifths = fifthsOf(key.tonic);
  const inKey = known.get(fifths) ?? new Map<string, Chord | undefined>();
  known.set(fifths, inKey);
  if (!inKey.has(text)) inKey.set(text, readNumeralChord(text, key) ?? readNamedChord(text, key));
  return inKey.get(text);
}

/** Reads a chord symbol, or `N.C.` for no chord; undefined for anything else. */
export const readSymbol = (text: string, key: SongKey): Chord | NoChord | undefined =>
  text === NO_CHORD ? 'none' : readChord(text, key);

/** A numeral in the spelling in which chords name theirs: `viio7` as `viidim7`. Any other text stays what it is. */
export const plainNumeral = (text: string): string => readChord(text, C_MAJOR)?.numeral ?? text;

/** Whether a text is a chord symbol in any key, or `N.C.`. */
export const isChordSymbol = (text: string): boolean => readSymbol(text, C_MAJOR) !== undefined;
const C_MAJOR: SongKey = { tonic: { letter: 'C', alter: 0 }, mode: 'major' };
