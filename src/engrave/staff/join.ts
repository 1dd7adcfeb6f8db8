/**
 * Ties and slurs between the notes of a tile, and to the first note of the next one. What crosses to the next tile is one curve
 * over both; where that tile begins a new row, two ends take its place. Sides follow Gould, “Behind Bars”, “Ties” and “Slurs”,
 * from memory: away from the stems, above where they differ; in a chord the upper ties bend up and the lower ones down.
 */
import { itemAt, lastOf } from '../../values/checked.ts';
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
/** From a stem to a curve that begins beside it. */
const BEHIND_STEM = 2;
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

/** Finds the curves of a tile between its neighbours. Ties are nearer to the notes than slurs. */
export function findJoins(tile: StaffTile, before: StaffTile | undefined, after: StaffTile | undefined): Joins {
  const within = tiesWithin(tile);
  within.push(...slursWithin(tile, before, within.flatMap(curveBoxes)));
  const own = [...tile.joinInk, ...within.flatMap(curveBoxes)];
  return {
    within,
    crossing: after ? crossingOf(tile, after, own) : NOTHING,
    coming: before ? comingOf(tile, before, own) : [],
  };
}

const NOTHING = { whole: [], out: [] };

function tiesWithin(tile: StaffTile): Curve[] {
  const found: Curve[] = [];
  tile.notes.forEach(({ content }, index) => {
    if (!content.tied || index + 1 === tile.notes.length) return;
    const [from, to] = [sideAt(tile, index), sideAt(tile, index + 1)];
    found.push(
      ...findCurves(tieEnds(from, to), [...from.ink, ...to.ink, ...tile.joinInk, ...found.flatMap(curveBoxes)]),
    );
  });
  return found;
}

/** Slurs that end in the tile in which they begin; and what is always shown of those that are in more than two tiles. */
function slursWithin(tile: StaffTile, before: StaffTile | undefined, curves: readonly InkBox[]): Curve[] {
  const found: Curve[] = [];
  const find = (ends: CurveEnds, first: number, last: number): void => {
    found.push(
      findCurve(ends, [...inkOfNotes(tile, first, last), ...tile.joinInk, ...curves, ...found.flatMap(curveBoxes)]),
    );
  };
  const last = tile.notes.length - 1;
  const isLong = startOf(before) === undefined && before?.notes.at(-1)?.content.slur.open === true;
  let start: number | undefined;
  tile.notes.forEach(({ content: { slur } }, index) => {
    if (slur.stops && start !== undefined) find(slurEnds(sidesAt(tile, start, index)), start, index);
    else if (slur.stops && isLong) find(fromEdge(slurEnds(sidesAt(tile, 0, index))), 0, index);
    if (slur.stops) start = undefined;
    if (slur.starts) start = index;
  });
  const isThrough = start === undefined && tile.notes[last]?.content.slur.open === true;
  if (isThrough) find(toEdge(fromEdge(slurEnds(sidesAt(tile, 0, last))), tile), 0, last);
  return found;
}

/** Where the slur begins that goes on after a tile; undefined where none does, and where it comes from a tile before. */
function startOf(tile: StaffTile | undefined): number | undefined {
  if (!tile?.notes.at(-1)?.content.slur.open) return undefined;
  const start = tile.notes.findLastIndex(({ content }) => content.slur.starts);
  const stop = tile.notes.findLastIndex(({ content }) => content.slur.stops);
  return start >= 0 && start >= stop ? start : undefined;
}

const stopOf = (tile: StaffTile): number | undefined => {
  const stop = tile.notes.findIndex(({ content }) => content.slur.stops);
  return stop < 0 ? undefined : stop;
};

function crossingOf(tile: StaffTile, after: StaffTile, own: readonly InkBox[]): Joins['crossing'] {
  const last = tile.notes.length - 1;
  const [whole, out]: [Curve[], Curve[]] = [[], []];
  const add = (curves: Curve[], ends: readonly CurveEnds[], ink: readonly InkBox[]): void => {
    curves.push(...findCurves(ends, [...ink, ...own, ...curves.flatMap(curveBoxes)]));
  };
  const inAfter = (from: number, to: number): InkBox[] =>
    [...inkOfNotes(after, from, to), ...after.joinInk].map((box) => moved(box, tile.width));
  if (tile.notes[last]?.content.tied) {
    const from = sideAt(tile, last);
    const ends = tieEnds(from, sideAt(after, 0, tile.width));
    add(whole, ends, [...from.ink, ...inAfter(0, 0)]);
    add(
      out,
      ends.map((own) => toEdge({ ...own, to: { ...own.to, y: own.from.y } }, tile)),
      from.ink,
    );
  }
  const start = startOf(tile);
  if (start !== undefined) {
    const stop = stopOf(after);
    const ink = inkOfNotes(tile, start, last);
    const cut = toEdge(slurEnds(sidesAt(tile, start, last)), tile);
    if (stop === undefined) add(whole, [cut], ink);
    else {
      const sides = [...sidesAt(tile, start, last), ...sidesAt(after, 0, stop, tile.width)];
      add(whole, [slurEnds(sides)], [...ink, ...inAfter(0, stop)]);
    }
    add(out, [cut], ink);
  }
  return { whole, out };
}

