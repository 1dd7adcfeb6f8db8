/** The map of a path, in numbers: where each lesson's box is and how the lines between them run. It runs downwards. */
import { itemAt } from '../values/checked.ts';
import { type Curriculum, stepOf } from './curriculum.ts';
import { type Band, type Layers, layersOf } from './layers.ts';
import { layOutMap, type MapLayout, type Pair, rowWidths } from './map-layout.ts';

/** A point of a map, in CSS pixels from its top left corner. */
export interface MapPoint {
  readonly x: number;
  readonly y: number;
}

/** The box of a lesson; the point is its upper left corner. */
export interface Box extends MapPoint {
  readonly lesson: string;
  /** Lessons it builds on that are on another sheet. */
  readonly elsewhere: readonly string[];
}

/** The rows of one stage. */
export interface MapBand extends Omit<Band, 'firstLayer' | 'lastLayer'> {
  readonly top: number;
  readonly height: number;
}

/** The line from a lesson to one that builds on it. */
export interface Line {
  readonly from: string;
  readonly to: string;
  /** From the lower edge of one box to the upper edge of the other, downwards. */
  readonly points: readonly MapPoint[];
}

/** One sheet of the lesson map, ready to be drawn. */
export interface PathMap {
  readonly width: number;
  readonly height: number;
  /** In path order; `x` and `y` are the upper left corner. */
  readonly boxes: readonly Box[];
  readonly bands: readonly MapBand[];
  readonly lines: readonly Line[];
}

/** Sizes in CSS pixels: three boxes to a row fit a phone 360 pixels wide, with the page's margins. */
export const BOX = { width: 94, height: 58 } as const;
/** CSS pixels: 360 without the page’s margins. */
export const WIDTH = 336;
const ROOM = { rows: 32, band: 34, margin: 6 } as const;
/** How many boxes to a row, the first that fits. Past the last, the map grows wider than a phone and is shown smaller. */
const BOUNDS = [3, 2, 1] as const;

/**
 * Draws some lessons, given by id in path order. What takes time is to arrange them; `arranged` may know the answer from
 * before.
 */
export function mapOf(
  curriculum: Pick<Curriculum, 'steps'>,
  lessons: readonly string[],
  arranged = layOutMap,
): PathMap {
  const placeOf = new Map(lessons.map((id, place) => [id, place]));
  const steps: Pair[] = [];
  const elsewhere = lessons.map((id, place) => {
    const others: string[] = [];
    for (const needed of stepOf(curriculum, id).needs) {
      const before = placeOf.get(needed);
      if (before === undefined) others.push(needed);
      else steps.push([before, place]);
    }
    return others;
  });
  const { layers, width } = fitting(curriculum, lessons, steps);
  const drawn = arranged(layers.layer, steps, { box: BOX.width, width });
  const rows = rowsOf(layers.bands);
  const top = (row: number): number => itemAt(rows.tops, row);
  const topOf = (place: number): number => top(itemAt(layers.layer, place));
  const boxes = lessons.map((lesson, place): Box => {
    const x = round(itemAt(drawn.boxes, place) - BOX.width / 2 + ROOM.margin);
    return { lesson, x, y: topOf(place), elsewhere: itemAt(elsewhere, place) };
  });
  const ends = endsOf(steps, drawn);
  const lines = steps.map(([before, place], index): Line => {
    // Straight past the boxes of a row, so that a line bends only between rows.
    const through = itemAt(drawn.lines, index).flatMap(({ x, row }) => [
      { x, y: top(row) },
      { x, y: top(row) + BOX.height },
    ]);
    const { start, end } = itemAt(ends, index);
    const points = [{ x: start, y: topOf(before) + BOX.height }, ...through, { x: end, y: topOf(place) }];
    return {
      from: itemAt(lessons, before),
      to: itemAt(lessons, place),
      points: points.map(({ x, y }) => ({ x: round(x + ROOM.margin), y })),
    };
  });
  return { width: width + 2 * ROOM.margin, height: rows.height, boxes, bands: rows.bands, lines };
}

const round = (value: number): number => Math.round(value * 10) / 10;

/** As many boxes to a row as leave room for the lines that pass between them. */
function fitting(
  curriculum: Pick<Curriculum, 'steps'>,
  lessons: readonly string[],
  steps: readonly Pair[],
): { readonly layers: Layers; readonly width: number } {
  const room = WIDTH - 2 * ROOM.margin;
  const tried = (bound: number) => {
    const layers = layersOf(curriculum, lessons, bound);
    return { layers, width: Math.max(room, ...rowWidths(layers.layer, steps, BOX.width)) };
  };
  const [most, ...fewer] = BOUNDS;
  let best = tried(most);
  for (const bound of fewer) {
    if (best.width <= room) break;
    const next = tried(bound);
    if (next.width < best.width) best = next;
  }
  return best;
}

interface Ends {
  start: number;
  end: number;
}

/** Where each line leaves and enters its boxes: those of one box are spread along its edge in the order of where they go. */
function endsOf(steps: readonly Pair[], { boxes, lines }: MapLayout): Ends[] {
  const ends = steps.map((): Ends => ({ start: 0, end: 0 }));
  for (const side of ['start', 'end'] as const) {
    const byBox = new Map<number, { index: number; towards: number }[]>();
    steps.forEach(([before, place], index) => {
      const box = side === 'start' ? before : place;
      const other = itemAt(boxes, side === 'start' ? place : before);
      const towards = itemAt(lines, index).at(side === 'start' ? 0 : -1)?.x ?? other;
      const list = byBox.get(box) ?? [];
      if (list.length === 0) byBox.set(box, list);
      list.push({ index, towards });
    });
    for (const [box, list] of byBox) {
      list.sort((a, b) => a.towards - b.towards || a.index - b.index);
      list.forEach(({ index }, nth) => {
        const share = (nth + 1) / (list.length + 1) - 0.5;
        itemAt(ends, index)[side] = itemAt(boxes, box) + share * BOX.width * 0.8;
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
