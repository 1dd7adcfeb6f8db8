/** The metrics of the music glyphs. */
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

const glyphs = new Map<number, Glyph>();
for (const [code, outline] of Object.entries(OUTLINES)) {
  const [advance, left, bottom, right, top] = outline;
  const units = (thousandths: number): number => (thousandths * UNITS_PER_EM) / 1000;
  glyphs.set(Number.parseInt(code, 16), {
    code,
    advance: units(advance),
    left: units(left),
    top: units(-top),
    right: units(right),
    bottom: units(-bottom),
  });
}

/** The glyph at a code point. Throws for one that is not in the extract: a bug here, not in a score. */
export function glyphAt(code: number): Glyph {
  const glyph = glyphs.get(code);
  if (!glyph) throw new Error(`U+${code.toString(16)} is not among the music outlines`);
  return glyph;
}
