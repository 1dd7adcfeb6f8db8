/** A bar before it is laid out, or a part of one that is too crowded for a tile. */
import { printedChord, printedNumeral } from '../harmony/chord.ts';
import type { ChordChange } from '../harmony/form.ts';
import type { BarChanges } from '../score/changes.ts';
import type { Bar } from '../score/score.ts';
import { compare, type Fraction } from '../time/fraction.ts';
import { type Column, glidesInto, SIZE } from './columns.ts';
import type { StaffContent } from './staff/tile.ts';
import { textWidth } from './text-width.ts';

/** Some written notes of a bar, with all that is over, on and under them. */
export interface Segment {
  readonly bar: Bar;
  /** What changes before the bar, where this opens it. */
  readonly changes: BarChanges;
  /** The changes in words. */
  readonly changeWords: string;
  /** Which of the bar's written notes: from inclusive, to exclusive. */
  readonly from: number;
  readonly to: number;
  readonly columns: readonly Column[];
  /** The columns on the staff. */
  readonly staff: StaffContent;
  readonly chords: readonly ChordMark[];
  /** Whether a glide comes from the column before it, and goes to the one after it. */
  readonly glidesIn: boolean;
  readonly glidesOut: boolean;
  readonly opens: boolean;
  readonly closes: boolean;
  /** The bar line at its end. */
  readonly close: 'plain' | 'double' | 'final';
}

/** A segment whose columns have places. */
export interface PlacedSegment {
  readonly segment: Segment;
  /** The middle of each column. */
  readonly xs: readonly number[];
}

/** Between two chord symbols. */
export const CHORD_GAP = 8;
/** A chord symbol begins so much before the middle of the note it is over. */
export const CHORD_LEAD = 7;
/** From the last chord symbol to the end of the tile. */
export const CHORD_END = 2;

/** Where the number of a bar ends. */
export const numberRoom = (bar: number): number => 1 + textWidth(String(bar), SIZE.small);

/** Where the first chord symbol may begin. */
export const chordsFrom = ({ bar, opens }: Segment): number =>
  opens && bar.number > 0 ? numberRoom(bar.number) + 5 : 2;

/** A chord symbol above a bar. */
export interface ChordMark {
  /** Its number among the bar's chords. */
  readonly index: number;
  readonly onset: Fraction;
  readonly name: string;
  readonly numeral: string;
  /** The last column that begins no later. */
  readonly column: number;
}

/**
 * The part of a bar between two of its written notes. `staff` is that of its columns, `before` and `after` are the columns beside
 * them. A block ends with a final bar line where its author wrote none.
 */
export function segmentOf(
  bar: Bar,
  columns: readonly Column[],
  [from, to]: readonly [number, number],
  staff: StaffContent,
  { before: previous, after: following, isLast, changes, words }: SegmentPlace,
): Segment {
  const own = columns.slice(from, to);
  const [first, last] = [own[0], own.at(-1)];
  const start = own[0]?.note.onset;
  const next = columns[to]?.note.onset;
  const chords = bar.chords.flatMap((change, index): ChordMark[] => {
    const before = start && from > 0 && compare(change.onset, start) < 0;
    const after = next && compare(change.onset, next) >= 0;
    return before || after ? [] : [markOf(change, index, own)];
  });
  const opens = from === 0;
  return {
    bar,
    changes: opens ? changes : NO_CHANGES,
    changeWords: opens ? words : '',
    from,
    to,
    columns: own,
    staff,
    chords,
    glidesIn: Boolean(previous && first && glidesInto(previous, first)),
    glidesOut: Boolean(following && last && glidesInto(last, following)),
    opens,
    closes: to === columns.length,
    close: bar.close ?? (isLast ? 'final' : 'plain'),
  };
}

/** What is around a segment. */
export interface SegmentPlace {
  readonly before: Column | undefined;
  readonly after: Column | undefined;
  /** Whether its bar is the last of the block. */
  readonly isLast: boolean;
  /** What changes before its bar, and in words. */
  readonly changes: BarChanges;
  readonly words: string;
}

const NO_CHANGES: BarChanges = {};

function markOf({ onset, chord }: ChordChange, index: number, columns: readonly Column[]): ChordMark {
  let column = 0;
  columns.forEach(({ note }, at) => {
    if (compare(note.onset, onset) <= 0) column = at;
  });
  const numeral = chord === 'none' || chord.numeral === undefined ? '' : printedNumeral(chord.numeral);
  return { index, onset, name: printedChord(chord), numeral, column };
}

/** The width of a chord symbol in pixels of the drawing. */
export const chordWidth = ({ name, numeral }: ChordMark): number =>
  textWidth(name, SIZE.chord, true) + (numeral ? 4 + textWidth(numeral, SIZE.numeral) : 0);
