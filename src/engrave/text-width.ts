/**
 * Widths of the page's text font, for keeping words apart. The tiles ask for Arial, Helvetica, Liberation Sans or Arimo,
 * which all have these advance widths; where a device has none of them its own sans-serif is a little narrower or wider,
 * and what is centred stays centred.
 */

/** Advance widths in thousandths of an em, by the characters that share one. A browser test measures them. */
const REGULAR: Readonly<Record<string, number>> = {
  'ijl’‘': 222,
  ' !,./:;I[\\]ft|': 278,
  "'": 191,
  '-()r`”“': 333,
  '"': 355,
  Jckxsvyz: 500,
  'L#$0123456789_?abdeghnopqu–': 556,
  '+<=>~': 584,
  FTZ: 611,
  'ABEKPSVXY&': 667,
  wCDHNRU: 722,
  GOQ: 778,
  mM: 833,
  W: 944,
};
const OTHER = 600;

const widths = new Map<string, number>();
for (const [characters, width] of Object.entries(REGULAR))
  for (const character of characters) widths.set(character, width);

/** Bold letters of these fonts are wider by a varying little: at most this much for the words we set. */
const BOLD = 1.07;

/** The width of a line of text at a font size, in the same unit. */
export function textWidth(text: string, size: number, bold = false): number {
  let width = 0;
  for (const character of text) width += widths.get(character) ?? OTHER;
  return (width * size * (bold ? BOLD : 1)) / 1000;
}

/** A text in lines no wider than `width`, broken between words. A word that is wider has a line of its own. */
export function linesOfText(text: string, width: number, size: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
