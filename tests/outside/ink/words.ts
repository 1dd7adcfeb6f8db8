/** Text that is too small to read, ink that is cut off, and ink outside of its place. */
import type { Box, DrawnBlock } from './collect.ts';
import type { Fault } from './collisions.ts';
import type { Inked } from './intended.ts';

/** CSS pixels on the screen at the usual text size. */
export const LEAST_TEXT = 10;
/** Height of a digit in fonts of letters, as a share of the font size (Liberation Sans: 1409 of 2048 units). */
const DIGIT_HEIGHT = 1409 / 2048;
/** So much of a pixel or of a unit of the drawing may be lost: lines go a little past the edge so that no seam shows. */
const SEEN = 0.5;

/** The font size of an element as a reader sees it; of figures in the music font, that of letters as high. */
export function textSizeOf({ kind, drawn, box, scale }: Inked): number | undefined {
  if (drawn.text !== undefined) return drawn.fontSize * scale;
  return kind === 'tuplet figure' ? (box[3] - box[1]) / DIGIT_HEIGHT : undefined;
}

export function smallTextIn(items: readonly Inked[]): readonly Fault[] {
  return items.flatMap((item) => {
    const size = textSizeOf(item);
    // Browsers round sizes to a fraction of a pixel.
    if (size === undefined || size >= LEAST_TEXT - 0.01) return [];
    const { kind, drawn, box } = item;
    return [
      { kind: `small: ${kind}`, detail: `“${drawn.text ?? ''}” is ${size.toFixed(2)} px high`, bar: drawn.bar, box },
    ];
  });
}

/** How far a box reaches out of another, in pixels. */
const beyond = (inner: Box, outer: Box): number =>
  Math.max(outer[0] - inner[0], outer[1] - inner[1], inner[2] - outer[2], inner[3] - outer[3]);

/** Ink that its picture or something around it cuts off, and ink that leaves the place of the block. */
export function strayInkIn({ box: place }: DrawnBlock, items: readonly Inked[]): readonly Fault[] {
  const own: Box = [0, 0, place[2] - place[0], place[3] - place[1]];
  return items.flatMap(({ kind, drawn, box, scale }) => {
    const seen = SEEN * Math.max(1, scale);
    const name = drawn.text === undefined ? kind : `${kind} “${drawn.text}”`;
    const cut = beyond(box, drawn.clip);
    if (cut > seen)
      return [{ kind: `clipped: ${kind}`, detail: `${name} loses ${cut.toFixed(1)} px`, bar: drawn.bar, box }];
    const out = beyond(box, own);
    if (out <= seen) return [];
    return [
      { kind: `outside: ${kind}`, detail: `${name} is ${out.toFixed(1)} px outside of its block`, bar: drawn.bar, box },
    ];
  });
}
