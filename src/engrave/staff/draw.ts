/** A laid out staff as SVG. Noteheads carry the class of their role; everything else is in the ink of its surroundings. */
import { itemAt } from '../../values/checked.ts';
import { CLASS } from '../classes.ts';
import { glyphAt } from '../glyphs/metrics.ts';
import { n, use } from '../markup.ts';
import type { BeamPiece } from './beam.ts';
import type { InkBox, PlacedGlyph } from './box.ts';
import { type Curve, curveBoxes, curvePath } from './curve.ts';
import { GRACE_SCALE, type GraceShape } from './grace.ts';
import type { Joins } from './join.ts';
import { drawSigns } from './mark-signs.ts';
import { flagAt, type NoteShape, type Stem } from './note.ts';
import { drawParenthesis } from './parentheses.ts';
import type { StaffTile } from './tile.ts';
import { FIGURE_SCALE, type LaidTuplet } from './tuplet.ts';

/** The markup of a tile’s staff, and what it needs. */
export interface StaffDrawing {
  /** Of each note, without its beam. */
  readonly notes: readonly string[];
  /** Beams with their stems, tuplets, ties and slurs. */
  readonly joins: string;
  /** Curves to the next tile: over the edge, and, where that tile begins a row, up to it. */
  readonly crossing: { readonly whole: string; readonly out: string };
  /** Curves from the edge, where this tile begins a row. */
  readonly coming: string;
  /** What it all covers, but for the lines of the staff, which are between 0 and 40. */
  readonly ink: readonly InkBox[];
  /** Names of the glyphs it draws. */
  readonly glyphs: readonly string[];
}

const DOT = 0xe1e7;

/** Draws a tile’s staff. */
export function drawStaff(tile: StaffTile, joins: Joins): StaffDrawing {
  const glyphs = new Set<string>();
  const put = ({ glyph, x, y }: PlacedGlyph, role?: string, scale?: number): string => {
    glyphs.add(glyph.code);
    return use(glyph.code, x, y, role, scale);
  };
  const beamed = new Set(tile.beams.flatMap(({ members }) => members));
  const notes = tile.notes.map((note, index) => {
    return (
      drawNote(note, itemAt(tile.xs, index), beamed.has(index) ? undefined : tile.stems[index], put) +
      (tile.endSigns.get(index) ?? []).map((sign) => put(sign)).join('')
    );
  });
  let drawn = '';
  for (const { members, stems, pieces } of tile.beams) {
    members.forEach((at, index) => {
      drawn += stemLine(itemAt(tile.xs, at), itemAt(stems, index));
    });
    drawn += pieces.map(drawPiece).join('');
  }
  for (const tuplet of tile.tuplets) drawn += drawTuplet(tuplet, put);
  const curves = [...joins.within, ...joins.crossing.whole, ...joins.crossing.out, ...joins.coming];
  return {
    notes,
    joins: drawn + drawCurves(joins.within),
    crossing: { whole: drawCurves(joins.crossing.whole), out: drawCurves(joins.crossing.out) },
    coming: drawCurves(joins.coming),
    ink: [...tile.ink.flat(), ...tile.joinInk, ...curves.flatMap(curveBoxes)],
    glyphs: [...glyphs],
  };
}

type Put = (placed: PlacedGlyph, role?: string, scale?: number) => string;

function drawNote(note: NoteShape, x: number, stem: Stem | undefined, put: Put): string {
  const { content, glyph } = note;
  const { up, flag } = note;
  let drawn = '';
  for (const { from, to, y } of note.ledgers)
    drawn += `<path class="${CLASS.stroke}" d="M${n(x + from)} ${n(y)}H${n(x + to)}"/>`;
  if (stem) drawn += stemLine(x, flag ? { ...stem, tip: stem.tip + (up ? 3 : -3) } : stem);
  note.heads.forEach((head, index) => {
    drawn += put({ glyph, x: x + head.x, y: head.y }, content.heads[index]?.role);
    const accidental = note.accidentals.get(index);
    if (accidental) drawn += put(shifted(accidental, x));
  });
  if (note.grace) drawn += drawGrace(note.grace, x, put);
  for (const parenthesis of note.parentheses) drawn += drawParenthesis(parenthesis, x, put);
  for (const dot of note.dots) drawn += put({ glyph: glyphAt(DOT), x: x + dot.x, y: dot.y });
  if (stem && flag) drawn += put(shifted(flagAt({ up, flag }, stem), x));
  return note.marked ? drawn + drawSigns(note.marked, x, put) : drawn;
}

/** The path is drawn where its note is. */
function drawGrace({ content, glyphs, path }: GraceShape, x: number, put: Put): string {
  const signs = glyphs.map((placed, index) =>
    put(shifted(placed, x), index === 0 ? content.role : undefined, GRACE_SCALE),
  );
  return `<g class="${CLASS.grace}">${signs.join('')}<path class="${CLASS.stroke}" d="${path}" transform="translate(${n(x)})"/></g>`;
}

const shifted = (placed: PlacedGlyph, by: number): PlacedGlyph => ({ ...placed, x: placed.x + by });

const stemLine = (x: number, stem: Stem): string =>
  `<path class="${CLASS.stroke}" d="M${n(x + stem.x)} ${n(stem.base)}V${n(stem.tip)}"/>`;

const drawPiece = ({ from, to, fromY, toY, thickness }: BeamPiece): string =>
  `<path d="M${n(from)} ${n(fromY)}L${n(to)} ${n(toY)}V${n(toY + thickness)}L${n(from)} ${n(fromY + thickness)}Z"/>`;

function drawTuplet({ digits, bracket }: LaidTuplet, put: Put): string {
  const drawn = digits.map((digit) => put(digit, undefined, FIGURE_SCALE)).join('');
  if (!bracket) return drawn;
  const { from, to, y, gap, hook } = bracket;
  return `${drawn}<path class="${CLASS.stroke}" d="M${n(from)} ${n(hook)}V${n(y)}H${n(gap.from)}M${n(gap.to)} ${n(y)}H${n(to)}V${n(hook)}"/>`;
}

const drawCurves = (curves: readonly Curve[]): string =>
  curves.map((curve) => `<path class="${CLASS.curve}" d="${curvePath(curve)}"/>`).join('');
