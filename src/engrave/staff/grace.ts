/**
 * The grace note before a note: a small eighth with a stroke through its stem, which goes up. Elaine Gould, “Behind Bars”, chapter 5,
 * from memory: about three fifths of the size of a note, its stem up whatever that of the note does.
 */
import { glyphAt } from '../glyphs/metrics.ts';
import { glyphBox, type InkBox, type PlacedGlyph } from './box.ts';
import type { HeadContent } from './head-content.ts';
import { LINE } from './line.ts';

/** A grace note at its place left of a note; x is counted from the middle of that note’s head. */
export interface GraceShape {
  readonly content: HeadContent;
  /** The head first, which has the colour of its role. */
  readonly glyphs: readonly PlacedGlyph[];
  /** Its stem with the stroke, and ledger lines. */
  readonly path: string;
  readonly boxes: readonly InkBox[];
}

/** The size of its glyphs. */
export const GRACE_SCALE = 0.65;

const HEAD = 0xe0a4;
const FLAG = 0xe240;
/** From the ink of the note to the head, and from the head to its accidental. */
const GAP = 3;
const ACCIDENTAL_GAP = 2;
const STEM = 23;
/** How far a ledger line reaches beyond the head. */
const LEDGER_REACH = 2;

/** Places a grace note left of what a note covers. */
export function layGrace(content: HeadContent, left: number): GraceShape {
  const head = glyphAt(HEAD);
  const flag = glyphAt(FLAG);
  const { y } = content;
  const width = head.advance * GRACE_SCALE;
  const right = left - GAP - Math.max(0, flag.right * GRACE_SCALE - LINE / 2);
  const x = right - width;
  const stemX = right - LINE / 2;
  const tip = y - STEM;
  const glyphs: PlacedGlyph[] = [
    { glyph: head, x, y },
    { glyph: flag, x: stemX - (LINE * GRACE_SCALE) / 2, y: tip - flag.top * GRACE_SCALE },
  ];
  const ledgers = ledgersTo(y);
  const edge = ledgers.length > 0 ? x - LEDGER_REACH : x;
  if (content.accidental !== undefined) {
    const sign = glyphAt(content.accidental);
    glyphs.push({ glyph: sign, x: edge - ACCIDENTAL_GAP - sign.right * GRACE_SCALE, y });
  }
  const stroke = { left: stemX - 5, right: stemX + 6, top: tip + 3, bottom: tip + 13 };
  const path =
    `M${stemX} ${y - 1}V${tip}M${stroke.left} ${stroke.bottom}L${stroke.right} ${stroke.top}` +
    ledgers.map((at) => `M${x - LEDGER_REACH} ${at}H${right + LEDGER_REACH}`).join('');
  return {
    content,
    glyphs,
    path,
    boxes: [
      ...glyphs.map((placed) => glyphBox(placed, GRACE_SCALE)),
      { left: stemX - LINE / 2, right: stemX + LINE / 2, top: tip, bottom: y },
      stroke,
      ...ledgers.map((at) => ({
        left: x - LEDGER_REACH,
        right: right + LEDGER_REACH,
        top: at - LINE / 2,
        bottom: at + LINE / 2,
      })),
    ],
  };
}

/** The ledger lines from the staff to a head. */
function ledgersTo(y: number): number[] {
  const lines: number[] = [];
  for (let at = -10; at >= y; at -= 10) lines.push(at);
  for (let at = 50; at <= y; at += 10) lines.push(at);
  return lines;
}
