/** The signs of jumps and of repeated bars. Jumps are over a bar: segno and coda at its start, and at its end the words that lead on, in a line of their own. */
import { jumpInPrint } from '../../score/jump.ts';
import type { Bar } from '../../score/score.ts';
import { CLASS } from '../classes.ts';
import { SIZE } from '../columns.ts';
import { glyphAt } from '../glyphs/metrics.ts';
import { JUMPS } from '../layout.ts';
import { escapeText, n, use } from '../markup.ts';
import type { Segment } from '../segment.ts';
import { textWidth } from '../text-width.ts';
import type { InkBox } from './box.ts';
import { REPEATED_BAR } from './note.ts';

/** U+E047 and U+E048 of SMuFL 1.4, “Repeats”, so much smaller than with the staff. */
const GLYPHS = { segno: 0xe047, coda: 0xe048 } as const;
const SCALE = 0.5;
/** Where words begin beside one of them. */
const AFTER_SIGN = 28;

/** The line of the signs of a segment, and to `glyphs` what it needs. */
export function drawJumpSigns(
  { bar, opens, closes }: Segment,
  width: number,
  bars: readonly Bar[],
  glyphs: Set<string>,
): string {
  let drawn = '';
  if (bar.target && opens) {
    const { code, left, top, bottom } = glyphAt(GLYPHS[bar.target]);
    glyphs.add(code);
    drawn += use(code, 2 - left * SCALE, JUMPS.middle - ((top + bottom) / 2) * SCALE, undefined, SCALE);
  }
  if (bar.restBars !== undefined && opens)
    drawn += `<text class="${CLASS.direction}" x="${bar.target ? AFTER_SIGN : 1}" y="${JUMPS.baseline}">rest for ${bar.restBars} bars</text>`;
  if (bar.jump && closes)
    drawn += `<text class="${CLASS.jumpWords}" x="${n(width - 3)}" y="${JUMPS.baseline}">${escapeText(jumpInPrint(bar.jump, bars))}</text>`;
  return drawn;
}

/** The width of the line, which a tile has room for. */
export function jumpWidth({ bar, opens, closes }: Segment, bars: readonly Bar[]): number {
  const words = bar.jump && closes ? textWidth(jumpInPrint(bar.jump, bars), SIZE.jump, true) + 4 : 0;
  return words + (bar.target && opens ? AFTER_SIGN : 0);
}

/** The sign of a repeated bar in the lanes, at the middle of its column. */
export function drawRepeatedBar(x: number, centre: number, glyphs: Set<string>, ink: InkBox[]): string {
  const { code, left, top, right, bottom } = glyphAt(REPEATED_BAR);
  glyphs.add(code);
  const half = ((bottom - top) / 2) * LANE_SCALE;
  const side = ((right - left) / 2) * LANE_SCALE;
  ink.push({ left: x - side, right: x + side, top: centre - half, bottom: centre + half });
  return use(code, x - side - left * LANE_SCALE, centre - half - top * LANE_SCALE, undefined, LANE_SCALE);
}

const LANE_SCALE = 0.9;

/** What stands for events, in a group of each, so that it is lit with any of them. */
export const inEvents = (events: readonly number[], inner: string): string =>
  events.reduceRight((all, index) => `<g class="${CLASS.event}" data-event="${index}">${all}</g>`, inner);
