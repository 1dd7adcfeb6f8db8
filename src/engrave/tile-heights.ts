/**
 * How near the parts of a tile come to one another. Chord names and high notes, low notes and blow numbers are seldom one over the
 * other, so a row is only as high as what is in one place needs.
 */
import { CHORDS, LANES, STAFF_HEIGHT } from './layout.ts';
import type { InkBox } from './staff/box.ts';

/** In pixels of the drawing. */
export interface TileHeights {
  /** From the top of the chord names to the top line of the staff. Without names: how far notes reach above that line. */
  readonly over: number;
  /** From the bottom line of the staff to the part of the lanes, where no words are between them. */
  readonly between: number;
  /** How far notes reach below the staff, and numbers beyond the part of the lanes. */
  readonly staffBelow: number;
  readonly lanesAbove: number;
  readonly lanesBelow: number;
}

/** What a tile shows, in the coordinates of each part. */
export interface TileInk {
  readonly chords: readonly InkBox[];
  readonly staff: readonly InkBox[];
  readonly lanes: readonly InkBox[];
}

/** From the ink of one part to that of the next. */
const GAP = 3;
/** What is less than this beside other ink counts as over it. */
const BESIDE = 3;

/** The heights that keep the parts of a tile apart. */
export function tileHeights({ chords, staff, lanes }: TileInk): TileHeights {
  const highest = Math.min(0, ...staff.map(({ top }) => top));
  const lowest = Math.max(STAFF_HEIGHT, ...staff.map(({ bottom }) => bottom));
  const lanesAbove = Math.max(0, ...lanes.map(({ top }) => -top));
  return {
    over: Math.max(
      chords.length > 0 ? CHORDS.height : 0,
      -highest,
      nearest(
        chords,
        staff.filter(({ top }) => top < 0),
      ),
    ),
    between: Math.max(
      lowest - STAFF_HEIGHT - LANES.centre + GAP,
      lanesAbove + GAP,
      // What is within the staff is above all numbers already.
      nearest(
        staff.filter(({ bottom }) => bottom > STAFF_HEIGHT),
        lanes,
      ) - STAFF_HEIGHT,
    ),
    staffBelow: lowest - STAFF_HEIGHT,
    lanesAbove,
    lanesBelow: Math.max(0, ...lanes.map(({ bottom }) => bottom - LANES.height)),
  };
}

/** The least distance between the tops of two parts at which nothing of the one touches what is below it in the other. */
function nearest(upper: readonly InkBox[], lower: readonly InkBox[]): number {
  let least = Number.NEGATIVE_INFINITY;
  for (const above of upper) {
    for (const below of lower) {
      if (above.left - BESIDE < below.right && below.left < above.right + BESIDE)
        least = Math.max(least, above.bottom + GAP - below.top);
    }
  }
  return least;
}
