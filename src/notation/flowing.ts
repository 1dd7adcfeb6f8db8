/** The music of a block after quotations are replaced by what they name and groups by exact durations. */
import type { TextSpan } from '../diagnostics/diagnostic.ts';
import type { Mouth, Source } from '../score/score.ts';
import type { Fraction } from '../time/fraction.ts';
import type { Change } from './changes.ts';
import type { BarLine, NoteItem, Syllable } from './tree.ts';

/** Where a thing of the music was written; `site` is in this block, at the quotation that brought it if one did. */
export interface Written {
  readonly source: Source;
  readonly site: TextSpan;
}

/** What is in the music. */
export type FlowingItem =
  | { readonly kind: 'note'; readonly note: NoteItem; readonly duration: Fraction }
  | { readonly kind: 'hold'; readonly slots: number; readonly duration: Fraction }
  | { readonly kind: 'rest' | 'unreadable'; readonly duration: Fraction }
  | { readonly kind: 'chord'; readonly text: string }
  /** Where a quotation is moved to a chord, in a block whose progression says which chord is there. */
  | { readonly kind: 'expected-chord'; readonly text: string }
  | { readonly kind: 'mouth'; readonly mouth: Mouth }
  | { readonly kind: 'glide' | 'again' | 'line-end' }
  | { readonly kind: 'rest-bars'; readonly bars: number }
  | { readonly kind: 'bar'; readonly line: Omit<BarLine, 'kind' | 'span'> }
  | { readonly kind: 'part'; readonly name: string }
  | { readonly kind: 'direction'; readonly text: string }
  /** A change of settings, by the line whose key it was. */
  | { readonly kind: 'change'; readonly change: Change; readonly key?: string }
  | { readonly kind: 'words'; readonly verse?: number; readonly syllables: readonly Syllable[] }
  | { readonly kind: 'syllables'; readonly syllables: readonly Syllable[] };

/** An item of the music, and where it was written. */
export type Flowing = Written & FlowingItem;
