/** A block as written: its header and its music, before anything is known of harps, lessons or chords. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import type { Breath, HoleNote } from '../instrument/harp.ts';
import type { JumpSign } from '../score/jump.ts';
import type { Mark } from '../score/mark.ts';
import type { Mouth } from '../score/score.ts';
import type { QuotationText } from './quotation/quotation.ts';
import type { ChangeKey } from './setting-values.ts';

/** A block as parsed: what is written, and where. It knows no harp and no other block. */
export interface BlockTree {
  readonly text: string;
  /** The header lines, by key; a repeated key is a diagnostic and the first is. */
  readonly header: ReadonlyMap<string, HeaderLine>;
  readonly music: readonly Item[];
  /** The phrases, in the order they were written. */
  readonly phrases: ReadonlyMap<string, Phrase>;
  /** What could already be seen to be wrong. */
  readonly diagnostics: readonly Diagnostic[];
}

/** A setting, as written. */
export interface HeaderLine {
  readonly key: string;
  readonly value: string;
  readonly keySpan: TextSpan;
  readonly valueSpan: TextSpan;
  /** Its key is only the one that was probably meant, which has been reported. */
  readonly isGuess?: true;
}

/** A named run of slots. */
export interface Phrase {
  readonly name: string;
  readonly nameSpan: TextSpan;
  readonly items: readonly Item[];
  /** The changes of settings that are written before it. */
  readonly changes: readonly ChangeItem[];
}

/** Anything in the music. */
export type Item =
  | NoteItem
  | { readonly kind: 'hold'; readonly slots: number; readonly span: TextSpan }
  | { readonly kind: 'rest'; readonly slots: number; readonly span: TextSpan }
  | { readonly kind: 'group'; readonly items: readonly Item[]; readonly slots: number; readonly span: TextSpan }
  | { readonly kind: 'chord'; readonly text: string; readonly span: TextSpan }
  | { readonly kind: 'mouth'; readonly mouth: Mouth; readonly span: TextSpan }
  | { readonly kind: 'glide'; readonly span: TextSpan }
  /** Silence for several bars. */
  | { readonly kind: 'rest-bars'; readonly bars: number; readonly span: TextSpan }
  /** The bar before once more. */
  | { readonly kind: 'again'; readonly span: TextSpan }
  | BarLine
  | QuoteItem
  | { readonly kind: 'part'; readonly name: string; readonly span: TextSpan }
  | ChangeItem
  /** Words to the player over the bar that follows. */
  | { readonly kind: 'direction'; readonly text: string; readonly span: TextSpan }
  /** The end of a written line of music: `words:` and `syllables:` below it belong to that line. */
  | { readonly kind: 'line-end'; readonly span: TextSpan }
  /** Without `verse` they are for the verse after that of the line before. */
  | {
      readonly kind: 'words';
      readonly verse?: number;
      readonly syllables: readonly Syllable[];
      readonly span: TextSpan;
    }
  | { readonly kind: 'syllables'; readonly syllables: readonly Syllable[]; readonly span: TextSpan }
  /** Something unreadable that takes a slot, so that one mistake does not shift the rest of its bar. */
  | { readonly kind: 'unreadable'; readonly span: TextSpan };

/** A setting on a line between two lines of music, as written; it applies from the next bar on. `span` is its value. */
export interface ChangeItem {
  readonly kind: 'change';
  readonly key: ChangeKey;
  readonly value: string;
  readonly keySpan: TextSpan;
  readonly span: TextSpan;
}

/** A quotation. Without `lesson` it is of this lesson, without `block` of this block. */
export interface QuoteItem extends QuotationText {
  readonly kind: 'quote';
  /** Marks that each of its notes gets, besides its own. */
  readonly marks: readonly WrittenMark[];
  /** An embouchure for all of it. */
  readonly mouth?: Mouth;
  readonly span: TextSpan;
}

/** A mark, and where it was written. */
export interface WrittenMark {
  readonly mark: Mark;
  readonly span: TextSpan;
}

/** One or more holes on one breath. */
export interface NoteItem {
  readonly kind: 'note';
  readonly breath: Breath;
  readonly notes: readonly TreeNote[];
  readonly marks: readonly WrittenMark[];
  /** An embouchure for this note alone. */
  readonly mouth?: Mouth;
  readonly span: TextSpan;
}

/** A hole, and how it is played. */
export interface TreeNote extends HoleNote {
  readonly span: TextSpan;
}

/** A bar line with its repeats, endings and jumps. */
export interface BarLine {
  readonly kind: 'bar';
  readonly repeatEnd: boolean;
  readonly repeatStart: boolean;
  /** How often the repeat that ends here is played in all. */
  readonly times?: number;
  /** The times through the repeat for which the ending is that opens here, in ascending order. */
  readonly endings?: readonly number[];
  readonly close?: 'double' | 'final';
  /** The signs of jumps at it, in the order they are written. */
  readonly signs?: readonly WrittenSign[];
  readonly span: TextSpan;
}

/** The sign of a jump behind a bar line, and where it was written. */
export interface WrittenSign {
  readonly sign: JumpSign;
  readonly span: TextSpan;
}

/** One word under a line of music. */
export type Syllable =
  | { readonly kind: 'text'; readonly text: string; readonly hyphen: boolean; readonly span: TextSpan }
  | { readonly kind: 'extend'; readonly span: TextSpan }
  | { readonly kind: 'skip'; readonly span: TextSpan };
