/** The brackets over phrases that a block repeats, in a row of their own: each has the phrase's name at its beginning. */
import { type Occurrence, phrasesOf } from '../../score/phrases.ts';
import type { Score } from '../../score/score.ts';
import { itemAt } from '../../values/checked.ts';
import { CLASS } from '../classes.ts';
import { SIZE } from '../columns.ts';
import { PHRASES } from '../layout.ts';
import { escapeText, n } from '../markup.ts';
import type { PlacedSegment } from '../segment.ts';
import { textWidth } from '../text-width.ts';

/** The part of a bracket that is in one tile, in pixels of the drawing. */
export interface PhraseRun {
  /** The phrase, as an index into those of the score. */
  readonly phrase: number;
  readonly from: number;
  readonly to: number;
  /** Whether the bracket begins and ends here. */
  readonly begins: boolean;
  readonly ends: boolean;
  /** What of the name is written here: nothing in most parts. */
  readonly name: string;
}

type PlacedTile = PlacedSegment & { readonly width: number };

/** From the middle of a note to where its bracket begins and ends. */
const REACH = 7;
/** Between two brackets, and behind a name. */
const GAP = 3;
/** So far past the edges of tiles, so that no seam shows between them. */
const SEAM = 0.3;
/** A name begins so far behind the beginning of its bracket. */
const NAME_LEAD = 5;

/**
 * The runs of each tile. A name is where all of it has room: at the beginning, or else in the next tile of the bracket. Where it has room
 * nowhere it is shortened.
 */
export function phraseRuns(score: Score, tiles: readonly PlacedTile[]): readonly (readonly PhraseRun[])[] {
  const brackets = phrasesOf(score)
    .flatMap(({ name, occurrences }, phrase) => occurrences.map((place) => ({ name, phrase, place })))
    .sort((a, b) => a.place.from - b.place.from);
  const runs = tiles.map((tile) =>
    brackets.flatMap((bracket, index) => {
      const run = runIn(tile, bracket.place);
      return run ? [{ ...run, ...bracket, index }] : [];
    }),
  );
  /** The room for a name in each tile of a bracket. */
  const rooms = brackets.map((): { readonly tile: number; readonly room: number }[] => []);
  runs.forEach((own, tile) => {
    own.forEach(({ from, index }, at) => {
      const limit = own[at + 1]?.from ?? itemAt(tiles, tile).width;
      itemAt(rooms, index).push({ tile, room: limit - GAP - from - NAME_LEAD });
    });
  });
  const named = brackets.map(({ name }, index) => {
    const own = itemAt(rooms, index);
    const widest = own.toSorted((a, b) => b.room - a.room)[0];
    return own.find(({ room }) => nameWidth(name) <= room) ?? widest;
  });
  return runs.map((own, tile) =>
    own.map(({ phrase, name, index, from, to, begins, ends }, at): PhraseRun => {
      const place = named[index];
      const next = own[at + 1];
      return {
        phrase,
        from,
        to: next ? Math.min(to, next.from - GAP) : to,
        begins,
        ends,
        name: place?.tile === tile ? shortened(name, place.room) : '',
      };
    }),
  );
}

/** Where a phrase is in a tile. */
function runIn(
  { segment, xs, width }: PlacedTile,
  { from, to }: Occurrence,
): Omit<PhraseRun, 'phrase' | 'name'> | undefined {
  const { columns } = segment;
  // The sign of a repeated bar has no notes to be over.
  if (columns.some(({ again }) => again)) return undefined;
  const isInside = ({ event }: (typeof columns)[number]): boolean => from <= event.index && event.index <= to;
  const [first, last] = [columns.findIndex(isInside), columns.findLastIndex(isInside)];
  if (first < 0) return undefined;
  const begins = itemAt(columns, first).event.index === from;
  const ends = itemAt(columns, last).event.index === to;
  return {
    from: begins ? Math.max(0, itemAt(xs, first) - REACH) : -SEAM,
    to: ends ? Math.min(width, itemAt(xs, last) + REACH) : width + SEAM,
    begins,
    ends,
  };
}

/** As much of a name as has room. */
function shortened(name: string, room: number): string {
  if (nameWidth(name) <= room) return name;
  const letters = [...name];
  while (letters.length > 0 && nameWidth(`${letters.join('')}…`) > room) letters.pop();
  return letters.length > 0 ? `${letters.join('')}…` : '';
}

/** Three dots are as wide as the font is high, which the table of widths does not say. */
const nameWidth = (name: string): number =>
  name.endsWith('…') ? textWidth(name.slice(0, -1), SIZE.small) + SIZE.small : textWidth(name, SIZE.small);

/** Draws the brackets of a tile. */
export const drawPhrases = (runs: readonly PhraseRun[]): string => runs.map(drawRun).join('');

function drawRun({ phrase, from, to, begins, ends, name }: PhraseRun): string {
  const { line, foot, baseline } = PHRASES;
  const start = begins ? `M${n(from)} ${foot}V${line}` : `M${n(from)} ${line}`;
  const end = ends ? `V${foot}` : '';
  const behind = from + NAME_LEAD + nameWidth(name) + GAP;
  const lead = begins ? `H${n(from + NAME_LEAD - 2)}` : '';
  // A name that is as long as its phrase takes the place of the line.
  const rest = to - behind >= 1 ? `M${n(behind)} ${line}H${n(to)}${end}` : '';
  const path = name === '' ? `${start}H${n(to)}${end}` : begins ? `${start}${lead}${rest}` : rest;
  const bracket = path === '' ? '' : `<path class="${CLASS.phraseBracket}" d="${path}"/>`;
  const text =
    name === ''
      ? ''
      : `<text class="${CLASS.phraseName}" x="${n(from + NAME_LEAD)}" y="${baseline}">${escapeText(name)}</text>`;
  return `<g data-phrase="${phrase}">${bracket}${text}</g>`;
}
