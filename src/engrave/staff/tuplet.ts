/**
 * The figure of a tuplet, with a bracket where no beam shows what belongs to it: on the side of the beam, or of most stems
 * (Gould, “Behind Bars”, “Tuplets”, from memory), outside of the staff.
 */
import { itemAt } from '../../values/checked.ts';
import { glyphAt } from '../glyphs/metrics.ts';
import { glyphBox, type InkBox, type PlacedGlyph } from './box.ts';
import { BOTTOM } from './note.ts';

/** A tuplet over some notes of a tile. */
export interface TupletContent {
  readonly figure: number;
  /** Positions among the notes of the tile. */
  readonly first: number;
  readonly last: number;
  readonly bracket: boolean;
}

/** A figure with a place, and its bracket. */
export interface LaidTuplet {
  readonly up: boolean;
  readonly digits: readonly PlacedGlyph[];
  readonly bracket: Bracket | undefined;
  readonly boxes: readonly InkBox[];
}

/** A horizontal line in two parts around the figure, with a hook at either end. */
interface Bracket {
  readonly from: number;
  readonly to: number;
  readonly y: number;
  readonly gap: { readonly from: number; readonly to: number };
  /** Where the hooks end. */
  readonly hook: number;
}

/** Figures are smaller than the font has them. */
export const FIGURE_SCALE = 0.8;
const FIGURE_HEIGHT = 12;
/** From the notes to the figure, and from the outer lines of the staff. */
const GAP = 3;
const HOOK = 5;
/** How far a bracket reaches beyond the middle of its first and last note. */
const OVERHANG = 7;

/** `ink` is what the figure has to be clear of, in all of its notes. */
export function layTuplet(
  { figure, first, last, bracket }: TupletContent,
  up: boolean,
  span: { readonly from: number; readonly to: number },
  xs: readonly number[],
  ink: readonly InkBox[],
): LaidTuplet {
  const glyphs = [...String(figure)].map((digit) => glyphAt(0xe880 + Number(digit)));
  const width = glyphs.reduce((sum, glyph) => sum + glyph.advance * FIGURE_SCALE, 0);
  const from = bracket ? itemAt(xs, first) - OVERHANG : span.from;
  const to = bracket ? itemAt(xs, last) + OVERHANG : span.to;
  const start = (from + to - width) / 2;
  // A bracket is clear of all notes; a figure alone of those that are over or under it.
  const reach = bracket ? { from, to } : { from: start - GAP, to: start + width + GAP };
  const beside = ink.filter((box) => box.left < reach.to && box.right > reach.from);
  const edge = up
    ? Math.min(0, ...beside.map(({ top }) => top))
    : Math.max(BOTTOM, ...beside.map(({ bottom }) => bottom));
  const y = up ? edge - GAP : edge + GAP + FIGURE_HEIGHT;
  let at = start;
  const digits = glyphs.map((glyph) => {
    const placed = { glyph, x: at, y };
    at += glyph.advance * FIGURE_SCALE;
    return placed;
  });
  const line = y - FIGURE_HEIGHT / 2;
  const shown = bracket && start - from > 5;
  const boxes = digits.map((digit) => glyphBox(digit, FIGURE_SCALE));
  if (shown) boxes.push({ left: from, right: to, top: line - HOOK, bottom: line + HOOK });
  return {
    up,
    digits,
    bracket: shown
      ? { from, to, y: line, gap: { from: start - 2, to: at + 2 }, hook: up ? line + HOOK : line - HOOK }
      : undefined,
    boxes,
  };
}
