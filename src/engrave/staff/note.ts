/**
 * A note, chord or rest on the staff: where its heads, accidentals, dots, ledger lines, stem and flag are, seen from the middle
 * of its head. Rules are those of Elaine Gould, “Behind Bars”, chapters 1 to 3, from memory, where no other source is named.
 */
import type { EndSign, MarkSign } from '../../score/mark.ts';
import type { Slur } from '../../score/slurs.ts';
import { itemAt } from '../../values/checked.ts';
import { type Glyph, glyphAt } from '../glyphs/metrics.ts';
import { glyphBox, type InkBox, type PlacedGlyph, type Point } from './box.ts';
import { type GraceShape, layGrace } from './grace.ts';
import type { HeadContent } from './head-content.ts';
import { LINE } from './line.ts';
import { type Marked, signBoxes } from './mark-signs.ts';
import { type Parenthesis, parenthesesAround } from './parentheses.ts';

/** What is to be drawn of a note. */
export interface NoteContent {
  /** 4 for a quarter, 0.5 for a double whole note. */
  readonly value: number;
  readonly dots: number;
  /** From the lowest up; empty for a rest. */
  readonly heads: readonly HeadContent[];
  readonly marks: readonly MarkSign[];
  /** Its heads are in parentheses. */
  readonly hinted: boolean;
  readonly endSigns: readonly EndSign[];
  /** A grace note before it. */
  readonly grace?: HeadContent;
  /** The sign of a repeated bar in place of a rest. */
  readonly again?: true;
  /** Tied to the note after it, perhaps in the next tile. */
  readonly tied: boolean;
  /** What slurs do at it: from it, to it, and from it on to the note after it. */
  readonly slur: Slur;
}

/** The slur of a note that has none. */
export const NO_SLUR: Slur = { starts: false, stops: false, open: false };

/** A note with a place for each of its parts. x is counted from the middle of its head, y from the top line. */
export interface NoteShape {
  readonly content: NoteContent;
  /** Whether its stem goes up, or would. */
  readonly up: boolean;
  /** The notehead, or the rest. */
  readonly glyph: Glyph;
  /** Where each head is, from the lowest up; the one place of a rest. */
  readonly heads: readonly Point[];
  /** By the number of the head. */
  readonly accidentals: ReadonlyMap<number, PlacedGlyph>;
  readonly dots: readonly Point[];
  readonly ledgers: readonly Ledger[];
  readonly parentheses: readonly Parenthesis[];
  readonly grace: GraceShape | undefined;
  readonly stem: Stem | undefined;
  readonly flag: Glyph | undefined;
  /** What the signs of its marks are put around; undefined for a rest. */
  readonly marked: Marked | undefined;
  /** Everything but stem and flag. */
  readonly boxes: readonly InkBox[];
}

export interface Ledger {
  readonly from: number;
  readonly to: number;
  readonly y: number;
}

export interface Stem {
  readonly x: number;
  /** At the head it starts from. */
  readonly base: number;
  readonly tip: number;
}

/** Half a notehead’s height. */
export const HALF_HEAD = 5;
/** The y of the middle line. */
export const MIDDLE = 20;
export const BOTTOM = 40;

const HEADS = { breve: 0xe0a0, whole: 0xe0a2, half: 0xe0a3, black: 0xe0a4 };
const RESTS: ReadonlyMap<number, number> = new Map([
  [0.5, 0xe4e2],
  [1, 0xe4e3],
  [2, 0xe4e4],
  [4, 0xe4e5],
  [8, 0xe4e6],
  [16, 0xe4e7],
  [32, 0xe4e8],
  [64, 0xe4e9],
  [128, 0xe4ea],
]);
const SHORTEST = 128;
/** `repeat1Bar` of SMuFL. */
export const REPEATED_BAR = 0xe500;
/** The whole rest hangs from the second line, all others lie around the middle one. */
const WHOLE_REST = 10;
const DOT = 0xe1e7;