function comingOf(tile: StaffTile, before: StaffTile, own: readonly InkBox[]): Curve[] {
  const found: Curve[] = [];
  const add = (ends: readonly CurveEnds[], ink: readonly InkBox[]): void => {
    found.push(...findCurves(ends, [...ink, ...own, ...found.flatMap(curveBoxes)]));
  };
  const previous = before.notes.length - 1;
  if (before.notes[previous]?.content.tied) {
    const to = sideAt(tile, 0);
    const ends = tieEnds(sideAt(before, previous, -before.width), to);
    add(
      ends.map((own) => fromEdge({ ...own, from: { ...own.from, y: own.to.y } })),
      to.ink,
    );
  }
  const stop = stopOf(tile);
  if (startOf(before) !== undefined && stop !== undefined)
    add([fromEdge(slurEnds(sidesAt(tile, 0, stop)))], inkOfNotes(tile, 0, stop));
  return found;
}

/** A curve cut at the end of its tile, or at the beginning. */
const toEdge = (ends: CurveEnds, { width }: StaffTile): CurveEnds => ({
  ...ends,
  to: { ...ends.to, x: width - FROM_EDGE },
});
const fromEdge = (ends: CurveEnds): CurveEnds => ({ ...ends, from: { ...ends.from, x: FROM_EDGE - 2 } });

const inkOfNotes = (tile: StaffTile, first: number, last: number): InkBox[] => tile.ink.slice(first, last + 1).flat();

const sidesAt = (tile: StaffTile, first: number, last: number, by = 0): Side[] =>
  Array.from({ length: last - first + 1 }, (_, index) => sideAt(tile, first + index, by));

function sideAt({ notes, xs, stems, ink }: StaffTile, index: number, by = 0): Side {
  const own = itemAt(ink, index);
  return {
    note: itemAt(notes, index),
    x: itemAt(xs, index) + by,
    stem: stems[index],
    ink: by === 0 ? own : own.map((box) => moved(box, by)),
  };
}

/** Curves that are clear of `ink` and of each other: those laid first are nearer to their notes. */
function findCurves(all: readonly CurveEnds[], ink: readonly InkBox[]): Curve[] {
  const found: Curve[] = [];
  for (const ends of all) found.push(findCurve(ends, [...ink, ...found.flatMap(curveBoxes)]));
  return found;
}

const bendsUp = (from: Side, to: Side): boolean => !(from.note.up && to.note.up);

function tieEnds(from: Side, to: Side): CurveEnds[] {
  const { heads } = from.note;
  if (heads.length === 1) return heads.map(({ y }) => overHeads(from, to, y, bendsUp(from, to)));
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

/** A tie over one head to the next; it begins behind a stem that would be in its way. */
function overHeads(from: Side, to: Side, y: number, up: boolean): CurveEnds {
  const at = y + (up ? -OVER_HEAD : OVER_HEAD);
  const behind = up && from.note.up && from.stem ? from.stem.x + BEHIND_STEM : BEHIND;
  return { from: { x: from.x + behind, y: at }, to: { x: to.x - BEHIND, y: at }, up };
}

/** A slur over some notes: over the heads of the first and the last, or at the end of a stem that is on its side. */
function slurEnds(sides: readonly Side[]): CurveEnds {
  const [first, last] = [itemAt(sides, 0), lastOf(sides)];
  const up = !sides.every(({ note }) => note.up);
  const end = ({ note, stem, x }: Side, behind: number): CurveEnds['from'] => {
    if (stem && note.up === up) return { x: x + stem.x + behind / 2, y: stem.tip + (up ? -OVER_STEM : OVER_STEM) };
    const ys = note.heads.map(({ y }) => y);
    return { x: x + behind, y: up ? Math.min(...ys) - OVER_HEAD : Math.max(...ys) + OVER_HEAD };
  };
  return { from: end(first, BEHIND), to: end(last, -BEHIND), up };
}
