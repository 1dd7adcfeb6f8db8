/** Parentheses around the heads of a note that is only hinted at: glyphs around one head, drawn to size around a chord. */
import { CLASS } from '../classes.ts';
import { glyphAt } from '../glyphs/metrics.ts';
import { n } from '../markup.ts';
import { glyphBox, type InkBox, type PlacedGlyph } from './box.ts';
import { LINE } from './line.ts';

/** One of a pair. x is counted from the middle of the note’s head. */
export interface Parenthesis {
  /** -1 for the left one, 1 for the right one. */
  readonly side: -1 | 1;
  /** Undefined around a chord, where it is a line. */
  readonly glyph: PlacedGlyph | undefined;
  readonly box: InkBox;
}

/** Standard Music Font Layout, “Noteheads”: noteheadParenthesisLeft and noteheadParenthesisRight. */
const GLYPHS = { left: 0xe0f5, right: 0xe0f6 };
/** Between a head or a ledger line and the parenthesis beside it. */
const GAP = 1.5;
/** How far those of a chord reach above and below its heads, and how far they bend. */
const OVER = 2.5;
const BOW = 4;

/** The pair around heads, clear of their ledger lines. */
export function parenthesesAround(heads: readonly InkBox[], ledgers: readonly InkBox[]): Parenthesis[] {
  const top = Math.min(...heads.map((head) => head.top)) - OVER;
  const bottom = Math.max(...heads.map((head) => head.bottom)) + OVER;
  const beside = [...heads, ...ledgers.filter((line) => line.top < bottom && line.bottom > top)];
  const left = Math.min(...beside.map((box) => box.left)) - GAP;
  const right = Math.max(...beside.map((box) => box.right)) + GAP;
  if (heads.length === 1) {
    const y = (top + bottom) / 2;
    const [opens, closes] = [glyphAt(GLYPHS.left), glyphAt(GLYPHS.right)];
    const pair: readonly (readonly [-1 | 1, PlacedGlyph])[] = [
      [-1, { glyph: opens, x: left - opens.right, y }],
      [1, { glyph: closes, x: right - closes.left, y }],
    ];
    return pair.map(([side, glyph]) => ({ side, glyph, box: glyphBox(glyph) }));
  }
  const width = BOW + LINE;
  return [
    { side: -1, glyph: undefined, box: { left: left - width, right: left, top, bottom } },
    { side: 1, glyph: undefined, box: { left: right, right: right + width, top, bottom } },
  ];
}

/** Draws a parenthesis of a note at its place. */
export function drawParenthesis(
  { side, glyph, box }: Parenthesis,
  x: number,
  put: (glyph: PlacedGlyph) => string,
): string {
  if (glyph) return put({ ...glyph, x: glyph.x + x });
  const inner = x + (side === -1 ? box.right : box.left) + (side * LINE) / 2;
  return `<path class="${CLASS.stroke}" d="${bowPath(inner, box.top, box.bottom, side * BOW)}"/>`;
}

/** A line from a point down to another, bent by so much to the side. */
export const bowPath = (x: number, top: number, bottom: number, bow: number): string => {
  // The middle of a quadratic Bézier curve is half as far out as its control point.
  const height = bottom - top;
  return `M${n(x)} ${n(top)}q${n(2 * bow)} ${n(height / 2)} 0 ${n(height)}`;
};
