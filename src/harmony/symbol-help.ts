/** What to write in place of a text that is not a chord symbol. */

import { plainName, readPitchClass } from '../instrument/pitch.ts';
import { NO_CHORD, plainChord } from './chord.ts';
import type { SongKey } from './key.ts';
import { readNumeral } from './numeral.ts';
import { isChordSymbol, readChord } from './symbol.ts';

/** What to write where nothing more is known of a text that is not a chord symbol. */
export const CHORD_EXAMPLES = 'Write a numeral ("IV7", "bVI7", "ii7") or a name ("A7", "F#m7b5").';

/** What is wrong with a text that is not a chord symbol, and how to write it; undefined where that cannot be seen. */
export function chordHelp(text: string): string | undefined {
  if (text === NO_CHORD) return 'A quotation moves to a chord, and where no chord sounds there is none.';
  if (/^\W*n\W*c\W*$|^no[ -]?chord$/i.test(text)) return `Did you mean ${NO_CHORD}, for no chord?`;
  // H is the German name of B, and a small letter is none of a chord.
  const name = text.charAt(0).toUpperCase().replace('H', 'B') + text.slice(1);
  if (/^[ac-hH]/.test(text) && isChordSymbol(name)) return `Did you mean ${name}?`;
  const slash = text.lastIndexOf('/');
  if (slash < 0) return undefined;
  const [before, behind] = [text.slice(0, slash), text.slice(slash + 1)];
  if (numeralOverNote(text)) {
    const inC = nameOfNumeralOver(text, { tonic: { letter: 'C', alter: 0 }, mode: 'major' });
    return `A numeral has no bass note. Write the chord by its name: in C it is ${inC}.`;
  }
  if (readNumeral(before)) return ofHelp(before, behind);
  return before !== NO_CHORD && isChordSymbol(before) ? bassHelp(before, behind) : undefined;
}

/** `I/E` taken apart: a numeral with a note name behind its slash, as if that were its bass; undefined for anything else. */
function numeralOverNote(text: string): { readonly numeral: string; readonly bass: string } | undefined {
  const [, numeral = '', bass = ''] = /^(.+)\/([A-G][b♭#♯]?)$/.exec(text) ?? [];
  return readNumeral(numeral) && isChordSymbol(numeral) ? { numeral, bass } : undefined;
}

/**
 * Whether a text is no chord symbol and nothing is known of it. A numeral over a note name is reported with the name of the chord, once the
 * key is known.
 */
export const isUnknownSymbol = (text: string): boolean => !isChordSymbol(text) && numeralOverNote(text) === undefined;

/** The same for a chord that a quotation is moved to, which has to be one. */
export const isUnknownTarget = (text: string): boolean => text === NO_CHORD || isUnknownSymbol(text);

/** What a numeral over a note name is called in a key: `I/E` in C is `C/E`, and `I/C` is `C`. Undefined for any other text. */
export function nameOfNumeralOver(text: string, key: SongKey): string | undefined {
  const over = numeralOverNote(text);
  const chord = over && readChord(over.numeral, key);
  const bass = over && readPitchClass(over.bass);
  if (!chord || !bass) return undefined;
  return plainChord(plainName(bass) === plainName(chord.root) ? chord : { ...chord, bass });
}

/** Behind the slash of a name is no note. H is the German name of B. */
function bassHelp(before: string, behind: string): string {
  const name = behind.charAt(0).toUpperCase().replace('H', 'B') + behind.slice(1);
  const meant = `${before}/${name}`;
  const help = 'Behind the slash of a name is the note of the bass, A to G with b or # where it has one.';
  return isChordSymbol(meant) ? `${help} Did you mean ${meant}?` : help;
}

/** Behind the slash of a numeral is something other than a numeral. */
function ofHelp(before: string, behind: string): string {
  const step = /^[b♭#♯]?[IViv]+(?=.)/.exec(behind)?.[0];
  const meant = `${before}/${step}`;
  if (step !== undefined && isChordSymbol(meant)) return `Behind the slash is a numeral alone. Did you mean ${meant}?`;
  return 'Behind the slash of a numeral is one other numeral, the step it counts from: V7/V, viidim7/ii, V7/bVI.';
}
