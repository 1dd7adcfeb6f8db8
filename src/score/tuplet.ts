/** Finds the tuplets of a bar: the stretches whose onsets no plain note value reaches. */
import { lcm } from '../time/fraction.ts';
import { itemAt, lastOf } from '../values/checked.ts';
import { type Grid, oddPart } from './grid.ts';

/** A stretch of ticks in which `actual` notes are in the time of `normal`. */
export interface Region {
  readonly from: number;
  readonly to: number;
  readonly actual: number;
  readonly normal: number;
}

/** The tuplets of a bar that has something in it, in order and apart. */
export function findTuplets(grid: Grid): readonly Region[] {
  const start = itemAt(grid.spans, 0).from;
  const end = lastOf(grid.spans).to;
  const points = [...grid.spans.map((span) => span.from), end];
  const regions: Region[] = [];
  // A pickup may begin within a tuplet, as a short last bar may end in one: such a tuplet is cut off at the bar's ends.
  let plain = grid.isPlain(start) ? start : grid.beatAround(start).from;
  let index = 0;
  while (index < points.length) {
    const point = itemAt(points, index);
    if (grid.isPlain(point)) {
      plain = point;
      index++;
      continue;
    }
    const region = regionFrom(plain, points.slice(index), grid);
    regions.push({ ...region, from: Math.max(region.from, start), to: Math.min(region.to, end) });
    plain = region.to;
    while (index < points.length && itemAt(points, index) < region.to) index++;
  }
  return joinSixes(regions, points, grid);
}

/** The tuplet that begins at a plain point and reaches the first of some points that is not plain. */
function regionFrom(from: number, points: readonly number[], grid: Grid): Region {
  const plain = points.findIndex((point) => grid.isPlain(point));
  const inner = plain < 0 ? points : points.slice(0, plain);
  const to = points[plain] ?? grid.beatAround(lastOf(points)).to;
  const group = tuplet(from, to, inner, grid);
  if (readsAsOne(from, to, inner, group, grid)) return group;
  // Notes held into or out of a tuplet blur its ends: take the beat, or the smallest part of it that holds the first point.
  const first = itemAt(inner, 0);
  let cell = grid.beatAround(first);
  while (cell.from < from) {
    const middle = (cell.from + cell.to) / 2;
    if (!grid.isPlain(middle)) break;
    cell = first < middle ? { from: cell.from, to: middle } : { from: middle, to: cell.to };
  }
  const start = Math.max(cell.from, from);
  const end = Math.min(cell.to, to);
  const own = inner.filter((point) => point < end);
  return tuplet(start, end, own, grid);
}

/** Whether a reader takes it as one figure: even, or no wider than a beat, or made of nothing shorter than a beat. */
function readsAsOne(from: number, to: number, inner: readonly number[], region: Region, grid: Grid): boolean {
  const points = [from, ...inner, to];
  const lengths = points.slice(1).map((point, index) => point - itemAt(points, index));
  const odd = oddPart(grid.inFinest(to - from));
  if (odd !== 1 && odd !== 3) return lengths.every((length) => length === lengths[0]);
  if (to - from <= grid.beat || lengths.every((length) => length === lengths[0])) return true;
  const shortest = (Math.min(...lengths) * region.actual) / region.normal;
  return shortest >= grid.beat && lengths.every((length) => grid.noteValue((length * region.actual) / region.normal));
}

/** The numbers of a tuplet over a stretch whose ends are plain, and its inner points not. */
function tuplet(from: number, to: number, inner: readonly number[], grid: Grid): Region {
  const length = to - from;
  let parts = 1;
  for (const point of inner) parts = lcm(parts, lcm(length, point - from) / (point - from));
  const actual = oddPart(parts);
  // In the time of as many notes as the stretch itself is written with, doubled up to just below the tuplet's own.
  let normal = oddPart(grid.inFinest(length));
  while (normal * 2 < actual) normal *= 2;
  return { from, to, actual, normal };
}

/** Two triplets of even notes that fill one beat are written as one group of six. */
function joinSixes(regions: readonly Region[], points: readonly number[], grid: Grid): Region[] {
  const joined: Region[] = [];
  for (const region of regions) {
    const last = joined.at(-1);
    const beat = grid.beatAround(region.from);
    const fill = last && last.from === beat.from && region.to === beat.to;
    if (fill && isEven(last.from, region.to, 6, points)) {
      joined[joined.length - 1] = { from: last.from, to: region.to, actual: 6, normal: 4 };
    } else joined.push(region);
  }
  return joined;
}

const isEven = (from: number, to: number, parts: number, points: readonly number[]): boolean => {
  const inner = points.filter((point) => point > from && point < to);
  return (
    inner.length === parts - 1 && inner.every((point, index) => point === from + ((index + 1) * (to - from)) / parts)
  );
};
