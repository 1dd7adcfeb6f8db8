/** The ink of a drawn element, as a small bitmap: its true outline at four samples to the pixel. */
import { createCanvas, Path2D, type SKRSContext2D } from '@napi-rs/canvas';
import type { Box, Drawn } from './collect.ts';

/** Samples in a CSS pixel. */
export const SAMPLES = 4;
/** A sample is ink when at least half of it is covered. */
const COVERED = 128;

/** The ink of one element. Places are in samples from the block's corner. */
export interface Mask {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Row by row, 1 for ink. */
  readonly ink: Uint8Array;
}

/** Canvases to draw on, by their size: reading a bitmap takes as long as its whole canvas is large. */
const pens = new Map<string, SKRSContext2D>();

/** A cleared canvas of at least this size. */
function clearPen(width: number, height: number): SKRSContext2D {
  const [wide, high] = [width, height].map((side) => 2 ** Math.ceil(Math.log2(Math.max(32, side)))) as [number, number];
  const size = `${wide} ${high}`;
  const pen = pens.get(size) ?? createCanvas(wide, high).getContext('2d');
  pens.set(size, pen);
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.clearRect(0, 0, width, height);
  return pen;
}

/** Bitmaps of outlines that were drawn before, apart from whole samples of their place. */
const known = new Map<string, Mask | undefined>();

/** The ink of an element, or undefined where it leaves none. */
export function maskOf(drawn: Drawn): Mask | undefined {
  const [a, b, c, d, e, f] = drawn.matrix;
  const scale = Math.hypot(a, b);
  const reach = drawn.stroke > 0 ? (drawn.stroke * scale) / 2 + 1 : 1;
  // Letters may reach a little out of their place.
  const margin = drawn.text === undefined ? reach : drawn.fontSize * scale * 0.3;
  const [left, top, right, bottom] = drawn.box;
  const x = Math.floor((left - margin) * SAMPLES);
  const y = Math.floor((top - margin) * SAMPLES);
  const width = Math.ceil((right + margin) * SAMPLES) - x + 1;
  const height = Math.ceil((bottom + margin) * SAMPLES) - y + 1;
  // Quarters of a sample are as near as an outline's place has to be for its bitmap to be the same.
  const dx = Math.round((e * SAMPLES - x) * 4) / 4;
  const dy = Math.round((f * SAMPLES - y) * 4) / 4;
  const shape = `${drawn.path ?? ''}\n${drawn.text ?? ''}\n${drawn.font}\n${drawn.at} ${drawn.filled} ${drawn.stroke}`;
  const place = `${drawn.cap} ${drawn.join} ${drawn.dash} ${a.toFixed(4)} ${b.toFixed(4)} ${c.toFixed(4)} ${d.toFixed(4)}`;
  const key = `${shape}\n${place} ${dx} ${dy} ${width} ${height}`;
  const kept = known.get(key);
  if (kept !== undefined || known.has(key)) return kept && { ...kept, left: kept.left + x, top: kept.top + y };
  const pen = clearPen(width, height);
  pen.setTransform(a * SAMPLES, b * SAMPLES, c * SAMPLES, d * SAMPLES, dx, dy);
  paint(drawn, pen);
  const trimmed = trim(pen.getImageData(0, 0, width, height).data, width, height);
  known.set(key, trimmed);
  return trimmed && { ...trimmed, left: trimmed.left + x, top: trimmed.top + y };
}

function paint(drawn: Drawn, pen: SKRSContext2D): void {
  pen.lineWidth = drawn.stroke;
  pen.lineCap = drawn.cap;
  pen.lineJoin = drawn.join;
  pen.setLineDash([...drawn.dash]);
  if (drawn.text !== undefined) {
    pen.font = drawn.font;
    if (drawn.filled) pen.fillText(drawn.text, ...drawn.at);
    if (drawn.stroke > 0) pen.strokeText(drawn.text, ...drawn.at);
    return;
  }
  const path = new Path2D(drawn.path);
  if (drawn.filled) pen.fill(path);
  if (drawn.stroke > 0) pen.stroke(path);
}

