/** A block as one picture: an SVG file of its own, four tiles to a row as on paper, with its outlines and its style in it. */
import { escapeText, n } from '../markup.ts';
import { pictureStyle } from './style.ts';

/** What a picture is put together from: drawings as the page has them, too. */
export interface PictureParts {
  /** What the picture shows, in words. */
  readonly name: string;
  readonly title: string | undefined;
  /** SVG elements, in order, each with its own view box. */
  readonly tiles: readonly PictureTile[];
  /** The width of a tile, the width of a row head, and the height of both, in pixels. */
  readonly width: number;
  readonly headWidth: number;
  readonly height: number;
  /** An SVG element. */
  readonly rowHead: string;
  /** Elements with the outlines that the others use. */
  readonly outlines: string;
  /** The text of `block.css`. */
  readonly css: string;
}

/** One tile of a picture. */
export interface PictureTile {
  readonly markup: string;
  /** Whether a row of four begins with it. */
  readonly beginsRow: boolean;
}

const MARGIN = 12;
const ROW_GAP = 10;
const TITLE_HEIGHT = 30;

/** The file, in UTF-8. */
export function pictureOf(parts: PictureParts): string {
  const { tiles, width, headWidth, height, title } = parts;
  const top = MARGIN + (title === undefined ? 0 : TITLE_HEIGHT);
  const drawn: string[] = [];
  let row = -1;
  let column = 0;
  let columns = 0;
  for (const { markup, beginsRow } of tiles) {
    if (beginsRow || row < 0) {
      row++;
      column = 0;
      drawn.push(placed(parts.rowHead, MARGIN, top + row * (height + ROW_GAP), headWidth, height));
    }
    const x = MARGIN + headWidth + column * width;
    drawn.push(placed(markup, x, top + row * (height + ROW_GAP), width, height));
    column++;
    columns = Math.max(columns, column);
  }
  const size = {
    width: 2 * MARGIN + headWidth + columns * width,
    height: top + (row + 1) * (height + ROW_GAP) - ROW_GAP + MARGIN,
  };
  const box = `0 0 ${n(size.width)} ${n(size.height)}`;
  const heading =
    title === undefined
      ? ''
      : `<text class="picture-title" x="${MARGIN}" y="${MARGIN + 14}">${escapeText(title)}</text>`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" class="tab-block tab-grid" role="img" viewBox="${box}" width="${n(size.width)}" height="${n(size.height)}">` +
    `<title>${escapeText(parts.name)}</title>` +
    `<style>${pictureStyle(parts.css)}\n.tab-grid .picture-title{font-size:18px;font-weight:700}</style>` +
    `<defs>${parts.outlines}</defs><rect width="100%" height="100%" fill="#ffffff"/>${heading}${drawn.join('')}</svg>\n`
  );
}

/** An SVG element at a place of the picture. */
const placed = (svg: string, x: number, y: number, width: number, height: number): string =>
  svg.replace('<svg ', `<svg x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" overflow="visible" `);
