/**
 * The signs of marks in a line over the lanes, for readers without the staff: those at a head are over the number, the fermata over them,
 * and the comma of a breath before what comes next.
 */
import type { EndSign } from '../../score/mark.ts';
import { itemAt } from '../../values/checked.ts';
import { CLASS } from '../classes.ts';
import { n, use } from '../markup.ts';
import type { PlacedSegment } from '../segment.ts';
import { glyphBox, type InkBox } from '../staff/box.ts';
import { endGlyph } from '../staff/end-signs.ts';
import { type DrawnSign, signAbove } from '../staff/mark-signs.ts';

/** Between two signs. */
const GAP = 2;
/** Over the highest sign, and under the lowest. */
const ROOM = { over: 2, under: 3 };
/** A comma ends so far before the middle of what comes next, and before the end of the bar. */
const BEFORE_NEXT = 9;
const BEFORE_BAR_LINE = 8;

/** The line of a tile; its height is 0 where the tile has no signs. */
export interface SignRow {
  readonly height: number;
  /** The signs of each column. */
  readonly columns: readonly string[];
}

/** A sign of a column, and how far it is moved down from where it was made. */
interface PlacedSign {
  readonly column: number;
  readonly sign: DrawnSign;
  readonly by: number;
}

/** Draws the signs of a tile, each above what is in its way. Adds to `glyphs` what they need. */
export function drawSignRow({ segment, xs }: PlacedSegment, width: number, glyphs: Set<string>): SignRow {
  const placed: PlacedSign[] = [];
  const ink: InkBox[] = [];
  const put = (column: number, sign: DrawnSign): void => {
    const { left, right, bottom } = sign.box;
    const below = ink.filter((box) => box.left < right + GAP && box.right > left - GAP);
    const by = Math.min(0, ...below.map(({ top }) => top - GAP)) - bottom;
    ink.push({ left, right, top: sign.box.top + by, bottom: bottom + by });
    placed.push({ column, sign, by });
  };
  const putEnds = (wanted: EndSign): void =>
    segment.columns.forEach(({ endSigns }, column) => {
      if (!endSigns.includes(wanted)) return;
      const next = xs[column + 1];
      const end = next === undefined ? width - BEFORE_BAR_LINE : next - BEFORE_NEXT;
      put(column, endSign(wanted, itemAt(xs, column), end));
    });
  segment.staff.notes.forEach(({ content }, column) => {
    for (const sign of content.marks) put(column, signAbove(sign, itemAt(xs, column)));
  });
  putEnds('fermata');
  putEnds('comma');
  if (placed.length === 0) return { height: 0, columns: [] };
  const baseline = ROOM.over - Math.min(...ink.map(({ top }) => top));
  const draw = ({ sign: { glyph, line }, by }: PlacedSign): string => {
    if (!glyph) return `<path class="${CLASS.stroke}" d="${line}" transform="translate(0 ${n(baseline + by)})"/>`;
    glyphs.add(glyph.glyph.code);
    return use(glyph.glyph.code, glyph.x, glyph.y + baseline + by);
  };
  const columns = segment.columns.map((_, index) =>
    placed
      .filter(({ column }) => column === index)
      .map(draw)
      .join(''),
  );
  return { height: Math.ceil(baseline + ROOM.under), columns };
}

/** A fermata over the middle of its note; a comma as far right as there is room, but not before its note. */
function endSign(sign: EndSign, x: number, end: number): DrawnSign {
  const glyph = endGlyph(sign);
  const wide = glyph.right - glyph.left;
  const left = sign === 'fermata' ? x - wide / 2 : Math.max(x, end - wide);
  const placed = { glyph, x: left - glyph.left, y: 0 };
  return { glyph: placed, box: glyphBox(placed) };
}
