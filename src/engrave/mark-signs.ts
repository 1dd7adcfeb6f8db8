/** Signs of marks at a notehead: how much room each takes, and how it is drawn. */
import type { StaveNote } from 'vexflow/core';
import { MARK_SIGNS, type Mark, type MarkSign, rowOf } from '../score/mark.ts';
import { CLASS } from './classes.ts';
import { glyphAt } from './glyphs/metrics.ts';
import { n } from './markup.ts';
import { type StringContext, use } from './string-context.ts';

/** Where the signs of one note go. All of it is in units of the staff, whose lines are 10 apart. */
interface Place {
  /** The middle of the notehead. */
  readonly x: number;
  /** The head the signs are at: the one farthest from the stem. */
  readonly head: number;
  /** 1 where signs are below the head, -1 where they are above it. */
  readonly side: 1 | -1;
  /** Dots behind the head. */
  readonly dots: number;
  /** Where the sign nearest to it ends, on that side. */
  readonly at: number;
}

interface DrawnSign {
  readonly markup: string;
  readonly glyph?: string;
  /** Where the next sign begins, where this one is in the same column. */
  readonly at?: number;
  /** The highest and lowest place it reaches, where that may lie outside of what the note reaches. */
  readonly reach?: readonly [low: number, high: number];
}

interface Sign {
  /** How far it needs to either side of the head. */
  readonly before: number;
  readonly after: number;
  readonly draw: (place: Place) => DrawnSign;
}

const SIGNS: Readonly<Record<MarkSign, Sign>> = {
  dot: {
    before: 0,
    after: 0,
    draw: ({ x, side, at: from }) => {
      // A dot is in a space of the staff, never on one of its lines.
      const next = from + side * 10;
      const at = next % 10 === 0 && next > -5 && next < 45 ? next + side * 5 : next;
      return { ...glyph(side === 1 ? 0xe4a3 : 0xe4a2, x, at - side * 1.7), at, reach: [at - 3, at + 3] };
    },
  },
  wedge: {
    before: 0,
    after: 0,
    draw: ({ x, side, at: from }) => {
      const at = side === 1 ? Math.max(from + 6, 45) : Math.min(from - 6, -5);
      const end = at + side * 10;
      return { ...glyph(side === 1 ? 0xe4a1 : 0xe4a0, x, at), at, reach: [Math.min(at, end), Math.max(at, end)] };
    },
  },
  scoop: {
    before: 11,
    after: 0,
    draw: ({ x, head }) => ({
      markup: `<path class="${CLASS.stroke}" d="M${n(x - 17)} ${n(head + 7)}Q${n(x - 13)} ${n(head + 7)} ${n(x - 8)} ${n(head + 1)}"/>`,
    }),
  },
  drop: {
    before: 0,
    after: 14,
    draw: ({ x, head, dots }) => {
      const from = x + dots * 6;
      return {
        markup: `<path class="${CLASS.stroke}" d="M${n(from + 9)} ${n(head)}Q${n(from + 16)} ${n(head + 1)} ${n(from + 19)} ${n(head + 10)}"/>`,
        reach: [head, head + 11],
      };
    },
  },
};

function glyph(code: number, x: number, y: number): Pick<DrawnSign, 'markup' | 'glyph'> {
  const { code: name, advance } = glyphAt(code);
  return { markup: use(name, x - advance / 2, y), glyph: name };
}

/** The signs of a note's marks, in the order in which they are drawn. */
export const signsOf = (marks: readonly Mark[]): readonly MarkSign[] => {
  const own = marks.flatMap(({ name }) => {
    const { drawing } = rowOf(name);
    return 'sign' in drawing ? [drawing.sign] : [];
  });
  return MARK_SIGNS.filter((sign) => own.includes(sign));
};

/** How far signs need to either side of the head. */
export const roomOf = (signs: readonly MarkSign[]): { readonly before: number; readonly after: number } => ({
  before: Math.max(0, ...signs.map((sign) => SIGNS[sign].before)),
  after: Math.max(0, ...signs.map((sign) => SIGNS[sign].after)),
});

interface Marked {
  readonly x: number;
  readonly dots: number;
  readonly marks: readonly MarkSign[];
}

/** Draws them on the side of the head, and reports to `reach` how far up and down they go. */
export function drawSigns(
  note: StaveNote,
  { x, dots, marks }: Marked,
  context: StringContext,
  reach: (low: number, high: number) => void,
): string {
  if (marks.length === 0) return '';
  const ys = note.getYs();
  const side = note.hasStem() && note.getStemDirection() === 1 ? 1 : -1;
  const head = side === 1 ? Math.max(...ys) : Math.min(...ys);
  let at = head;
  let markup = '';
  for (const sign of marks) {
    const drawn = SIGNS[sign].draw({ x, head, side, dots, at });
    markup += drawn.markup;
    if (drawn.glyph !== undefined) context.glyphs.add(drawn.glyph);
    if (drawn.reach) reach(...drawn.reach);
    at = drawn.at ?? at;
  }
  return markup;
}
