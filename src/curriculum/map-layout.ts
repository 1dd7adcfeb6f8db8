/** Where boxes and the lines that pass between them are in their rows, across. */
import dagre, { type RankerFunction } from '@dagrejs/dagre';
import { itemAt } from '../values/checked.ts';

/** A line between two lessons, by their numbers. */
export type Pair = readonly [before: number, after: number];

/** Where everything of a map is across. Unit: CSS pixels. */
export interface MapLayout {
  /** The middle of each box, from 0 to the width. */
  readonly boxes: readonly number[];
  /** Where each line passes the rows between its ends, downwards. */
  readonly lines: readonly (readonly Crossing[])[];
}

/** The place at which a line passes a row. */
export interface Crossing {
  readonly row: number;
  readonly x: number;
}

/** Sizes of a map, in CSS pixels. */
export interface Sizes {
  readonly box: number;
  readonly width: number;
}

/** Room between two boxes, and between a line and its neighbour, in pixels. */
const APART = { boxes: 10, lines: 7 } as const;

/** The row of the library's own root, which is above the first. */
const ABOVE = -1;

/** How wide each row is at the least, with the boxes in it and the lines that pass it, whatever their order. */
export function rowWidths(layer: readonly number[], steps: readonly Pair[], box: number): number[] {
  const boxes = rowsWith(layer, (place) => place).map((places) => places.length);
  const lines = boxes.map(() => 0);
  for (const [before, place] of steps) {
    for (let row = itemAt(layer, before) + 1; row < itemAt(layer, place); row++) lines[row] = (lines[row] ?? 0) + 1;
  }
  // A line at the edge of a row adds its own room; between two boxes it adds less, as it is in theirs.
  return boxes.map((count, row) => count * box + APART.boxes * (count - 1) + APART.lines * itemAt(lines, row));
}

interface Item {
  readonly kind: 'box' | 'line';
  readonly half: number;
  x: number;
}

function rowsWith<T>(layer: readonly number[], itemOf: (place: number) => T): T[][] {
  const rows: T[][] = Array.from({ length: Math.max(0, ...layer.map((row) => row + 1)) }, () => []);
  layer.forEach((row, place) => {
    rows[row]?.push(itemOf(place));
  });
  return rows;
}

/**
 * The library puts boxes and lines side by side so that few lines cross; which row a box is in is given to it. Where it
 * takes more room than there is, what it found is drawn closer together, in the same order.
 */
export function layOutMap(layer: readonly number[], steps: readonly Pair[], sizes: Sizes): MapLayout {
  const free = freely(layer, steps, sizes.box);
  const boxes = free.boxes.map((x): Item => ({ kind: 'box', half: sizes.box / 2, x }));
  const lines = free.lines.map((crossings) =>
    crossings.map(({ row, x }): { row: number; item: Item } => ({ row, item: { kind: 'line', half: 0, x } })),
  );
  const items = [...boxes, ...lines.flat().map(({ item }) => item)];
  const left = Math.min(...items.map(({ x, half }) => x - half));
  const right = Math.max(...items.map(({ x, half }) => x + half));
  const scale = Math.min(1, sizes.width / (right - left));
  const margin = (sizes.width - scale * (right - left)) / 2;
  for (const item of items) item.x = margin + scale * (item.x - left);
  if (scale < 1) {
    const rows = rowsWith(layer, (place) => itemAt(boxes, place));
    for (const { row, item } of lines.flat()) rows[row]?.push(item);
    for (const row of rows) settle(row, sizes.width);
  }
  return {
    boxes: boxes.map(({ x }) => x),
    lines: lines.map((crossings) => crossings.map(({ row, item }) => ({ row, x: item.x }))),
  };
}

/** Moves the items of one row no further than it takes to keep them apart, in their order, from 0 to the width. */
function settle(row: Item[], width: number): void {
  row.sort((a, b) => a.x - b.x);
  let edge = 0;
  row.forEach((item, index) => {
    const before = row[index - 1];
    edge = before ? before.x + apart(before, item) : item.half;
    item.x = Math.max(item.x, edge);
  });
  for (let index = row.length - 1; index >= 0; index--) {
    const item = itemAt(row, index);
    const after = row[index + 1];
    item.x = Math.min(item.x, after ? after.x - apart(item, after) : width - item.half);
  }
}

function apart(a: Item, b: Item): number {
  const room = a.kind === 'box' && b.kind === 'box' ? APART.boxes : APART.lines;
  return a.half + room + b.half;
}

function freely(layer: readonly number[], steps: readonly Pair[], box: number): MapLayout {
  const graph = new dagre.graphlib.Graph();
  // Between two rows the library keeps one for labels, which lines here do not have: so the row is doubled. Its own
  // root, which ties loose parts together while it ranks, goes above all.
  const ranker: RankerFunction = (ranked) => {
    for (const name of ranked.nodes()) ranked.node(name).rank = 2 * (layer[Number(name)] ?? ABOVE);
  };
  graph.setGraph({ nodesep: APART.boxes, edgesep: APART.lines, ranksep: 2, ranker });
  for (const place of layer.keys()) graph.setNode(`${place}`, { width: box, height: 1 });
  for (const [before, place] of steps) graph.setEdge(`${before}`, `${place}`, { labelpos: 'c' });
  dagre.layout(graph);
  const boxes = layer.map((_, place) => graph.node(`${place}`));
  // Rows lie evenly in the library's measure, so a height identifies the row.
  const first = Math.min(...boxes.map(({ y }) => y));
  const last = Math.max(...boxes.map(({ y }) => y));
  const step = (last - first) / Math.max(1, ...layer);
  const lines = steps.map(([before, place]) => {
    const points: readonly { x: number; y: number }[] = graph.edge(`${before}`, `${place}`).points ?? [];
    const rows = points.map(({ x, y }): Crossing => ({ x, row: Math.round((100 * (y - first)) / step) / 100 }));
    return rows.filter(({ row }) => Number.isInteger(row) && row > itemAt(layer, before) && row < itemAt(layer, place));
  });
  return { boxes: boxes.map(({ x }) => x), lines };
}