/** Between a head and its accidental, and between two accidentals. */
const ACCIDENTAL_GAP = 3;
/** From a head, a flag or a dot to the dot after it. */
const DOT_GAP = 3;
/** How far a ledger line reaches beyond its head. */
const LEDGER_REACH = 3;
/** Standard Music Font Layout, `stemUpSE` of a notehead: where on its side a stem starts, in the same units. */
const STEM_ANCHOR = 1.68;
/** A stem is an octave long. */
const STEM_LENGTH = 35;
/** From one beam or flag to the next. */
export const BEAM_STEP = 7.5;

export const headGlyph = (value: number): Glyph =>
  glyphAt(value < 1 ? HEADS.breve : value === 1 ? HEADS.whole : value === 2 ? HEADS.half : HEADS.black);

/** How many flags or beams a value has: 1 for an eighth. */
export const flagsOf = (value: number): number => Math.max(0, Math.log2(Math.min(value, SHORTEST)) - 2);

/** How long a stem is where nothing else decides: longer for more beams or flags than two. */
export const stemLength = (flags: number): number => STEM_LENGTH + BEAM_STEP * Math.max(0, flags - 2);

/** Places the parts of a note. Under a beam it has no flag, and the end of its stem is decided later. */
export function layNote(content: NoteContent, up: boolean, beamed: boolean): NoteShape {
  if (content.heads.length === 0) return layRest(content, up);
  const glyph = headGlyph(content.value);
  const ys = content.heads.map(({ y }) => y);
  const heads = headPlaces(ys, up, glyph.advance);
  const ledgers = ledgersOf(heads, glyph.advance);
  const flags = content.value >= 8 ? flagsOf(content.value) : 0;
  const flag = beamed || flags === 0 ? undefined : glyphAt(0xe240 + 2 * (flags - 1) + (up ? 0 : 1));
  const headBoxes = heads.map(({ x, y }) => glyphBox({ glyph, x, y }));
  const ledgerBoxes = ledgers.map(({ from, to, y }) => ({
    left: from,
    right: to,
    top: y - LINE / 2,
    bottom: y + LINE / 2,
  }));
  const parentheses = content.hinted ? parenthesesAround(headBoxes, ledgerBoxes) : [];
  const parenthesisBoxes = parentheses.map(({ box }) => box);
  const accidentals = accidentalPlaces(content.heads, heads, glyph, ledgers, parenthesisBoxes);
  // Beside a flag are the ledger lines; above the end of one that goes up heads on the other side of the stem, under that of one
  // that goes down the side of the lowest head; and a closing parenthesis.
  const besideFlag = flag
    ? [
        ...ledgerBoxes,
        ...parenthesisBoxes,
        ...headBoxes.flatMap((box) => (up ? (box.left > 0 ? [box] : []) : [sideOfHead(box)])),
      ]
    : [];
  const stem = content.value > 1 ? stemOf(ys, up, flags, flag, glyph, besideFlag) : undefined;
  const dots = dotPlaces(
    content,
    heads,
    glyph,
    Math.max(stem && flag && up ? stem.x + flag.right : 0, ...parenthesisBoxes.map(({ right }) => right)),
  );
  const boxes = [
    ...headBoxes,
    ...parenthesisBoxes,
    ...[...accidentals.values()].map((placed) => glyphBox(placed)),
    ...dots.map(({ x, y }) => glyphBox({ glyph: glyphAt(DOT), x, y })),
  ];
  const marked = {
    marks: content.marks,
    ys,
    stemUp: up && stem !== undefined,
    left: Math.min(...boxes.map(({ left }) => left)),
    right: Math.max(...boxes.map(({ right }) => right)),
  };
  boxes.push(...ledgerBoxes, ...signBoxes(marked));
  const grace = content.grace && layGrace(content.grace, Math.min(...boxes.map(({ left }) => left)));
  boxes.push(...(grace?.boxes ?? []));
  return { content, up, glyph, heads, accidentals, dots, ledgers, parentheses, grace, stem, flag, marked, boxes };
}

