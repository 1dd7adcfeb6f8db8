/** The syllables and words under a tile: one line for each verse, each syllable in the middle of its note. */
import type { NoteText, Sound } from '../../score/score.ts';
import { itemAt } from '../../values/checked.ts';
import { CLASS } from '../classes.ts';
import { type Column, SIZE } from '../columns.ts';
import { LYRICS } from '../layout.ts';
import { escapeText, n } from '../markup.ts';
import type { PlacedSegment } from '../segment.ts';
import { textWidth } from '../text-width.ts';

/** What a sound has in a line. */
export type TextOf = (sound: Sound) => NoteText | undefined;

/** The syllable to articulate a sound with. */
export const syllableOf: TextOf = ({ syllable }) => syllable;

/** What a column has in a line: nothing where its sound is held on. */
export const textAt = (column: Column | undefined, of: TextOf): NoteText | undefined =>
  column?.first && column.event.kind === 'sound' ? of(column.event) : undefined;

/** Half the width of a column's text in a line, in pixels of the drawing. */
export function halfOfText(column: Column, of: TextOf): number {
  const text = textAt(column, of);
  return text && !text.extends ? textWidth(text.text, SIZE.lyric) / 2 : 0;
}

/** How high a part of so many lines is. */
export const heightOfLines = (lines: number): number => LYRICS.height + Math.max(0, lines - 1) * LYRICS.line;

/** The baseline of a line, counted from 0. */
export const baselineOf = (line: number): number => LYRICS.baseline + line * LYRICS.line;

/** What a line has for one column: its syllable with the hyphen behind it, or the line that holds the one before. */
export function drawText(
  index: number,
  { segment, xs }: PlacedSegment,
  { of, y, className, width }: { of: TextOf; y: number; className: string; width: number },
): string {
  const text = textAt(itemAt(segment.columns, index), of);
  if (!text) return '';
  const x = itemAt(xs, index);
  if (text.extends) {
    const before = segment.columns.slice(0, index).findLastIndex((own) => own.first && own.event.kind === 'sound');
    const last = before < 0 ? undefined : textAt(segment.columns[before], of);
    const from =
      before < 0 ? 0 : itemAt(xs, before) + (last && !last.extends ? textWidth(last.text, SIZE.lyric) / 2 + 2 : 6);
    return x + 6 - from < 3 ? '' : `<path class="${CLASS.stroke}" d="M${n(from)} ${n(y)}H${n(x + 6)}"/>`;
  }
  const half = textWidth(text.text, SIZE.lyric) / 2;
  let drawn = `<text class="${className}" x="${n(x)}" y="${n(y)}">${escapeText(text.text)}</text>`;
  if (text.hyphen) {
    const after = segment.columns.findIndex((own, at) => at > index && textAt(own, of)?.extends === false);
    const to =
      after < 0
        ? Math.min(width - 4, x + half + 12)
        : itemAt(xs, after) - textWidth(textAt(segment.columns[after], of)?.text ?? '', SIZE.lyric) / 2;
    drawn += `<text class="${className}" x="${n((x + half + to) / 2)}" y="${n(y)}">-</text>`;
  }
  return drawn;
}
