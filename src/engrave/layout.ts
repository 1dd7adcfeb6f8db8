/** The heights all tiles of a block share: the staff's top line is at 0, its bottom line at 40. */
import type { Score } from '../score/score.ts';
import type { Clef } from './clef.ts';
import type { Segment } from './columns.ts';
import { glyphAt } from './glyphs/metrics.ts';
import { type LaneLayout, laneHeights } from './lanes.ts';
import type { StaffDrawing } from './staff.ts';

/** Baselines and edges; undefined where the block has nothing to put there. */
export interface Layout extends LaneLayout {
  readonly top: number;
  readonly bottom: number;
  readonly part: number | undefined;
  /** The line of the ending brackets. */
  readonly ending: number | undefined;
  readonly chord: number | undefined;
  /** The bar's number, in the corner over its chord. */
  readonly number: number;
  readonly word: number | undefined;
  readonly laneTop: number;
  readonly laneBottom: number;
  readonly band: number | undefined;
  readonly lyric: number | undefined;
}

/** The heights of everything in a block's tiles, the same for all of them. */
export function layoutOf(
  score: Score,
  segments: readonly Segment[],
  drawings: readonly StaffDrawing[],
  clef: Clef,
): Layout {
  const sounds = segments.flatMap((segment) =>
    segment.columns.filter((column) => column.first && column.event.kind === 'sound'),
  );
  const events = score.bars.flatMap((bar) => bar.events);
  const has = (test: (event: (typeof events)[number]) => boolean): boolean => events.some(test);
  const blowBends = Math.max(
    0,
    ...events.flatMap((event) =>
      event.kind === 'sound' && event.breath === 'blow' ? event.notes.map((note) => note.bend) : [],
    ),
  );

  // Downwards from the staff.
  let y = Math.max(46, ...drawings.map((drawing) => drawing.bottom + 4));
  const row = (wanted: boolean, height: number, baseline: number): number | undefined => {
    if (!wanted) return undefined;
    y += height;
    return y - height + baseline;
  };
  const word = row(
    sounds.some((column) => column.word !== ''),
    13,
    10,
  );
  const laneTop = y;
  const reaches = sounds.map((column) => laneHeights(column, blowBends));
  // The words of the row head are between the clef's foot and the lanes.
  const foot = 30 + glyphAt(clef.code).bottom;
  const centre = Math.max(y + Math.max(10, ...reaches.map(({ top }) => -top)) + 1, foot + 15);
  y = centre + Math.max(10, ...reaches.map(({ bottom }) => bottom)) + 1;
  const laneBottom = y;
  const band = row(
    score.mouth === 'tongue' || has((event) => event.kind === 'sound' && event.mouth === 'tongue'),
    13,
    7,
  );
  const lyric = row(
    has((event) => event.kind === 'sound' && event.lyric !== undefined),
    17,
    12.5,
  );
  const bottom = y + 6;

  // Upwards from the staff.
  let up = Math.min(-12, ...drawings.map((drawing) => drawing.top - 3));
  const upBy = (height: number): number => {
    const baseline = up - 3;
    up -= height;
    return baseline;
  };
  const above = (wanted: boolean, height: number): number | undefined => (wanted ? upBy(height) : undefined);
  const chord = above(
    score.bars.some((bar) => bar.chords.length > 0),
    18,
  );
  const number = chord === undefined ? upBy(12) : chord - 6;
  const ending = above(
    score.bars.some((bar) => bar.ending !== undefined),
    17,
  );
  const part = above(
    score.bars.some((bar) => bar.part !== undefined),
    19,
  );
  return {
    top: Math.floor(up - 2),
    bottom: Math.ceil(bottom),
    part,
    ending: ending === undefined ? undefined : ending - 11,
    chord,
    number,
    word,
    centre,
    blowBends,
    laneTop,
    laneBottom,
    band,
    lyric,
  };
}
