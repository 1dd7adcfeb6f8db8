/** The music glyphs' metrics, and a measuring canvas made of them for VexFlow, which would otherwise want a browser's. */
import { itemAt, valueAt } from '../../values/checked.ts';
import { OUTLINES } from './outlines.ts';

/** Units an em is drawn in in the page's sheet of outlines. */
export const UNITS_PER_EM = 40;

/** A glyph of the music font. */
export interface Glyph {
  /** Code point, in hexadecimal: its name in the page's sheet. */
  readonly code: string;
  /** In units, at a scale of 1; y grows downwards. */
  readonly advance: number;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const glyphs = new Map<string, Glyph>();
for (const [code, outline] of Object.entries(OUTLINES)) {
  const [advance, left, bottom, right, top] = outline;
  const units = (thousandths: number): number => (thousandths * UNITS_PER_EM) / 1000;
  glyphs.set(String.fromCodePoint(Number.parseInt(code, 16)), {
    code,
    advance: units(advance),
    left: units(left),
    top: units(-top),
    right: units(right),
    bottom: units(-bottom),
  });
}

/** The glyph of a character of the music font. Throws for one that is not in the extract: a bug here, not in a score. */
export function glyphOf(character: string): Glyph {
  const glyph = glyphs.get(character);
  if (!glyph) throw new Error(`U+${character.codePointAt(0)?.toString(16)} is not among the music outlines`);
  return glyph;
}

/** The glyph at a code point. Throws if the font table does not have it. */
export const glyphAt = (code: number): Glyph => glyphOf(String.fromCodePoint(code));

const PIXELS: ReadonlyMap<string, number> = new Map(Object.entries({ pt: 4 / 3, px: 1, em: 16 }));

/** The size in a CSS font shorthand. */
export function sizeInPixels(font: string): number {
  const match = /([\d.]+)(pt|px|em)/.exec(font);
  return match ? Number(match[1]) * valueAt(PIXELS, itemAt(match, 2)) : UNITS_PER_EM;
}

/** By font, then by text. */
const measured = new Map<string, Map<string, TextMetrics>>();

/** Metrics of a run of music glyphs. VexFlow measures some empty texts too. */
export function textMetrics(text: string, font: string): TextMetrics {
  const inFont = measured.get(font) ?? new Map<string, TextMetrics>();
  measured.set(font, inFont);
  const known = inFont.get(text);
  if (known) return known;
  const scale = sizeInPixels(font) / UNITS_PER_EM;
  let width = 0;
  let [left, right, top, bottom] = [0, 0, 0, 0];
  for (const character of text) {
    const glyph = glyphOf(character);
    left = Math.min(left, width + glyph.left);
    right = Math.max(right, width + glyph.right);
    top = width === 0 ? glyph.top : Math.min(top, glyph.top);
    bottom = width === 0 ? glyph.bottom : Math.max(bottom, glyph.bottom);
    width += glyph.advance;
  }
  const metrics: TextMetrics = {
    width: width * scale,
    actualBoundingBoxLeft: -left * scale,
    actualBoundingBoxRight: right * scale,
    actualBoundingBoxAscent: -top * scale,
    actualBoundingBoxDescent: bottom * scale,
    fontBoundingBoxAscent: 0,
    fontBoundingBoxDescent: 0,
    alphabeticBaseline: 0,
    emHeightAscent: 0,
    emHeightDescent: 0,
    hangingBaseline: 0,
    ideographicBaseline: 0,
  };
  inFont.set(text, metrics);
  return metrics;
}
