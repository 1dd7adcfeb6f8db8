/** The lines of a block without errors, by what they are. */

import { isOneOf } from '../../values/checked.ts';
import { plainCharacters } from '../characters.ts';
import { HEADER_KEYS, type Keyed, keyOfLine, linesOfBlock, readSyllables } from '../parse.ts';
import type { Syllable } from '../tree.ts';
import { type Atom, atomsOfLine } from './atoms.ts';

/** A line of a block. Comments are without the spaces around them, and empty where there is none. */
export type Element =
  | { readonly kind: 'blank' }
  | { readonly kind: 'comment'; readonly text: string }
  /** A setting, or a line about the bar behind it: `part:`, `text:`. */
  | { readonly kind: 'keyed'; readonly key: string; readonly value: string; readonly comment: string }
  | { readonly kind: 'phrase'; readonly label: string; readonly atoms: readonly Atom[]; readonly comment: string }
  | MusicElement
  | UnderElement;

/** A line of music. */
export interface MusicElement {
  readonly kind: 'music';
  readonly atoms: readonly Atom[];
  readonly comment: string;
  /** The whole line as its author wrote it, without spaces at its end. */
  readonly written: string;
}

/** Words or syllables under a line of music. */
export interface UnderElement {
  readonly kind: 'under';
  /** `words:`, `words 2:` or `syllables:`. */
  readonly label: string;
  readonly syllables: readonly WrittenSyllable[];
  /** The whole line as its author wrote it, without spaces at its end. */
  readonly written: string;
}

/** A syllable as it is written, with its hyphen. */
export interface WrittenSyllable {
  readonly text: string;
  readonly kind: Syllable['kind'];
}

/** Reads a block whose text has no error. */
export function elementsOf(text: string): Element[] {
  const plain = plainCharacters(text);
  return [...linesOfBlock(plain)].map(({ from, to, end }): Element => {
    const content = plain.slice(from, to);
    const written = text.slice(to, end).trim();
    if (content.trim() === '') return written === '' ? { kind: 'blank' } : { kind: 'comment', text: written };
    // A sign without a word behind it is no comment to keep, and at the end of a line no comment at all.
    const comment = written === '#' ? '' : written;
    const keyed = keyOfLine(content, from);
    const line = text.slice(from, end).trimEnd();
    if (!keyed) return { kind: 'music', atoms: atomsOfLine(plain, { from, to }), comment, written: line };
    const key = keyed.key.replace(/\s+/g, ' ');
    if (key.startsWith('phrase'))
      return { kind: 'phrase', label: `${key}:`, atoms: atomsOfLine(plain, { from: keyed.behind, to }), comment };
    if (/^(?:words|syllables)\b/.test(key)) return { ...underOf(`${key}:`, text, plain, keyed, to), written: line };
    return { kind: 'keyed', key, value: cleanValue(key, text.slice(keyed.behind, to).trim()), comment };
  });
}

function underOf(
  label: string,
  text: string,
  plain: string,
  { behind }: Keyed,
  to: number,
): Omit<UnderElement, 'written'> {
  const syllables = readSyllables(plain, behind, to).syllables.map((syllable): WrittenSyllable => {
    // The apostrophes of the author stay as they are.
    const own = text.slice(syllable.span.from, syllable.span.to);
    return { kind: syllable.kind, text: syllable.kind === 'text' && syllable.hyphen ? `${own}-` : own };
  });
  return { kind: 'under', label, syllables };
}

/** A value with single spaces, unless it is words for a reader. */
function cleanValue(key: string, value: string): string {
  if (!isOneOf(HEADER_KEYS, key) || key === 'title') return value;
  const spaced = value.replace(/[ \t]+/g, ' ');
  return key === 'chords' ? spaced.replace(/ ?\| ?/g, ' | ').trim() : spaced;
}