function layRest(content: NoteContent, up: boolean): NoteShape {
  const glyph = glyphAt(content.again ? REPEATED_BAR : (RESTS.get(Math.min(content.value, SHORTEST)) ?? 0xe4ea));
  const y = content.again ? MIDDLE - (glyph.top + glyph.bottom) / 2 : content.value === 1 ? WHOLE_REST : MIDDLE;
  const place = { x: -(glyph.left + glyph.right) / 2, y };
  const dots = dotRow(content.dots, place.x + glyph.right, MIDDLE - 5);
  return {
    content,
    up,
    glyph,
    heads: [place],
    accidentals: new Map(),
    dots,
    ledgers: [],
    parentheses: [],
    grace: undefined,
    stem: undefined,
    flag: undefined,
    marked: undefined,
    boxes: [glyphBox({ glyph, ...place }), ...dots.map((dot) => glyphBox({ glyph: glyphAt(DOT), ...dot }))],
  };
}

/** Of two heads a step apart or on one place, one goes to the other side of the stem: the upper one to its right. */
function headPlaces(ys: readonly number[], up: boolean, width: number): Point[] {
  if (ys.length === 1) return ys.map((y) => ({ x: -width / 2, y }));
  const across = new Set<number>();
  const order = up ? ys.map((_, at) => at) : ys.map((_, at) => ys.length - 1 - at);
  order.forEach((at, index) => {
    const before = order[index - 1];
    if (before === undefined || across.has(before)) return;
    if (Math.abs(itemAt(ys, at) - itemAt(ys, before)) < 2 * HALF_HEAD) across.add(at);
  });
  const side = up ? 1 : -1;
  return ys.map((y, at) => ({ x: -width / 2 + (across.has(at) ? side * (width - LINE) : 0), y }));
}

function ledgersOf(heads: readonly Point[], width: number): Ledger[] {
  const ledgers: Ledger[] = [];
  if (heads.every(({ y }) => y > -10 && y < BOTTOM + 10)) return ledgers;
  const add = (y: number, reaches: (head: Point) => boolean): void => {
    const xs = heads.filter(reaches).map(({ x }) => x);
    ledgers.push({ y, from: Math.min(...xs) - LEDGER_REACH, to: Math.max(...xs) + width + LEDGER_REACH });
  };
  const top = Math.min(...heads.map(({ y }) => y));
  const bottom = Math.max(...heads.map(({ y }) => y));
  for (let y = -10; y >= top; y -= 10) add(y, (head) => head.y <= y);
  for (let y = BOTTOM + 10; y <= bottom; y += 10) add(y, (head) => head.y >= y);
  return ledgers;
}

/**
 * The highest is nearest to the heads, then the lowest, then the next of both; each goes as far left as it must to be clear of
 * the heads, of ledger lines, of parentheses and of those placed before it.
 */
function accidentalPlaces(
  content: readonly HeadContent[],
  heads: readonly Point[],
  glyph: Glyph,
  ledgers: readonly Ledger[],
  parentheses: readonly InkBox[],
): Map<number, PlacedGlyph> {
  const placed = new Map<number, PlacedGlyph>();
  const waiting = content.flatMap(({ accidental }, at) => (accidental === undefined ? [] : [at])).reverse();
  if (waiting.length === 0) return placed;
  const fixed: InkBox[] = [
    ...heads.map(({ x, y }) => glyphBox({ glyph, x, y })),
    ...ledgers.map(({ from, y }) => ({ left: from + ACCIDENTAL_GAP - 1, right: 0, top: y - 1, bottom: y + 1 })),
    ...parentheses,
  ];
  for (let fromTop = true; waiting.length > 0; fromTop = !fromTop) {
    const at = (fromTop ? waiting.shift() : waiting.pop()) ?? 0;
    const sign = glyphAt(content[at]?.accidental ?? 0);
    const { y } = itemAt(heads, at);
    let x = itemAt(heads, at).x - ACCIDENTAL_GAP - sign.right;
    for (;;) {
      const own = glyphBox({ glyph: sign, x, y });
      const other = [...fixed, ...[...placed.values()].map((one) => glyphBox(one))].find(
        (box) =>
          own.top < box.bottom &&
          box.top < own.bottom &&
          own.right + ACCIDENTAL_GAP > box.left + 1e-6 &&
          own.left < box.right,
      );
      if (!other) break;
      x = other.left - ACCIDENTAL_GAP - sign.right;
    }
    placed.set(at, { glyph: sign, x, y });
  }
  return placed;
}

