/** The map of a path, in numbers: where each lesson's box stands and how the lines between them run. It runs downwards. */
import dagre, { type RankerFunction } from '@dagrejs/dagre';
import type { Curriculum } from './curriculum.ts';
import { type Band, layersOf } from './layers.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box extends Point {
  readonly lesson: string;
  /** Lessons it builds on that stand on another sheet. */
  readonly elsewhere: readonly string[];
}

export interface MapBand extends Omit<Band, 'firstLayer' | 'lastLayer'> {
  readonly top: number;
  readonly height: number;
}

export interface Line {
  readonly from: string;
  readonly to: string;
  /** From the lower edge of one box to the upper edge of the other. */
  readonly points: readonly Point[];
}

export interface PathMap {
  readonly width: number;
  readonly height: number;
  /** In path order; `x` and `y` are the upper left corner. */
  readonly boxes: readonly Box[];
  readonly bands: readonly MapBand[];
  readonly lines: readonly Line[];
}

/** Sizes in CSS pixels: three boxes to a row fit a phone 360 pixels wide, with the page's margins. */
export const BOX = { width: 98, height: 54 } as const;
const ROOM = { between: 10, line: 9, rows: 26, band: 30, margin: 6 } as const;
const WIDEST = 336;
const BOUNDS = [3, 2, 1] as const;

type Pair = readonly [before: number, after: number];

/** Draws some lessons, given by number in path order: as many to a row as fit the width. */
export function mapOf(curriculum: Curriculum, lessons: readonly number[]): PathMap {
  let map: PathMap | undefined;
  for (const bound of BOUNDS) {
    map = mapWith(curriculum, lessons, bound);
    if (map.width <= WIDEST) break;
  }
  return map as PathMap;
}

function mapWith(curriculum: Curriculum, lessons: readonly number[], bound: number): PathMap {
  const { layer, bands } = layersOf(curriculum, lessons, bound);
  const placeOf = new Map(lessons.map((number, place) => [number, place]));
  const steps: Pair[] = [];
  const elsewhere = lessons.map((number, place) => {
    const others: string[] = [];
    for (const needed of curriculum.needs[number] ?? []) {
      const before = placeOf.get(needed);
      if (before === undefined) others.push(idOf(curriculum, needed));
      else steps.push([before, place]);
    }
    return others;
  });
  const drawn = arrange(layer, steps);
  const rows = rowsOf(bands);
  const at = (place: number) => drawn.boxes[place] as number;
  const [left, right] = extent(drawn);
  const shift = ROOM.margin - left;
  const top = (place: number): number => rows.tops[layer[place] as number] as number;
  const boxes = lessons.map(
    (number, place): Box => ({
      lesson: idOf(curriculum, number),
      x: round(at(place) + shift - BOX.width / 2),
      y: top(place),
      elsewhere: elsewhere[place] ?? [],
    }),
  );
  const ends = endsOf(steps, drawn);
  const lines = steps.map(([before, place], index): Line => {
    const through = drawn.lines[index] as readonly { layer: number; x: number }[];
    const points = [
      { x: round((ends[index]?.start as number) + shift), y: top(before) + BOX.height },
      ...through.map(({ layer: row, x }) => ({ x: round(x + shift), y: (rows.tops[row] as number) + BOX.height / 2 })),
      { x: round((ends[index]?.end as number) + shift), y: top(place) },
    ];
    return { from: boxes[before]?.lesson as string, to: boxes[place]?.lesson as string, points };
  });
  return { width: Math.ceil(right - left + 2 * ROOM.margin), height: rows.height, boxes, bands: rows.bands, lines };
}

const idOf = (curriculum: Curriculum, number: number): string => curriculum.lessons[number]?.id as string;
const round = (value: number): number => Math.round(value * 10) / 10;

interface Arranged {
  /** The middle of each box, across. */
  readonly boxes: readonly number[];
  /** Where each line crosses the rows between its ends. */
  readonly lines: readonly (readonly { readonly layer: number; readonly x: number }[])[];
}

