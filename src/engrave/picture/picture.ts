/** A block as one picture: an SVG file of its own, at most four tiles to a row, with its outlines and its style in it. */
import { CLASS, PART, type PartKind } from '../classes.ts';
import { escapeText, n } from '../markup.ts';
import type { Tile, TilePart } from '../tile.ts';
import { pictureStyle } from './style.ts';

export { PART, PART_KINDS } from '../classes.ts';

/** A tile or a row head. */
export type PictureTile = Pick<Tile, 'width' | 'parts' | 'heights'>;

/** What a picture is put together from: drawings as the page has them, too. */
export interface PictureParts {
  /** What the picture shows, in words. */
  readonly name: string;
  readonly title: string | undefined;
  /** Each begins with its row head. */
  readonly rows: readonly (readonly PictureTile[])[];
  /** Elements with the outlines that the others use. */
  readonly outlines: string;
  /** The text of `block.css`. */
  readonly css: string;
}

const MARGIN = 12;
const ROW_GAP = 10;
const TITLE_HEIGHT = 30;

/** What a page hides in rows of four: what lanes show where there is no staff, and what crosses to another tile or does not. */
const HIDDEN = [
  `.${CLASS.lanesOnly}`,
  ...['b4', 'b24'].map((begins) => `.${CLASS.joined}.${begins}`),
  ...['b0', 'b2', 'bn'].map((begins) => `.${CLASS.cut}.${begins}`),
];

/** The file, in UTF-8. */
export function pictureOf({ rows, title, ...parts }: PictureParts): string {
  const top = MARGIN + (title === undefined ? 0 : TITLE_HEIGHT);
  const widths = rows.map((row) => row.reduce((sum, tile) => sum + tile.width, 0));
  const widest = Math.max(0, ...widths);
  let drawn = '';
  let y = top;
  rows.forEach((row, index) => {
    const { heights, height } = heightsOf(row);
    // Rows end at one place, or begin at one where the last is not full.
    const [first, second] = rows;
    const head = (tiles: readonly PictureTile[] = []): number => tiles[0]?.width ?? 0;
    const indent = index === 0 || !first || !second ? 0 : Math.max(0, leadOf(first, second) - head(row));
    let x = MARGIN + indent;
    for (const tile of row) {
      for (const part of tile.parts) {
        const below = heights.get(part.kind);
        // A picture has the staff, and so no signs in its place.
        if (below !== undefined) drawn += placed(part, tile.width, x, y + below);
      }
      x += tile.width;
    }
    y += height + ROW_GAP;
  });
  const size = { width: 2 * MARGIN + widest, height: y - ROW_GAP + MARGIN };
  const box = `0 0 ${n(size.width)} ${n(size.height)}`;
  const heading =
    title === undefined
      ? ''
      : `<text class="picture-title" x="${MARGIN}" y="${MARGIN + 14}">${escapeText(title)}</text>`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" class="tab-block tab-grid" role="img" viewBox="${box}" width="${n(size.width)}" height="${n(size.height)}">` +
    `<title>${escapeText(parts.name)}</title>` +
    `<style>${pictureStyle(parts.css)}\n.tab-grid .picture-title{font-size:18px;font-weight:700}\n${HIDDEN.join(',')}{display:none}</style>` +
    `<defs>${parts.outlines}</defs><rect width="100%" height="100%" fill="#ffffff"/>${heading}${drawn}</svg>\n`
  );
}

/** How wide the first row is before the tiles that are as wide as those of the second. */
function leadOf(first: readonly PictureTile[], second: readonly PictureTile[]): number {
  const tile = second[1]?.width ?? 0;
  const lead = first.findIndex((one, index) => index > 0 && Math.abs(one.width - tile) < 0.01);
  return first.slice(0, Math.max(1, lead)).reduce((sum, one) => sum + one.width, 0);
}

/** Where each part of a row is, from its top: one under the other, as near as its tiles let them come. */
function heightsOf(row: readonly PictureTile[]): { heights: ReadonlyMap<PartKind, number>; height: number } {
  const most = (of: (tile: PictureTile) => number, among = row): number => Math.max(0, ...among.map(of));
  const partHeight = (kind: PartKind): number =>
    most(({ parts }) => parts.find((part) => part.kind === kind)?.height ?? 0);
  // A clef, which has no chord symbols over it, reaches beside them.
  const [heads, tiles] = [row.filter(isHead), row.filter((tile) => !isHead(tile))];
  const withWords = row.filter(({ parts }) => parts.some(({ kind }) => kind === 'words'));
  const jumps = partHeight('part');
  const ending = jumps + partHeight('jumps');
  const phrases = ending + partHeight('ending');
  const chords = phrases + partHeight('phrases');
  const staff = Math.max(
    chords + most(({ heights }) => heights.over, tiles),
    most(({ heights }) => heights.over, heads),
  );
  const below = staff + partHeight('staff');
  const words = below + most(({ heights }) => heights.staffBelow, withWords);
  const lanes = Math.max(
    words + partHeight('words') + most(({ heights }) => heights.lanesAbove, withWords),
    below +
      most(
        ({ heights }) => heights.between,
        row.filter((tile) => !withWords.includes(tile)),
      ),
  );
  const band = lanes + partHeight('lanes') + most(({ heights }) => heights.lanesBelow);
  const syllables = band + partHeight('band');
  const lyrics = syllables + partHeight('syllables');
  return {
    heights: new Map<PartKind, number>([
      ['part', 0],
      ['jumps', jumps],
      ['ending', ending],
      ['phrases', phrases],
      ['chords', chords],
      ['staff', staff],
      ['words', words],
      ['lanes', lanes],
      ['band', band],
      ['syllables', syllables],
      ['lyrics', lyrics],
    ]),
    height: lyrics + partHeight('lyrics'),
  };
}

/** A row head has nothing over its staff. */
const isHead = ({ parts }: PictureTile): boolean => !parts.some(({ kind }) => kind === 'chords');

const placed = ({ kind, height, body }: TilePart, width: number, x: number, y: number): string =>
  `<svg class="${PART[kind]}" x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" viewBox="0 0 ${n(width)} ${n(height)}" overflow="visible">${body}</svg>`;
