/** Signs of marks at a notehead: how much room each takes, and how it is drawn. */
import { MARK_SIGNS, type Mark, type MarkSign, rowOf } from '../../score/mark.ts';
import { CLASS } from '../classes.ts';
import { glyphAt } from '../glyphs/metrics.ts';
import { n } from '../markup.ts';
import { glyphBox, type InkBox, type PlacedGlyph } from './box.ts';

/** Where the signs of one note go. All of it is in units of the staff, whose lines are 10 apart. */
interface Place {
  /** The middle of the notehead. */
  readonly x: number;
  /** The head the signs are at: the one farthest from the stem. */
  readonly head: number;
  /** 1 where signs are below the head, -1 where they are above it. */
  readonly side: 1 | -1;
  /** How far its heads, accidentals and dots reach. */
  readonly left: number;
  readonly right: number;
  /** Where the sign nearest to it ends, on that side. */
  readonly at: number;
}

/** A glyph or a line, and what it covers. */
export interface DrawnSign {
  readonly glyph?: PlacedGlyph;
  readonly line?: string;
  readonly box: InkBox;
  /** Where the next sign begins, where this one is in the same column. */
  readonly at?: number;
}

/** What is between the heads, accidentals and dots of a note and a line beside it. */
const BESIDE = 2;

const SIGNS: Readonly<Record<MarkSign, (place: Place) => DrawnSign>> = {
  dot: ({ x, side, at: from }) => {
    const at = spaceBeside(from, side);
    return { ...glyph(side === 1 ? 0xe4a3 : 0xe4a2, x, at - side * 1.7), at };
  },
  bar: ({ x, side, at: from }) => {
    const at = spaceBeside(from, side);
    return { ...glyph(side === 1 ? 0xe4a5 : 0xe4a4, x, at - side * 0.9), at };
  },
  wedge: ({ x, side, at: from }) => {
    const at = side === 1 ? Math.max(from + 6, 45) : Math.min(from - 6, -5);
    return { ...glyph(side === 1 ? 0xe4a1 : 0xe4a0, x, at), at: at + side * 10 };
  },
  scoop: ({ left, head }) => {
    const to = left - BESIDE;
    return {
      line: `M${n(to - 9)} ${n(head + 7)}Q${n(to - 5)} ${n(head + 7)} ${n(to)} ${n(head + 1)}`,
      box: { left: to - 10, right: to + 0.5, top: head, bottom: head + 8 },
    };
  },
  drop: ({ right, head }) => {
    const from = right + BESIDE + 1;
    return {
      line: `M${n(from)} ${n(head)}Q${n(from + 7)} ${n(head + 1)} ${n(from + 10)} ${n(head + 10)}`,
      box: { left: from - 1, right: from + 11, top: head - 1, bottom: head + 11 },
    };
  },
};

/** A sign over what is no head, such as a number in the lanes, at the middle of its column. */
export const signAbove = (sign: MarkSign, x: number): DrawnSign =>
  SIGNS[sign]({ x, head: 0, side: -1, left: x - BESIDE, right: x + BESIDE, at: 0 });

/** The middle of the space beside a head or sign: what is small is in a space, never on a line of the staff or a ledger line. */
function spaceBeside(from: number, side: 1 | -1): number {
  const next = from + side * 10;
  // From a head outside of the staff, ledger lines lead to it.
  const lines = side === 1 ? next < 45 : next > -5;
  return next % 10 === 0 && lines ? next + side * 5 : next;
}

function glyph(code: number, x: number, y: number): Required<Pick<DrawnSign, 'glyph' | 'box'>> {
  const placed = { glyph: glyphAt(code), x: x - glyphAt(code).advance / 2, y };
  return { glyph: placed, box: glyphBox(placed) };
}

/** The signs of a note's marks, in the order in which they are drawn. */
export const signsOf = (marks: readonly Mark[]): readonly MarkSign[] => {
  const own = marks.flatMap(({ name }) => {
    const { drawing } = rowOf(name);
    return 'sign' in drawing ? [drawing.sign] : [];
  });
  return MARK_SIGNS.filter((sign) => own.includes(sign));
};

/** What signs are put around, seen from the middle of the head. */
export interface Marked {
  readonly marks: readonly MarkSign[];
  readonly ys: readonly number[];
  readonly stemUp: boolean;
  /** How far heads, accidentals and dots reach. */
  readonly left: number;
  readonly right: number;
}

/** What the signs of a note cover, seen from the middle of its head. */
export const signBoxes = (note: Marked): readonly InkBox[] => placed(note, 0).map(({ box }) => box);

/** Draws the signs of a note at its place: on the side of the head, one outside of the other. */
export const drawSigns = (note: Marked, x: number, put: (glyph: PlacedGlyph) => string): string =>
  placed(note, x)
    .map(({ glyph, line }) => (glyph ? put(glyph) : `<path class="${CLASS.stroke}" d="${line}"/>`))
    .join('');

function placed({ marks, ys, stemUp, left, right }: Marked, x: number): DrawnSign[] {
  if (marks.length === 0) return [];
  const side = stemUp ? 1 : -1;
  const head = side === 1 ? Math.max(...ys) : Math.min(...ys);
  let at = head;
  return marks.map((sign) => {
    const drawn = SIGNS[sign]({ x, head, side, left: x + left, right: x + right, at });
    at = drawn.at ?? at;
    return drawn;
  });
}
