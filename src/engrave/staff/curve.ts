/** Ties and slurs: thick in the middle, thin at their ends, and clear of all that is near them. */
import { itemAt } from '../../values/checked.ts';
import { n } from '../markup.ts';
import type { InkBox, Point } from './box.ts';

/** What a curve is asked to join. */
export interface CurveEnds {
  /** Where it begins and ends, if nothing is in its way. */
  readonly from: Point;
  readonly to: Point;
  readonly up: boolean;
}

/** A curve that was found: a cubic Bézier curve through the middle of its ink. */
export interface Curve {
  readonly from: Point;
  readonly one: Point;
  readonly two: Point;
  readonly to: Point;
  readonly up: boolean;
}

/** Half its thickness in the middle. Standard Music Font Layout, `tieMidpointThickness`: 0.22 of a space. */
const HALF_THICKNESS = 1.1;
/** Between its edge and what it is clear of. */
const CLEARANCE = 1;
/** How far an end may be moved away from its note, in steps. */
const LIFTS = [0, 2, 4, 6, 8, 11, 14, 18, 22, 27, 33, 41, 50, 60] as const;
const DEPTHS = [1, 1.4, 1.9] as const;
/** So dense that no box fits between two of them, and denser near the ends, where a curve is steep. */
const SAMPLES = Array.from({ length: 49 }, (_, index) => (1 - Math.cos((Math.PI * index) / 48)) / 2);

/** All that a curve can meet is no farther from its ends. */
const FARTHEST = 110;

interface Attempt {
  readonly first: number;
  readonly last: number;
  readonly depth: number;
  readonly cost: number;
}

/** From the best on. A deeper curve is better than an end far from its note, and one end moved better than both. */
const ATTEMPTS: readonly Attempt[] = LIFTS.flatMap((first) =>
  LIFTS.flatMap((last) => DEPTHS.map((depth) => ({ first, last, depth, cost: first + last + 6 * (depth - 1) }))),
).sort((a, b) => a.cost - b.cost);

/** The curve nearest to what is asked for that is clear of `ink`. Where none is, it is the plain one. */
export function findCurve(ends: CurveEnds, ink: readonly InkBox[]): Curve {
  const plain = curveOf(ends, 0, 0, 1);
  const reach = reachOf(ends);
  const beside = ink.filter(
    (box) => box.left < reach.right && box.right > reach.left && box.top < reach.bottom && box.bottom > reach.top,
  );
  if (isClear(plain, beside)) return plain;
  for (const { first, last, depth } of ATTEMPTS) {
    const curve = curveOf(ends, first, last, depth);
    if (isClear(curve, beside)) return curve;
  }
  return plain;
}

function curveOf({ from, to, up }: CurveEnds, liftFirst: number, liftLast: number, depth: number): Curve {
  const side = up ? -1 : 1;
  const a = { x: from.x, y: from.y + side * liftFirst };
  const b = { x: to.x, y: to.y + side * liftLast };
  const width = b.x - a.x;
  const deep = side * depth * Math.min(12, 4 + width * 0.06);
  const shoulder = Math.min(width * 0.3, 22);
  // A steep curve leans over its higher end.
  const lean = (b.y - a.y) * 0.25;
  return {
    from: a,
    one: { x: a.x + shoulder, y: a.y + deep + lean },
    two: { x: b.x - shoulder, y: b.y + deep - lean },
    to: b,
    up,
  };
}

/** All a curve can meet, however it is moved. */
const reachOf = ({ from, to, up }: CurveEnds): InkBox => ({
  left: from.x - CLEARANCE,
  right: to.x + CLEARANCE,
  top: Math.min(from.y, to.y) - (up ? FARTHEST : 10),
  bottom: Math.max(from.y, to.y) + (up ? 10 : FARTHEST),
});

function isClear(curve: Curve, ink: readonly InkBox[]): boolean {
  for (const t of SAMPLES) {
    const { x, y } = pointOf(curve, t);
    const gap = CLEARANCE + HALF_THICKNESS * Math.min(1, 6 * t * (1 - t));
    for (const box of ink)
      if (x > box.left - CLEARANCE && x < box.right + CLEARANCE && y > box.top - gap && y < box.bottom + gap)
        return false;
  }
  return true;
}

function pointOf({ from, one, two, to }: Curve, t: number): Point {
  const u = 1 - t;
  const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return { x: a * from.x + b * one.x + c * two.x + d * to.x, y: a * from.y + b * one.y + c * two.y + d * to.y };
}

/** In how many pieces a curve is boxed: so many that each box is nearly filled. */
const PIECES = 16;

/** What a curve covers, in boxes from its beginning to its end. */
export function curveBoxes(curve: Curve): InkBox[] {
  const points = Array.from({ length: PIECES + 1 }, (_, index) => pointOf(curve, index / PIECES));
  return points.slice(1).map((to, index) => {
    const from = itemAt(points, index);
    return {
      left: from.x,
      right: to.x,
      top: Math.min(from.y, to.y) - HALF_THICKNESS,
      bottom: Math.max(from.y, to.y) + HALF_THICKNESS,
    };
  });
}

/** An outline: there above the middle of the ink, and back under it. */
export function curvePath({ from, one, two, to }: Curve): string {
  // The middle of a Bézier curve moves by three quarters of what its control points do.
  const thick = HALF_THICKNESS / 0.75;
  const at = ({ x, y }: Point, shift = 0): string => `${n(x)} ${n(y + shift)}`;
  return `M${at(from)}C${at(one, -thick)} ${at(two, -thick)} ${at(to)}C${at(two, thick)} ${at(one, thick)} ${at(from)}Z`;
}
