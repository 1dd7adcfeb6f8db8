/**
 * Ties and slurs between the notes of a tile, and to the first note of the next one. What crosses to the next tile is one curve
 * over both; where that tile begins a new row, two ends take its place. Sides follow Gould, “Behind Bars”, “Ties” and “Slurs”,
 * from memory: away from the stems, above where they differ; in a chord the upper ties bend up and the lower ones down.
 */
import { itemAt } from '../../values/checked.ts';
import { type InkBox, moved } from './box.ts';
import { type Curve, type CurveEnds, curveBoxes, findCurve } from './curve.ts';
import { HALF_HEAD, type NoteShape, type Stem } from './note.ts';
import type { StaffTile } from './tile.ts';

/** The curves of a tile. */
export interface Joins {
  readonly within: readonly Curve[];
  /** Over the edge to the next tile, and, where that begins a row, up to the edge. */
  readonly crossing: { readonly whole: readonly Curve[]; readonly out: readonly Curve[] };
  /** From the edge to the first note, where this tile begins a row. */
  readonly coming: readonly Curve[];
}

/** A note at a place, with what is around it. */
interface Side {
  readonly note: NoteShape;
  readonly x: number;
  readonly stem: Stem | undefined;
  readonly ink: readonly InkBox[];
}

/** From a head’s middle to the curve over it. */
const OVER_HEAD = HALF_HEAD + 2.5;
/** A curve over a head begins a little behind its middle. */
const BEHIND = 2.5;
/** From a stem’s end to a slur. */
const OVER_STEM = 3;
/** Between a chord and the ties beside it. */
const BESIDE = 1.5;
/** How far beside the middle of its head a tie of a chord begins. */
const FROM_MIDDLE = 2.5;
/** How deep a short tie is, with half its thickness. */
const TIE_DEPTH = 6;
/** From the edge of the tile to a curve that is cut there. */
const FROM_EDGE = 3;

/** Finds the curves of a tile between its neighbours. */
export function findJoins(tile: StaffTile, before: StaffTile | undefined, after: StaffTile | undefined): Joins {
  const within: Curve[] = [];
  tile.notes.forEach(({ content }, index) => {
    if (index + 1 === tile.notes.length || !(content.tied || content.glides)) return;
    const ink = [...tile.joinInk, ...within.flatMap(curveBoxes)];
    within.push(...joinsOf(sideAt(tile, index), sideAt(tile, index + 1), ink));
  });
  const last = itemAt(tile.notes, tile.notes.length - 1).content;
  const crossing: { whole: Curve[]; out: Curve[] } = { whole: [], out: [] };
  if (after && (last.tied || last.glides)) {
    const [from, to] = [sideAt(tile, tile.notes.length - 1), sideAt(after, 0, tile.width)];
    const curves = within.flatMap(curveBoxes);
    const ink = [...tile.joinInk, ...curves, ...after.joinInk.map((box) => moved(box, tile.width))];
    crossing.whole.push(...joinsOf(from, to, ink));
    crossing.out.push(
      ...findCurves(
        endsOf(from, to).map(({ from: start, up }) => ({
          from: start,
          to: { x: tile.width - FROM_EDGE, y: start.y },
          up,
        })),
        [...from.ink, ...tile.joinInk, ...curves],
      ),
    );
  }
  const coming: Curve[] = [];
  const previous = before?.notes.at(-1)?.content;
  if (before && (previous?.tied || previous?.glides)) {
    const [from, to] = [sideAt(before, before.notes.length - 1, -before.width), sideAt(tile, 0)];
    coming.push(
      ...findCurves(
        endsOf(from, to).map(({ to: end, up }) => ({ from: { x: FROM_EDGE - 2, y: end.y }, to: end, up })),
        [...to.ink, ...tile.joinInk, ...within.flatMap(curveBoxes)],
      ),
    );
  }
  return { within, crossing, coming };
}

function sideAt({ notes, xs, stems, ink }: StaffTile, index: number, by = 0): Side {
  const own = itemAt(ink, index);
  return {
    note: itemAt(notes, index),
    x: itemAt(xs, index) + by,
    stem: stems[index],
    ink: by === 0 ? own : own.map((box) => moved(box, by)),
  };
}

const joinsOf = (from: Side, to: Side, ink: readonly InkBox[]): Curve[] =>
  findCurves(endsOf(from, to), [...from.ink, ...to.ink, ...ink]);

/** Curves that are clear of `ink` and of each other: those laid first are nearer to their notes. */
function findCurves(all: readonly CurveEnds[], ink: readonly InkBox[]): Curve[] {
  const found: Curve[] = [];
  for (const ends of all) found.push(findCurve(ends, [...ink, ...found.flatMap(curveBoxes)]));
  return found;
}

function endsOf(from: Side, to: Side): CurveEnds[] {
  const { content } = from.note;
  return [...(content.tied ? tieEnds(from, to) : []), ...(content.glides ? [slurEnds(from, to)] : [])];
}

const bendsUp = (from: Side, to: Side): boolean => !(from.note.up && to.note.up);

function tieEnds(from: Side, to: Side): CurveEnds[] {
  const { heads } = from.note;
  if (heads.length === 1) return heads.map(({ y }) => overHeads(from, to, y, y, bendsUp(from, to)));
  return heads.map(({ y }, index): CurveEnds => {
    const up = index >= heads.length / 2;
    const at = y + (up ? -FROM_MIDDLE : FROM_MIDDLE);
    // Beside all that is on its way, which is to the side that it bends to.
    const [top, bottom] = up ? [at - TIE_DEPTH, at + FROM_MIDDLE] : [at - FROM_MIDDLE, at + TIE_DEPTH];
    const isBeside = (box: InkBox): boolean => box.top < bottom && box.bottom > top;
    const start = Math.max(from.x, ...from.ink.filter(isBeside).map(({ right }) => right)) + BESIDE;
    const end = Math.min(to.x, ...to.ink.filter(isBeside).map(({ left }) => left)) - BESIDE;
    return { from: { x: start, y: at }, to: { x: Math.max(start + 4, end), y: at }, up };
  });
}

function overHeads(from: Side, to: Side, fromY: number, toY: number, up: boolean): CurveEnds {
  const over = up ? -OVER_HEAD : OVER_HEAD;
  return { from: { x: from.x + BEHIND, y: fromY + over }, to: { x: to.x - BEHIND, y: toY + over }, up };
}

/** A slur is over the heads, or at the end of a stem that is on its side. */
function slurEnds(from: Side, to: Side): CurveEnds {
  const up = bendsUp(from, to);
  const end = ({ note, stem, x }: Side, behind: number): CurveEnds['from'] => {
    if (stem && note.up === up) return { x: x + stem.x + behind / 2, y: stem.tip + (up ? -OVER_STEM : OVER_STEM) };
    const ys = note.heads.map(({ y }) => y);
    return { x: x + behind, y: up ? Math.min(...ys) - OVER_HEAD : Math.max(...ys) + OVER_HEAD };
  };
  return { from: end(from, BEHIND), to: end(to, -BEHIND), up };
}