/** The library puts boxes and lines side by side so that few lines cross; which row a box is in is given to it. */
function arrange(layer: readonly number[], steps: readonly Pair[]): Arranged {
  const graph = new dagre.graphlib.Graph();
  // Between two rows the library keeps one for labels, which lines here have none of: hence twice the row. Its own
  // root, which ties loose parts together while it ranks, goes above all.
  const ranker: RankerFunction = (ranked) => {
    for (const name of ranked.nodes()) ranked.node(name).rank = 2 * (layer[Number(name)] ?? -1);
  };
  graph.setGraph({ nodesep: ROOM.between, edgesep: ROOM.line, ranksep: 2, ranker });
  for (const place of layer.keys()) graph.setNode(`${place}`, { width: BOX.width, height: 1 });
  for (const [before, place] of steps) graph.setEdge(`${before}`, `${place}`, { labelpos: 'c' });
  dagre.layout(graph);
  const boxes = layer.map((_, place) => graph.node(`${place}`) as Point);
  // Rows lie evenly in the library's measure, so a height tells the row.
  const first = Math.min(...boxes.map(({ y }) => y));
  const last = Math.max(...boxes.map(({ y }) => y));
  const step = (last - first) / Math.max(1, ...layer);
  const lines = steps.map(([before, place]) => {
    const points: readonly Point[] = graph.edge(`${before}`, `${place}`).points ?? [];
    const between = points.map(({ x, y }) => ({ x, layer: round((y - first) / step) }));
    return between.filter((point) => {
      const inside = point.layer > (layer[before] as number) && point.layer < (layer[place] as number);
      return inside && Number.isInteger(point.layer);
    });
  });
  return { boxes: boxes.map(({ x }) => x), lines };
}

/** How far to each side the drawing goes. */
function extent({ boxes, lines }: Arranged): [number, number] {
  let [left, right] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const x of boxes) [left, right] = [Math.min(left, x - BOX.width / 2), Math.max(right, x + BOX.width / 2)];
  for (const { x } of lines.flat()) [left, right] = [Math.min(left, x), Math.max(right, x)];
  return [left, right];
}

/** Where each line leaves and enters its boxes: those of one box are spread along its edge in the order of where they go. */
function endsOf(steps: readonly Pair[], { boxes, lines }: Arranged): { start: number; end: number }[] {
  const ends = steps.map(() => ({ start: 0, end: 0 }));
  for (const side of ['start', 'end'] as const) {
    const byBox = new Map<number, { index: number; towards: number }[]>();
    steps.forEach(([before, place], index) => {
      const box = side === 'start' ? before : place;
      const other = boxes[side === 'start' ? place : before] as number;
      const towards = lines[index]?.at(side === 'start' ? 0 : -1)?.x ?? other;
      byBox.set(box, [...(byBox.get(box) ?? []), { index, towards }]);
    });
    for (const [box, list] of byBox) {
      list.sort((a, b) => a.towards - b.towards || a.index - b.index);
      list.forEach(({ index }, nth) => {
        const share = (nth + 1) / (list.length + 1) - 0.5;
        (ends[index] as { start: number; end: number })[side] = (boxes[box] as number) + share * BOX.width * 0.8;
      });
    }
  }
  return ends;
}

interface Rows {
  /** The upper edge of the boxes of each row. */
  readonly tops: readonly number[];
  readonly bands: readonly MapBand[];
  readonly height: number;
}

/** Rows from top to bottom; each band has room for its name above its first. */
function rowsOf(bands: readonly Band[]): Rows {
  const tops: number[] = [];
  const drawn: MapBand[] = [];
  let y = 0;
  for (const { firstLayer, lastLayer, ...band } of bands) {
    const top = y;
    y += ROOM.band;
    for (let row = firstLayer; row <= lastLayer; row++) {
      tops[row] = y;
      y += BOX.height + ROOM.rows;
    }
    drawn.push({ ...band, top, height: y - top });
  }
  return { tops, bands: drawn, height: y };
}
