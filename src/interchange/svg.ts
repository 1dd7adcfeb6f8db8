/** A score as a picture in a file of its own. */
import { drawBlock } from '../engrave/block.ts';
import { pictureOf } from '../engrave/picture/picture.ts';
import { outlinesOf } from '../engrave/sheet.ts';
import { blockName } from '../engrave/text-alternative.ts';
import { TILE_WIDTHS } from '../engrave/tile-width.ts';
import type { Score } from '../score/score.ts';
import { itemAt } from '../values/checked.ts';
import type { Credits } from './credits.ts';

/** The score as SVG. `css` is the text of the engraver's style sheet. */
export function svgOf(score: Score, { title }: Pick<Credits, 'title'>, css: string): string {
  const { layout, rowHead, tiles, rowStarts, size, glyphs } = drawBlock(score, { id: 'b' });
  const height = layout.bottom - layout.top;
  const inRows = rowStarts.at(-1);
  return pictureOf({
    name: blockName(score),
    title,
    width: itemAt(TILE_WIDTHS, size),
    headWidth: rowHead.width,
    height,
    rowHead: `<svg class="row-head" viewBox="0 ${layout.top} ${rowHead.width} ${height}">${rowHead.markup}</svg>`,
    tiles: tiles.map(({ markup }, index) => ({ markup, beginsRow: inRows?.has(index) === true })),
    outlines: outlinesOf(glyphs),
    css,
  });
}
