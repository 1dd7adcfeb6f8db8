/**
 * The swing grid: where in its bar a written place is played. A beat's two halves take the shares the feel says, and what
 * lies inside a half keeps its proportions there. A beat that is divided in three (or five …) and not at its half is
 * played as written: a triplet already swings.
 */
import type { Feel } from './feel.ts';
import { type Fraction, fraction, minimum } from './fraction.ts';
import { beatLength, isCompound, type Meter } from './meter.ts';

/** The swing a player may choose: percent of the beat that its first half takes. 50 is straight, 67 a shuffle. */
export const SWING_PERCENT_RANGE = { least: 50, most: 75, step: 1 } as const;

/** The beat that swings, and how much. */
export interface SwingGrid {
  /** The beat whose halves swing; in the unit of the places that are asked about. */
  readonly beat: number;
  /** The share of the beat its first half takes: 1/2 when played evenly, 2/3 in a shuffle. */
  readonly share: number;
  /** Numbers of the beats, from the bar's start, that are played as written. */
  readonly even: ReadonlySet<number>;
}

/**
 * The beat whose halves swing: the quarter in 4/4 and also in 2/2, where eighths swing all the same. In compound meters
 * the three eighths of a beat are even and nothing swings: common practice, no source.
 */
export const swungBeat = (meter: Meter): Fraction | undefined =>
  isCompound(meter) ? undefined : minimum(beatLength(meter), fraction(1, 4));

/** The share of a beat its first half takes in a feel. */
export const shareOf = (feel: Feel): number => feel.long / (feel.long + feel.short);

/**
 * The beats of a bar to be played as written: those with an onset off the halves, quarters, eighths … of the beat and none
 * on its half. `onsets` and `beat` are whole numbers of one unit, counted from where the full bar would start.
 */
export function evenBeats(onsets: Iterable<number>, beat: number): ReadonlySet<number> {
  const halved = new Set<number>();
  const divided = new Set<number>();
  for (const onset of onsets) {
    const number = Math.floor(onset / beat);
    const within = onset - number * beat;
    if (within * 2 === beat) halved.add(number);
    else if (!isBinary(within, beat)) divided.add(number);
  }
  return new Set([...divided].filter((number) => !halved.has(number)));
}

/** Whether `within / beat` has a power of two below its line. */
function isBinary(within: number, beat: number): boolean {
  let remainder = within;
  for (let step = beat; step % 2 === 0; ) {
    step /= 2;
    remainder %= step;
  }
  return remainder === 0;
}

/** Where a written place of the bar is played, both counted from where the full bar would start. */
export const playedTime = (grid: SwingGrid, written: number): number => bend(grid, written, 0.5, grid.share);

/** The written place that is played there: the inverse of {@link playedTime}. */
export const writtenTime = (grid: SwingGrid, place: number): number => bend(grid, place, grid.share, 0.5);

/** Moves the middle of each beat that swings from one share of it to another. */
function bend({ beat, even }: SwingGrid, place: number, from: number, to: number): number {
  const number = Math.floor(place / beat);
  if (from === to || even.has(number)) return place;
  const within = place / beat - number;
  const moved = within < from ? (within * to) / from : to + ((within - from) * (1 - to)) / (1 - from);
  return (number + moved) * beat;
}
