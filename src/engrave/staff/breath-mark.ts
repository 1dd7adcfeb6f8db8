/** Breath marks: a comma above the staff at the end of a note, before what comes next. */
import { itemAt } from '../../values/checked.ts';
import { glyphAt } from '../glyphs/metrics.ts';
import type { InkBox, PlacedGlyph } from './box.ts';

/** Standard Music Font Layout, “Holds and pauses”: breathMarkComma. */
const COMMA = 0xe4ce;
/** From the top line, and from what is under it. */
const OVER = 2;
/** Before the ink of what comes next, and before the end of the bar. */
const BEFORE = 2;
const BEFORE_BAR_LINE = 8;

/** What is around the comma after a note of a tile. */
export interface BreathPlace {
  /** The note’s number in its tile. */
  readonly index: number;
  /** The middle of each note’s head, and what each covers, in the tile. */
  readonly xs: readonly number[];
  readonly ink: readonly (readonly InkBox[])[];
  /** What joins notes. */
  readonly joinInk: readonly InkBox[];
  readonly width: number;
}

/** A comma at the end of a note, higher where notes, beams or tuplets are in its way. */
export function breathMarkAt({ index, xs, ink, joinInk, width }: BreathPlace): PlacedGlyph {
  const glyph = glyphAt(COMMA);
  const next = ink[index + 1];
  const end = next ? Math.min(...next.map(({ left }) => left)) - BEFORE : width - BEFORE_BAR_LINE;
  const left = Math.max(itemAt(xs, index), end - (glyph.right - glyph.left));
  const right = left + glyph.right - glyph.left;
  const inTheWay = [...ink.flat(), ...joinInk].filter((box) => box.left < right + OVER && box.right > left - OVER);
  const bottom = Math.min(0, ...inTheWay.map(({ top }) => top)) - OVER;
  return { glyph, x: left - glyph.left, y: bottom - glyph.bottom };
}
