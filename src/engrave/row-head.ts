/** The row head: clef, key signature and the names of the lanes at the head of each row; the meter at the first. */
import { signatureOf } from '../harmony/key.ts';
import type { Score } from '../score/score.ts';
import type { Meter } from '../time/meter.ts';
import { CLASS } from './classes.ts';
import type { Clef } from './clef.ts';
import { glyphAt } from './glyphs/metrics.ts';
import { LANES, STAFF_HEIGHT } from './layout.ts';
import { n, use } from './markup.ts';
import type { Segment } from './segment.ts';

/** Widths by the number of signs in the signature; `grid-sizes.css` has the same. */
const CLEF_WIDTH = 34;
const SIGN_WIDTH = 9.5;
/** The line that a treble clef is on. */
const CLEF_LINE = 30;

/** The width of a row head in pixels, for a signature with so many signs. */
const rowHeadWidth = (signs: number): number => CLEF_WIDTH + (signs === 0 ? 0 : 3 + SIGN_WIDTH * signs);

/** Where the signs of a signature are, top line 0, 5 a step: common practice, no source. */
const SHARPS = [0, 15, -5, 10, 25, 5, 20];
const FLATS = [20, 5, 25, 10, 30, 15, 35];

/** The name of the blow lane is so far above the centre line, clear of the clef. */
const BLOW_BASELINE = 4;
/** The height of its letters, and how near the clef comes. */
const ASCENDER = 9.1;
const NAME_GAP = 1.5;

/** Room for a time signature on either side. */
const METER_GAP = 4;

/** The room of a time signature is so many times this; `grid-sizes.css` has the same. */
export const METER_STEP = 4;

/** The widths of a row head, and of the meter beside that of the first row. */
export const headWidths = (signs: number, meter: Meter): { readonly head: number; readonly meter: number } => ({
  head: rowHeadWidth(signs),
  meter: meterRoom(meter),
});

const meterRoom = (meter: Meter): number => Math.ceil((meterWidth(meter) + 2 * METER_GAP) / METER_STEP) * METER_STEP;

/** The most signs that a key signature of a block has: all its row heads have room for so many. */
export const mostSigns = (score: Pick<Score, 'key' | 'bars'>): number =>
  Math.max(...[score, ...score.bars].map(({ key }) => Math.abs(signatureOf(key))));

/** The room at the start of a bar for its new meter. */
export const startRoom = ({ changes: { meter } }: Pick<Segment, 'changes'>): number => (meter ? meterRoom(meter) : 0);

/** A new meter at the start of a bar: on the staff, and in the lanes for readers without it. */
export function drawNewMeter(
  meter: Meter,
): Pick<RowHeadMeter, 'staff' | 'lanes'> & { readonly glyphs: readonly string[] } {
  const { markup, glyphs } = meterDigits(meter, meterRoom(meter) / 2);
  return { staff: markup, lanes: meterInLanes(meter), glyphs };
}

const meterInLanes = (meter: Meter): string =>
  `<g class="${CLASS.lanesOnly}"><text class="row-head-word" x="${METER_GAP}" y="${n(LANES.centre - 5)}">${meter.beats}</text>` +
  `<text class="row-head-word" x="${METER_GAP}" y="${n(LANES.centre + 13)}">${meter.unit}</text></g>`;

/** What begins a row of bars, in two parts: on the staff, and in the lanes. */
export interface RowHead {
  readonly staff: string;
  readonly lanes: string;
  readonly width: number;
  /** How far clef and signs reach above the staff, beside chord symbols, and the clef below it. */
  readonly above: number;
  readonly below: number;
  /** From the staff to the part of the lanes: the clef is clear of their names. */
  readonly between: number;
  /** The time signature, right of the head of the first row. */
  readonly meter: RowHeadMeter;
  readonly glyphs: readonly string[];
}

export interface RowHeadMeter {
  readonly staff: string;
  readonly lanes: string;
  readonly width: number;
}

/**
 * Draws a row head of a block: with one of its key signatures (sharps, or flats below 0) in room for so many signs. The meter is that of
 * the first row.
 */
export function drawRowHead(signature: number, clef: Clef, meter: Meter, signs: number): RowHead {
  const { centre } = LANES;
  const { head: width, meter: roomOfMeter } = headWidths(signs, meter);
  const glyphs = new Set<string>();
  const put = (code: number, x: number, y: number): string => {
    glyphs.add(glyphAt(code).code);
    return use(glyphAt(code).code, x, y);
  };
  // Each row shows a copy, which only selectors of a single class reach: so its parts have classes of their own.
  let staff = `<path class="row-head-line" d="${staffLines(width)}"/>${put(clef.code, 3, CLEF_LINE)}`;
  const code = signature > 0 ? 0xe262 : 0xe260;
  const places = signature > 0 ? SHARPS : FLATS;
  const shown = places.slice(0, Math.abs(signature));
  shown.forEach((y, index) => {
    staff += put(code, CLEF_WIDTH + index * SIGN_WIDTH, y);
  });
  const topOfSigns = Math.min(0, ...shown.map((y) => y + glyphAt(code).top));
  const lanes =
    `<path class="row-head-line" d="M0 ${n(centre)}H${n(width + 0.3)}"/>` +
    `<text class="row-head-word" x="2" y="${n(centre - BLOW_BASELINE)}">blow</text>` +
    `<text class="row-head-word" x="2" y="${n(centre + 13)}">draw</text>`;
  const digits = meterDigits(meter, roomOfMeter / 2);
  for (const glyph of digits.glyphs) glyphs.add(glyph);
  const glyph = glyphAt(clef.code);
  const below = CLEF_LINE + glyph.bottom - STAFF_HEIGHT;
  return {
    staff,
    lanes,
    width,
    above: Math.max(-(CLEF_LINE + glyph.top), -topOfSigns),
    below,
    between: below + NAME_GAP - (centre - BLOW_BASELINE - ASCENDER),
    meter: {
      staff: `<path class="row-head-line" d="${staffLines(roomOfMeter)}"/>${digits.markup}`,
      lanes: `<path class="row-head-line" d="M-.3 ${n(centre)}H${n(roomOfMeter + 0.3)}"/>${meterInLanes(meter)}`,
      width: roomOfMeter,
    },
    glyphs: [...glyphs],
  };
}

const staffLines = (width: number): string => [0, 10, 20, 30, 40].map((y) => `M-.3 ${y}H${n(width + 0.3)}`).join('');

const digitsOf = (value: number) => [...String(value)].map((digit) => glyphAt(0xe080 + Number(digit)));
const widthOf = (glyphs: ReturnType<typeof digitsOf>): number => glyphs.reduce((sum, glyph) => sum + glyph.advance, 0);

/** The width of a time signature in pixels of the drawing. */
const meterWidth = (meter: Meter): number => Math.max(widthOf(digitsOf(meter.beats)), widthOf(digitsOf(meter.unit)));

/** The two figures of a meter, centred on a place. */
function meterDigits(meter: Meter, middle: number): { readonly markup: string; readonly glyphs: readonly string[] } {
  const glyphs = new Set<string>();
  const row = (value: number, y: number): string => {
    const digits = digitsOf(value);
    let x = middle - widthOf(digits) / 2;
    return digits
      .map((glyph) => {
        glyphs.add(glyph.code);
        const drawn = use(glyph.code, x, y);
        x += glyph.advance;
        return drawn;
      })
      .join('');
  };
  return { markup: row(meter.beats, 10) + row(meter.unit, 30), glyphs: [...glyphs] };
}