/** Dots are in the spaces, for a head on a line in the space above it, or below where that has one. */
function dotPlaces({ dots }: NoteContent, heads: readonly Point[], glyph: Glyph, clearOf: number): Point[] {
  if (dots === 0) return [];
  const from = Math.max(...heads.map(({ x }) => x + glyph.advance), clearOf);
  const rows = new Set<number>();
  for (const { y } of heads.toReversed()) {
    const onLine = Math.abs(y % 10) < 1e-6;
    let row = onLine ? y - 5 : y;
    while (rows.has(row)) row += 10;
    rows.add(row);
  }
  return [...rows].flatMap((row) => dotRow(dots, from, row));
}

const dotRow = (dots: number, from: number, y: number): Point[] =>
  Array.from({ length: dots }, (_, index) => ({
    x: from + DOT_GAP + index * (glyphAt(DOT).advance + DOT_GAP),
    y,
  }));

function stemOf(
  ys: readonly number[],
  up: boolean,
  flags: number,
  flag: Glyph | undefined,
  glyph: Glyph,
  obstacles: readonly InkBox[],
): Stem {
  const low = Math.max(...ys);
  const high = Math.min(...ys);
  const length = stemLength(flags);
  // Far from the middle a stem reaches the middle line.
  let tip = up ? Math.min(high - length, MIDDLE) : Math.max(low + length, MIDDLE);
  if (flag) tip = clearOf(tip, up, flag, obstacles);
  return {
    x: (up ? 1 : -1) * (glyph.advance / 2 - LINE / 2),
    base: up ? low - STEM_ANCHOR : high + STEM_ANCHOR,
    tip,
  };
}

/** A head is lower in its middle than beside a flag. */
const sideOfHead = (box: InkBox): InkBox => ({ ...box, bottom: box.bottom - 2.5 });

/** Between a flag and what is beside it. */
const FLAG_GAP = 2;

/** The end of a stem whose flag is clear of the ledger lines and the heads on its side, and so perhaps farther out. */
function clearOf(tip: number, up: boolean, flag: Glyph, obstacles: readonly InkBox[]): number {
  const depth = flag.bottom - flag.top + FLAG_GAP;
  return up
    ? Math.min(tip, ...obstacles.map(({ top }) => top - depth))
    : Math.max(tip, ...obstacles.map(({ bottom }) => bottom + depth));
}

/** What a stem and its flag cover. */
export function stemBoxes({ up, flag }: NoteShape, { x, base, tip }: Stem): InkBox[] {
  const stem = { left: x - LINE / 2, right: x + LINE / 2, top: Math.min(base, tip), bottom: Math.max(base, tip) };
  return flag ? [stem, glyphBox(flagAt({ up, flag }, { x, tip }))] : [stem];
}

/** Where a flag is drawn: at the left edge of its stem, its outer end level with the stem’s. */
export const flagAt = (
  { up, flag }: { readonly up: boolean; readonly flag: Glyph },
  { x, tip }: Pick<Stem, 'x' | 'tip'>,
): PlacedGlyph => ({ glyph: flag, x: x - LINE / 2, y: up ? tip - flag.top : tip - flag.bottom });

/** All that a note covers; `stem` where a beam has moved its end. */
export const inkOf = (note: NoteShape, stem = note.stem): readonly InkBox[] =>
  stem ? [...note.boxes, ...stemBoxes(note, stem)] : note.boxes;
