/**
 * The numbers of verses at the head of each row. Which tiles are in a row depends on the width of the page, so each tile that begins one
 * has the numbers of all that may follow it there, and `grid.css` shows those of its row.
 */
import { isSoundEvent } from '../../score/queries.ts';
import type { LineOfWords } from '../../score/verses.ts';
import { itemAt, valueAt } from '../../values/checked.ts';
import { CLASS } from '../classes.ts';
import { n } from '../markup.ts';
import type { Segment } from '../segment.ts';
import { baselineOf } from './text-under.ts';

/** What a tile has of the numbers. */
export interface VerseNumbers {
  readonly markup: string;
  /** Down to the last line with a number. */
  readonly lines: number;
}

/** A tile, with the class that says where it begins a row (rows.ts). */
export interface NumberedTile {
  readonly segment: Segment;
  readonly begins: string;
}

/** From the numbers to the first tile, over the row head. */
const GAP = 3;

/** A class for each choice of the numbers of tiles to a row: what is shown in those alone (`grid.css`). */
const SHOWN: ReadonlyMap<string, string> = new Map([
  ['1', `${CLASS.cut} b0`],
  ['2', `${CLASS.joined} b4`],
  ['4', `${CLASS.joined} b2`],
  ['12', `${CLASS.cut} b2`],
  ['14', `${CLASS.cut} b4`],
  ['24', `${CLASS.joined} b0`],
  ['124', `${CLASS.cut} b24`],
]);

/** The numbers that a tile may begin a row with. */
export function verseNumbers(
  tiles: readonly NumberedTile[],
  index: number,
  lines: readonly LineOfWords[],
): VerseNumbers {
  const begins = tiles[index]?.begins ?? '';
  if (lines.every(({ verse }) => verse === undefined) || !/\d/.test(begins)) return { markup: '', lines: 0 };
  /** The lines with a number in the row that begins here. */
  const inRowOf = (columns: number): ReadonlySet<number> => {
    if (columns > 1 && !begins.includes(`${columns}`)) return new Set();
    const beginsNext = (tile: NumberedTile): boolean =>
      columns === 1 ? /\d/.test(tile.begins) : tile.begins.includes(`${columns}`);
    const after = tiles.slice(index + 1).findIndex(beginsNext);
    const row = tiles.slice(index, after < 0 ? tiles.length : index + 1 + after);
    const found = row.map((tile) => linesIn(tile, lines));
    const inRow = new Set(found.flat());
    // Words that are sung each time have no number, unless others are beside them. Those of a later ending are of one verse.
    const isPlain =
      inRow.size <= 1 && row.every((_, at) => itemAt(found, at).every((line) => itemAt(lines, line).verse === 1));
    return isPlain ? new Set() : inRow;
  };
  const rows = [1, 2, 4].map((columns) => ({ columns, shown: inRowOf(columns) }));
  let last = -1;
  const markup = lines.map(({ verse }, line) => {
    const shownIn = rows.filter(({ shown }) => shown.has(line)).map(({ columns }) => columns);
    if (shownIn.length === 0) return '';
    last = line;
    const className = valueAt(SHOWN, shownIn.join(''));
    return `<text class="${CLASS.verseNumber} ${className}" x="${-GAP}" y="${n(baselineOf(line))}">${verse}.</text>`;
  });
  return { markup: markup.join(''), lines: last + 1 };
}

/** The lines that have something in a tile. */
const linesIn = ({ segment }: NumberedTile, lines: readonly LineOfWords[]): number[] =>
  lines.flatMap(({ of }, line) =>
    segment.columns.some(({ first, event }) => first && isSoundEvent(event) && of(event)) ? [line] : [],
  );
