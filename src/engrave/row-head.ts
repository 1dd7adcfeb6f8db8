/** The row head: what is at the head of a row. Clef, key signature, and what the lanes are. */
import { type SongKey, signatureOf } from '../harmony/key.ts';
import type { Meter } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import type { Clef } from './clef.ts';
import { glyphAt } from './glyphs/metrics.ts';
import type { Layout } from './layout.ts';
import { n } from './markup.ts';
import { use } from './string-context.ts';

/** Widths by the number of signs in the signature; `block.css` has the same. */
const CLEF_WIDTH = 34;
const SIGN_WIDTH = 9.5;

/** The width of a row head in pixels, for a signature with so many signs. */
export const rowHeadWidth = (signs: number): number => CLEF_WIDTH + (signs === 0 ? 0 : 3 + SIGN_WIDTH * signs);

/** Where the signs of a signature are, top line 0, 5 a step: common practice, no source. */
const SHARPS = [0, 15, -5, 10, 25, 5, 20];
const FLATS = [20, 5, 25, 10, 30, 15, 35];

/** What begins a row of bars: clef, signature, names of the lanes. */
export interface RowHead {
  readonly markup: string;
  readonly glyphs: readonly string[];
  readonly width: number;
}

/** Draws the row head of a block. */
export function drawRowHead(key: SongKey, clef: Clef, layout: Layout): RowHead {
  const signature = signatureOf(key);
  const width = rowHeadWidth(Math.abs(signature));
  const glyphs = new Set<string>();
  const put = (code: number, x: number, y: number): string => {
    glyphs.add(glyphAt(code).code);
    return use(glyphAt(code).code, x, y);
  };
  const staff = [0, 10, 20, 30, 40].map((y) => `M0 ${y}H${n(width + 0.3)}`).join('');
  // Each row shows a copy, which only selectors of a single class reach: so its parts have classes of their own.
  let markup = `<path class="row-head-line" d="${staff}M0 ${n(layout.centre)}H${n(width + 0.3)}"/>`;
  markup += put(clef.code, 3, 30);
  const code = signature > 0 ? 0xe262 : 0xe260;
  const places = signature > 0 ? SHARPS : FLATS;
  for (let index = 0; index < Math.abs(signature); index++) {
    markup += put(code, CLEF_WIDTH + index * SIGN_WIDTH, itemAt(places, index));
  }
  markup +=
    `<text class="row-head-word" x="2" y="${n(layout.centre - 5)}">blow</text>` +
    `<text class="row-head-word" x="2" y="${n(layout.centre + 12)}">draw</text>`;
  return { markup, glyphs: [...glyphs], width };
}

const digitsOf = (value: number) => [...String(value)].map((digit) => glyphAt(0xe080 + Number(digit)));
const widthOf = (glyphs: ReturnType<typeof digitsOf>): number => glyphs.reduce((sum, glyph) => sum + glyph.advance, 0);

/** The width of a time signature in pixels of the drawing. */
export const meterWidth = (meter: Meter): number =>
  Math.max(widthOf(digitsOf(meter.beats)), widthOf(digitsOf(meter.unit)));

/** The two figures of a meter, centred on a place. */
export function meterDigits(
  meter: Meter,
  middle: number,
): { readonly markup: string; readonly glyphs: readonly string[] } {
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
