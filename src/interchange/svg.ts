/** A score as a picture in a file of its own. */
import { drawBlock, pictureRows } from '../engrave/block.ts';
import { pictureOf } from '../engrave/picture/picture.ts';
import { outlinesOf } from '../engrave/sheet.ts';
import { blockName } from '../engrave/text-alternative.ts';
import type { Score } from '../score/score.ts';
import type { Credits } from './credits.ts';

/** The score as SVG. `css` is the text of the engraver's style sheet. */
export function svgOf(score: Score, { title }: Pick<Credits, 'title'>, css: string): string {
  const drawn = drawBlock(score);
  return pictureOf({
    name: blockName(score),
    title,
    rows: pictureRows(drawn),
    outlines: outlinesOf(drawn.glyphs),
    css,
  });
}
