/** One bar as the band sees it, and what its players share. */
import { plainChord } from '../../harmony/chord.ts';
import type { PlayedChord } from '../../score/playback.ts';
import { itemAt } from '../../values/checked.ts';
import type { BeatKind, Style } from './style.ts';

/** One bar as the band sees it. */
export interface BandBar {
  readonly style: Style;
  readonly kinds: readonly BeatKind[];
  /** Which variation of each pattern this chorus takes. */
  readonly chorus: number;
  /** What ends with this bar and continues in another: a phrase of four bars, or the chorus. */
  readonly ends: 'phrase' | 'chorus' | undefined;
  /** The first bar after a chorus. */
  readonly opens: boolean;
  readonly random: () => number;
  /** Seconds from the round's start of a part of a beat; undefined where a short bar has no such place. */
  readonly time: (beat: number, part: number, parts: number) => number | undefined;
  readonly chordAt: (beat: number, part: number, parts: number) => ChordSpan | undefined;
  readonly spans: readonly ChordSpan[];
  readonly end: number;
}

/** A chord's stretch of a bar. */
export interface ChordSpan {
  readonly chord: PlayedChord;
  /** Beats from the bar's start, perhaps with a part, at which it comes in and ends. */
  readonly from: number;
  readonly to: number;
  readonly next: PlayedChord | undefined;
  /** Full bars this chord had already lasted when the bar began. */
  readonly held: number;
}

/** What a chord is called; two of one name are the same chord. */
export const nameOf = (chord: PlayedChord): string => plainChord(chord);

/** Every letter of a bar's cells with its place. */
export function* letters(bar: BandBar, cell: (kind: BeatKind, beat: number) => string) {
  for (const [beat, kind] of bar.kinds.entries()) {
    const parts = cell(kind, beat);
    for (const [part, letter] of [...parts].entries()) {
      const at = bar.time(beat, part, parts.length);
      if (at !== undefined) yield { letter, at, beat, part, parts: parts.length };
    }
  }
}

/** No two strokes of a player are equally loud. */
export const uneven = (level: number, random: () => number): number => level * (0.88 + 0.12 * random());

/** The variation whose turn it is. */
export const pick = <Item>(items: readonly Item[], turn: number): Item => itemAt(items, turn % items.length);
