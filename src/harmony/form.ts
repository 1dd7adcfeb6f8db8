/** Named progressions: each bar's chords as numerals, so that a form fits any key. */
import { add, equals, type Fraction, fraction, lcm, multiply, ZERO } from '../time/fraction.ts';
import { present } from '../values/checked.ts';
import type { Chord, NoChord } from './chord.ts';
import type { SongKey } from './key.ts';
import { isChordSymbol, readSymbol } from './symbol.ts';

/** A progression that has a name. */
export interface Form {
  readonly id: string;
  readonly title: string;
  /** Bars divided by `|`; chords within a bar share it evenly, and `=` holds the chord before for one more share. */
  readonly bars: string;
}

/**
 * Sources: the encyclopaedia articles "Twelve-bar blues" and "Eight-bar blues" for the plain, shuffle, quick-change and
 * eight-bar forms; the turnaround bar, the minor form and the sixteen-bar form are common practice, no source.
 */
export const FORMS: readonly Form[] = [
  { id: 'twelve-bar', title: 'Twelve-bar', bars: 'I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | I7' },
  {
    id: 'twelve-bar-turnaround',
    title: 'Twelve-bar with a turnaround',
    bars: 'I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | V7',
  },
  {
    id: 'twelve-bar-plain',
    title: 'Twelve-bar, two bars of V',
    bars: 'I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | V7 | I7 | I7',
  },
  {
    id: 'quick-change',
    title: 'Twelve-bar with a quick change',
    bars: 'I7 | IV7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | I7',
  },
  {
    id: 'quick-change-turnaround',
    title: 'Twelve-bar with a quick change and a turnaround',
    bars: 'I7 | IV7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | V7',
  },
  {
    id: 'minor-twelve-bar',
    title: 'Minor twelve-bar',
    bars: 'i7 | i7 | i7 | i7 | iv7 | iv7 | i7 | i7 | bVI7 | V7 | i7 | i7',
  },
  { id: 'eight-bar', title: 'Eight-bar', bars: 'I7 | V7 | IV7 | IV7 | I7 | V7 IV7 | I7 | V7' },
  {
    id: 'eight-bar-halves',
    title: 'Eight-bar with half-bar changes',
    bars: 'I7 | I7 | IV7 | IV7 | I7 | V7 | I7 IV7 | I7 V7',
  },
  {
    id: 'sixteen-bar',
    title: 'Sixteen-bar',
    bars: 'I7 | I7 | I7 | I7 | I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | I7',
  },
];

/** A chord from a point of its bar on, or none. `onset` is a fraction of a whole note from the bar's start. */
export interface ChordChange {
  readonly onset: Fraction;
  readonly chord: Chord | NoChord;
}

/** One bar of a progression: each symbol with the share of the bar (0 up to 1) at which it begins. */
export type FormBar = readonly { readonly at: Fraction; readonly symbol: string }[];

/** The bars of a progression, or the first word of it that is no chord symbol. */
export type ReadForm = { readonly bars: readonly FormBar[] } | { readonly bad: string; readonly offset: number };

/** Reads `I7 | V7 IV7 | …`. On bad input says which symbol, and at which offset of the text. */
export function readForm(text: string): ReadForm {
  const bars: FormBar[] = [];
  let offset = 0;
  // A closing bar line is a habit of writers, not an empty bar.
  const body = text.replace(/\|\]?\s*$/, '');
  for (const bar of body.split('|')) {
    const words = [...bar.matchAll(/\S+/g)];
    const first = words[0];
    if (!first || first[0] === '=') return { bad: first?.[0] ?? '', offset: offset + (first?.index ?? 0) };
    const changes: { at: Fraction; symbol: string }[] = [];
    let at = ZERO;
    for (const word of words) {
      if (word[0] !== '=') {
        if (!isChordSymbol(word[0])) return { bad: word[0], offset: offset + word.index };
        changes.push({ at, symbol: word[0] });
      }
      at = add(at, fraction(1, words.length));
    }
    bars.push(changes);
    offset += bar.length + 1;
  }
  return { bars };
}

const readForms = new WeakMap<Form, ReadForm>();

/** The bars of a form, which many blocks are written over. */
export function barsOfForm(form: Form): ReadForm {
  const read = readForms.get(form) ?? readForm(form.bars);
  readForms.set(form, read);
  return read;
}

/** The chords of one bar of a form in a key, over a bar of the given length. */
export const chordsOfBar = (bar: FormBar, key: SongKey, length: Fraction): readonly ChordChange[] =>
  bar.map(({ at, symbol }) => ({ onset: multiply(at, length), chord: present(readSymbol(symbol, key), symbol) }));

/** All symbols of a progression, in order. */
export const symbolsOf = (bars: readonly FormBar[]): string[] => bars.flatMap((bar) => bar.map(({ symbol }) => symbol));

/** One bar of a list of chords: equal shares, the ones that only hold written `=`. */
export function printFormBar(bar: FormBar): string {
  const shares = bar.reduce((most, { at }) => lcm(most, at.d), 1);
  return Array.from({ length: shares }, (_, share) => {
    const change = bar.find(({ at }) => equals(at, fraction(share, shares)));
    return change?.symbol ?? '=';
  }).join(' ');
}
