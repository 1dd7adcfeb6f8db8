/** The embouchure under the lanes: a plain band for lips, a hatched one for the tongue block, named where it changes. */
import type { Mouth } from '../../score/score.ts';
import { itemAt } from '../../values/checked.ts';
import { CLASS } from '../classes.ts';
import { SIZE } from '../columns.ts';
import { BAND } from '../layout.ts';
import { n } from '../markup.ts';
import type { PlacedSegment } from '../segment.ts';
import { textWidth } from '../text-width.ts';

/** A part of a tile with one embouchure. */
export interface BandRun {
  readonly mouth: Mouth;
  readonly from: number;
  readonly to: number;
  readonly named: boolean;
}

const labelRoom = (mouth: Mouth): number => textWidth(mouth, SIZE.small) + 6;

/**
 * The runs of each tile. A name that has no room where the embouchure changes is at the beginning of the next tile, if the
 * embouchure is still the same there.
 */
export function bandRuns(
  tiles: readonly (PlacedSegment & { readonly width: number })[],
  atFirst: Mouth,
): readonly (readonly BandRun[])[] {
  let mouth: Mouth | undefined;
  let isNamed = false;
  return tiles.map(({ segment, xs, width }) => {
    const starts = [{ mouth: mouth ?? atFirst, from: 0 }];
    segment.columns.forEach(({ event }, index) => {
      if (event.kind !== 'sound' || event.mouth === starts.at(-1)?.mouth) return;
      const before = xs[index - 1];
      if (before === undefined) starts.pop();
      starts.push({ mouth: event.mouth, from: before === undefined ? 0 : (itemAt(xs, index) + before) / 2 });
    });
    return starts.map((start, index): BandRun => {
      const to = starts[index + 1]?.from ?? width;
      if (start.mouth !== mouth) isNamed = false;
      mouth = start.mouth;
      const named = !isNamed && to - start.from > labelRoom(mouth) + 2;
      isNamed ||= named;
      return { ...start, to, named };
    });
  });
}

/** Draws the band of a tile. */
export const drawBand = (runs: readonly BandRun[], width: number): string =>
  runs.map((run) => drawRun(run, width)).join('');

function drawRun({ mouth, from: start, to, named }: BandRun, width: number): string {
  const y = BAND.middle;
  const from = named ? start + labelRoom(mouth) : start;
  const word = named ? `<text class="${CLASS.smallText}" x="${n(start + 3)}" y="${n(y + 4)}">${mouth}</text>` : '';
  const hatch = mouth === 'tongue' ? `<path class="${CLASS.tongueHatching}" d="M${n(from)} ${n(y)}H${n(to)}"/>` : '';
  // Past the tile's edges, like the staff lines.
  const ends = [from === 0 ? -0.3 : from, to === width ? width + 0.3 : to] as const;
  const line = (at: number): string => `M${n(ends[0])} ${n(at)}H${n(ends[1])}`;
  return `${word}${hatch}<path class="${CLASS.mouthBand}" d="${line(y - 3)}${line(y + 3)}"/>`;
}
