/** Signs at the end of a note, above the staff: the comma of a breath before what comes next, the fermata over the head. */
import type { EndSign } from '../../score/mark.ts';
import { itemAt } from '../../values/checked.ts';
import { type Glyph, glyphAt } from '../glyphs/metrics.ts';
import { glyphBox, type InkBox, type PlacedGlyph } from './box.ts';

/** Standard Music Font Layout, “Holds and pauses”: breathMarkComma, fermataAbove. */
const GLYPHS: Readonly<Record<EndSign, number>> = { comma: 0xe4ce, fermata: 0xe4c0 };
/** How a sign is drawn. */
export const endGlyph = (sign: EndSign): Glyph => glyphAt(GLYPHS[sign]);

/** From the top line, and from what is under it. */
const OVER: Readonly<Record<EndSign, number>> = { comma: 2, fermata: 4 };
/** A comma is so far before the ink of what comes next, and before the end of the bar. */
const BEFORE = 2;
const BEFORE_BAR_LINE = 8;

/** What is around the signs of a note of a tile. */
export interface EndPlace {
  /** The note’s number in its tile. */
  readonly index: number;
  /** The middle of each note’s head, and what each covers, in the tile. */
  readonly xs: readonly number[];
  readonly ink: readonly (readonly InkBox[])[];
  /** What joins notes. */
  readonly joinInk: readonly InkBox[];
  readonly width: number;
}

/** The signs at the end of a note, higher where notes, beams or tuplets are in their way. A fermata is put before a comma. */
export function endSignsAt(signs: readonly EndSign[], place: EndPlace): PlacedGlyph[] {
  const placed: PlacedGlyph[] = [];
  for (const sign of [...signs].sort().reverse()) placed.push(signAt(sign, place, placed));
  return placed;
}

function signAt(
  sign: EndSign,
  { index, xs, ink, joinInk, width }: EndPlace,
  before: readonly PlacedGlyph[],
): PlacedGlyph {
  const glyph = endGlyph(sign);
  const x = itemAt(xs, index);
  const wide = glyph.right - glyph.left;
  const next = ink[index + 1];
  const end = next ? Math.min(...next.map(({ left }) => left)) - BEFORE : width - BEFORE_BAR_LINE;
  const left = sign === 'fermata' ? x - wide / 2 : Math.max(x, end - wide);
  const over = OVER[sign];
  const inTheWay = [...ink.flat(), ...joinInk, ...before.map((own) => glyphBox(own))].filter(
    (box) => box.left < left + wide + over && box.right > left - over,
  );
  const bottom = Math.min(0, ...inTheWay.map(({ top }) => top)) - over;
  return { glyph, x: left - glyph.left, y: bottom - glyph.bottom };
}
