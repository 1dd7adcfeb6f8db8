/** Lines that are meant as settings and are not written as such. */
import { type Known, nearest } from '../../diagnostics/nearest.ts';

/** A line that reads as a setting: offsets are within the line. */
export interface MeantSetting {
  /** In small letters. */
  readonly key: string;
  /** What is in place of the key and its colon. */
  readonly from: number;
  readonly to: number;
  /** With the colon. */
  readonly head: string;
  /** Where the value ends, which begins at `to`. */
  readonly valueTo: number;
  /** Whether nothing else can be meant. */
  readonly isCertain: boolean;
}

/** Keys of lines that are words, or music: what is behind them has no colon of its own. */
export const LINE_KEYS = ['part', 'text', 'words', 'syllables', 'phrase'];

/**
 * Reads `harp A`, `harp = A`, `- harp: A`, `phrase lick 4 5`, `[Chorus]`; undefined for music, and for settings as they are written.
 * No music begins with such a word.
 */
export function meantSetting(line: string, keys: readonly string[]): MeantSetting | undefined {
  const part = /^ *\[ *(\p{Lu}[\p{L}\d ]{0,40}?) *\] *$/u.exec(line)?.[1];
  if (part !== undefined) {
    const to = line.indexOf(part);
    return { key: 'part', from: line.indexOf('['), to, head: 'part: ', valueTo: to + part.length, isCertain: true };
  }
  const found = /^( *(?:[-*•+] +)?)([A-Za-z]+)( *(?::=|=|:) *| +)(?=\S)/.exec(line);
  if (!found) return undefined;
  const [whole, before = '', word = '', between = ''] = found;
  const key = word.toLowerCase();
  if (!keys.includes(key)) return undefined;
  const from = before.length - before.trimStart().length;
  if (key === 'phrase') return meantPhrase(line, from, before.length);
  if (between.includes(':') && !between.includes('=') && from === before.length) return undefined;
  const of = LINE_KEYS.includes(key) ? undefined : /^(?:of|is|in|at) +(?=\S)/.exec(line.slice(whole.length))?.[0];
  return {
    key,
    from,
    to: whole.length + (of?.length ?? 0),
    head: `${key}: `,
    valueTo: line.length,
    // Behind the name of a setting something else may be meant than its value, as in a sentence.
    isCertain: !LINE_KEYS.includes(key) || between.trim() !== '',
  };
}

/** `phrase lick 4 5`, `phrase lick = 4 5`. */
function meantPhrase(line: string, from: number, wordFrom: number): MeantSetting | undefined {
  const found = /^phrase +([\w-]*[A-Za-z_][\w-]*)( *= *| +)(?=\S)/i.exec(line.slice(wordFrom));
  if (!found) return undefined;
  const [whole, name = '', between = ''] = found;
  const to = wordFrom + whole.length;
  const isCertain = !between.includes('=');
  return { key: `phrase ${name}`, from, to, head: `phrase ${name}: `, valueTo: line.length, isCertain };
}

/** Names of settings elsewhere. */
const OTHER_NAMES: readonly Known[] = [
  ['time', 'meter'],
  ['time signature', 'meter'],
  ['signature', 'meter'],
  ['metre', 'meter'],
  ['bpm', 'tempo'],
  ['speed', 'tempo'],
  ['scale', 'key'],
  ['tonality', 'key'],
  ['mode', 'key'],
  ['harmonica', 'harp'],
  ['name', 'title'],
  ['swing', 'feel'],
  ['rhythm', 'feel'],
  ['groove', 'feel'],
  ['progression', 'chords'],
  ['changes', 'chords'],
  ['grid', 'slot'],
  ['unit', 'slot'],
  ['note length', 'slot'],
  ['subdivision', 'slot'],
  ['upbeat', 'pickup'],
  ['anacrusis', 'pickup'],
  ['embouchure', 'mouth'],
  ['section', 'part'],
  ['lyrics', 'words'],
  ['verse', 'words'],
  ['lick', 'phrase'],
  ['riff', 'phrase'],
];

/** The setting that an unknown name is nearest to, with what is behind its word. */
export function nearestSetting(key: string, known: readonly string[]): string | undefined {
  const words = /^(?:verse|lyrics)\b/i.exec(key)?.[0];
  return words === undefined ? nearest(key, [...known, ...OTHER_NAMES]) : `words${key.slice(words.length)}`;
}

/** Where a second setting begins in the value of another one: `1/4, tempo: 90`. */
export function secondSetting(
  value: string,
  keys: readonly string[],
): { readonly at: number; readonly key: string; readonly keyAt: number; readonly valueAt: number } | undefined {
  for (const found of value.matchAll(/(?:^|(?<![\s,;])[\s,;]+)([a-z]+) *[:=] */gi)) {
    const key = found[1]?.toLowerCase() ?? '';
    if (!keys.includes(key)) continue;
    const keyAt = found.index + found[0].search(/[a-z]/i);
    return { at: found.index, key, keyAt, valueAt: found.index + found[0].length };
  }
  return undefined;
}

/** A name without the signs that no name of a setting has. */
export const lettersOf = (key: string): string => key.replace(/[^\w -]/g, '');

/** The name of a setting with a sign in it that no name has, as in `te'mpo: 72`: offsets within the line; undefined for anything else. */
export function spoiledSetting(
  line: string,
  keys: readonly string[],
): { readonly from: number; readonly to: number; readonly valueFrom: number } | undefined {
  const found =
    /^( *)((?:phras\S{0,3} )?[^\s\d:|]{3,16}) ?:(?= |$)/.exec(line) ?? /^( *)(\S{3,9} [\w-]{1,40}):(?= |$)/.exec(line);
  if (!found) return undefined;
  const [whole, before = '', written = ''] = found;
  const letters = lettersOf(written).trim();
  if (!/^[A-Za-z]/.test(letters)) return undefined;
  if (nearest(letters, keys) === undefined && meantPhraseName(letters, keys) === undefined && !isPhrase(letters))
    return undefined;
  return { from: before.length, to: before.length + written.length, valueFrom: whole.length };
}

const isPhrase = (letters: string): boolean => /^phrase [\w-]+$/i.test(letters);

/** `phrase lick` for `phraes lick`; undefined for what is no mistyped name of a phrase. */
export function meantPhraseName(key: string, keys: readonly string[]): string | undefined {
  const [word = '', name, ...others] = lettersOf(key).split(/ +/);
  if (name === undefined || others.length > 0 || /^phrase /.test(key)) return undefined;
  if (keys.includes(word.toLowerCase()) && word.toLowerCase() !== 'phrase') return undefined;
  return nearest(word, keys) === 'phrase' ? `phrase ${name}` : undefined;
}