/** The part of a bitmap that has ink. */
function trim(rgba: Uint8ClampedArray, width: number, height: number): Mask | undefined {
  let [left, top, right, bottom] = [width, height, -1, -1];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if ((rgba[(y * width + x) * 4 + 3] ?? 0) < COVERED) continue;
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < top) top = y;
      bottom = y;
    }
  }
  if (right < 0) return undefined;
  const ink = new Uint8Array((right - left + 1) * (bottom - top + 1));
  let at = 0;
  for (let y = top; y <= bottom; y++) {
    for (let x = left; x <= right; x++) ink[at++] = (rgba[(y * width + x) * 4 + 3] ?? 0) < COVERED ? 0 : 1;
  }
  return { left, top, width: right - left + 1, height: bottom - top + 1, ink };
}

/** The box of the ink, in CSS pixels. */
export const boxOf = ({ left, top, width, height }: Mask): Box => [
  left / SAMPLES,
  top / SAMPLES,
  (left + width) / SAMPLES,
  (top + height) / SAMPLES,
];

/** Ink that two elements share. */
export interface Overlap {
  /** Square pixels. */
  readonly area: number;
  /** Where it is, in CSS pixels. */
  readonly box: Box;
}

/** What both have inked, or undefined where their ink is apart. */
export function overlapOf(one: Mask, other: Mask): Overlap | undefined {
  const left = Math.max(one.left, other.left);
  const top = Math.max(one.top, other.top);
  const right = Math.min(one.left + one.width, other.left + other.width);
  const bottom = Math.min(one.top + one.height, other.top + other.height);
  if (left >= right || top >= bottom) return undefined;
  let [count, x0, y0, x1, y1] = [0, right, bottom, left, top];
  for (let y = top; y < bottom; y++) {
    let first = (y - one.top) * one.width + left - one.left;
    let second = (y - other.top) * other.width + left - other.left;
    for (let x = left; x < right; x++, first++, second++) {
      if (one.ink[first] === 0 || other.ink[second] === 0) continue;
      count++;
      if (x < x0) x0 = x;
      if (x >= x1) x1 = x + 1;
      if (y < y0) y0 = y;
      y1 = y + 1;
    }
  }
  if (count === 0) return undefined;
  return { area: count / SAMPLES ** 2, box: [x0 / SAMPLES, y0 / SAMPLES, x1 / SAMPLES, y1 / SAMPLES] };
}

/** Edges that were asked for before; the bitmaps of one outline share their ink. */
const edges = new WeakMap<Uint8Array, readonly (readonly [number, number])[]>();

/** Samples of ink that have none beside them, from the corner of the bitmap. */
function edgeOf({ width, height, ink }: Mask): readonly (readonly [number, number])[] {
  const known = edges.get(ink);
  if (known) return known;
  const edge: (readonly [number, number])[] = [];
  const at = (x: number, y: number): number =>
    x < 0 || y < 0 || x >= width || y >= height ? 0 : (ink[y * width + x] ?? 0);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (at(x, y) === 1 && at(x - 1, y) + at(x + 1, y) + at(x, y - 1) + at(x, y + 1) < 4) edge.push([x, y]);
    }
  }
  edges.set(ink, edge);
  return edge;
}

/** The least distance between the ink of two elements in CSS pixels: 0 where they touch. */
export function distanceOf(one: Mask, other: Mask): number {
  let least = Number.POSITIVE_INFINITY;
  const near = edgeOf(other);
  const [dx, dy] = [one.left - other.left, one.top - other.top];
  for (const [x, y] of edgeOf(one)) {
    for (const [u, v] of near) {
      // From edge to edge of the samples, not from middle to middle.
      const across = Math.max(0, Math.abs(x + dx - u) - 1);
      const down = Math.max(0, Math.abs(y + dy - v) - 1);
      const square = across * across + down * down;
      if (square < least) least = square;
    }
  }
  return Math.sqrt(least) / SAMPLES;
}
