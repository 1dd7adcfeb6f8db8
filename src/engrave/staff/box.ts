/** Rectangles around ink, in units of the staff, whose lines are 10 apart. y grows downwards, the staff's top line is at 0. */
import type { Glyph } from '../glyphs/metrics.ts';

export interface InkBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A glyph at a place. */
export interface PlacedGlyph extends Point {
  readonly glyph: Glyph;
}

/** What a glyph covers that is drawn at a place. */
export const glyphBox = ({ glyph, x, y }: PlacedGlyph, scale = 1): InkBox => ({
  left: x + glyph.left * scale,
  top: y + glyph.top * scale,
  right: x + glyph.right * scale,
  bottom: y + glyph.bottom * scale,
});

export const moved = (box: InkBox, by: number): InkBox => ({ ...box, left: box.left + by, right: box.right + by });

/** Ink that is less than this above other ink counts as beside it. */
const BESIDE = 1.5;

/**
 * How far the middle of one group of boxes must be right of that of another, so that what is side by side is `gap` apart. Both
 * are given around their own middles.
 */
export function distance(left: readonly InkBox[], right: readonly InkBox[], gap: number): number {
  let least = 0;
  for (const a of left) {
    for (const b of right) {
      const isBeside = a.top < b.bottom + BESIDE && b.top < a.bottom + BESIDE;
      if (isBeside) least = Math.max(least, a.right - b.left + gap);
    }
  }
  return least;
}
