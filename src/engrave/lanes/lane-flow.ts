/** The lines in the lanes that leave a sound and reach it: a held note's line, a glide's slant. */
import { itemAt } from '../../values/checked.ts';
import { type Column, glidesInto, soundIn } from '../columns.ts';
import type { PlacedSegment } from '../segment.ts';
import type { InkBox } from '../staff/box.ts';
import {
  glideLine,
  halfWidth,
  heightsOf,
  heldLine,
  type LaneLayout,
  leftOfNumber,
  middleOf,
  rightOfNumber,
} from './lanes.ts';

/** What a tile must know of its neighbours. */
export interface Neighbours {
  /** The last sound of the tile before it. */
  readonly before: Column | undefined;
  /** The first column of the tile after it, and the middle of it in this tile's coordinates. */
  readonly after: { readonly column: Column; readonly x: number } | undefined;
}

/** The lines of a sound, as markup. */
export interface Flow {
  readonly within: string;
  /** Over the edge to the next tile; and, where that begins a row, up to the edge. */
  readonly whole: string;
  readonly out: string;
  /** From the edge, where this tile begins a row. */
  readonly coming: string;
  /** What all of them cover. */
  readonly ink: readonly InkBox[];
}

export const NO_FLOW: Flow = { within: '', whole: '', out: '', coming: '', ink: [] };

/** From a number to a line beside it. */
const GAP = 3.5;
/** From a held note's end to the number or the rest after it. */
const END_GAP = 4;
const REST_GAP = 12;
/** How far a glide that is cut at the edge of a row goes on there. */
const CUT = 16;

/** The lines of the sound whose written notes are the columns from one to before another. */
export function drawFlow(
  [index, next]: readonly [number, number],
  { segment, xs }: PlacedSegment,
  { before, after }: Neighbours,
  lanes: LaneLayout,
  width: number,
): Flow {
  const column = itemAt(segment.columns, index);
  const sound = soundIn(column);
  const x = itemAt(xs, index);
  const heights = heightsOf(column, lanes);
  const middle = middleOf(heights);
  const half = halfWidth(column) + GAP;
  // Lines begin behind labels that are beside the numbers.
  const start = x + rightOfNumber(column) + GAP;
  const follower = segment.columns[next];
  const target = follower ?? after?.column;
  let [within, whole, out, coming] = ['', '', '', ''];
  const ink: InkBox[] = [];
  const held = (from: number, to: number): string => {
    ink.push(boxOf([from, Math.min(...heights)], [to, Math.max(...heights)]));
    return heldLine(from, to, heights);
  };
  const glide = (from: LanePoint, to: LanePoint): string => {
    const half: LanePoint = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    ink.push(boxOf(from, half), boxOf(half, to));
    return glideLine(from, to);
  };
  // A tie that comes over the edge, or a glide that does.
  if (index === 0 && before && sound.tied) within += held(0, x - half);
  if (index === 0 && before && glidesInto(before, column))
    coming += glide([Math.max(1, x - half - CUT), cutHeight(heightsMiddle(before, lanes), middle)], [x - half, middle]);

  const tied = target?.event.kind === 'sound' && target.event.tied;
  const gliding = target !== undefined && glidesInto(column, target);
  // A note that continues before it glides is held to its last head, and glides from there.
  const lastX = next - index > 1 ? itemAt(xs, next - 1) : start;
  if (tied) {
    const end = follower ? itemAt(xs, next) - leftOfNumber(follower) - GAP : width;
    within += held(start, end);
  } else if (gliding) within += held(start, lastX);
  else if (next - index > 1 || sound.tied) {
    // The last of a tie: its line ends with the note, short of what comes next.
    const end = follower
      ? itemAt(xs, next) - (follower.event.kind === 'sound' ? leftOfNumber(follower) + END_GAP : REST_GAP)
      : width - 10;
    within += held(start, end);
  }
  if (gliding) {
    const to = heightsMiddle(target, lanes);
    const end = (follower ? itemAt(xs, next) : (after?.x ?? width)) - leftOfNumber(target) - GAP;
    const line = glide([lastX, middle], [end, to]);
    if (follower) within += line;
    else {
      whole += line;
      out += glide([lastX, middle], [Math.min(width - 3, lastX + CUT), cutHeight(to, middle)]);
    }
  }
  return { within, whole, out, coming, ink };
}

type LanePoint = readonly [x: number, y: number];

/** Half the thickness of a line, and a little. */
const HALF_LINE = 1.5;

const boxOf = (from: LanePoint, to: LanePoint): InkBox => ({
  left: Math.min(from[0], to[0]),
  right: Math.max(from[0], to[0]),
  top: Math.min(from[1], to[1]) - HALF_LINE,
  bottom: Math.max(from[1], to[1]) + HALF_LINE,
});

const heightsMiddle = (column: Column, lanes: LaneLayout): number => middleOf(heightsOf(column, lanes));

/** Where a glide is cut: part of the way to its other end, and never far. */
const cutHeight = (other: number, own: number): number =>
  own + Math.max(-CUT / 2, Math.min(CUT / 2, (other - own) / 2));
