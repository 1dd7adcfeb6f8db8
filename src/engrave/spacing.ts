/**
 * Places columns of notes across a width. A note twice as long takes about half as much more room (Gould, “Behind Bars”,
 * “Spacing symbols”, from memory); what a column carries may widen its gap a little, and no more: a bar in which it would has to
 * be wider as a whole.
 */
import { itemAt } from '../values/checked.ts';

/** Where the columns of a bar are, in CSS pixels. */
export interface Spacing {
  readonly width: number;
  /** Room before the middle of the first column, and after the middle of the last. */
  readonly before: number;
  readonly after: number;
  /** How much of the last column’s length is in the next tile, where a bar goes on there. */
  readonly beyond: number;
  /** Each column's length in time, in any unit. */
  readonly lengths: readonly number[];
  /** The least distance from each column to the next. */
  readonly gaps: readonly number[];
  /** Pairs of columns that must be further apart: words, syllables, chord symbols. */
  readonly apart: readonly Apart[];
}

/** The least distance between two columns. */
export interface Apart {
  readonly from: number;
  readonly to: number;
  readonly least: number;
}

/** How much wider than another gap of the same length one may be for what its columns carry. */
export const UNEVEN = 1.13;

const stretch = (length: number): number => length ** 0.6;

/** The last note is a little nearer to the bar line than to a next note. */
const TO_BAR_LINE = 0.75;

/** The width below which columns of one length would be spaced unevenly. */
export function leastWidth(needs: Omit<Spacing, 'width' | 'beyond'>): number {
  const { before, after, gaps, apart } = needs;
  const weights = weightsOf(needs);
  const mins = [...gaps];
  let unit = 0;
  const raise = (least: number, from: number, to: number): void => {
    let weight = 0;
    for (let index = from; index < to; index++) weight += itemAt(weights, index);
    unit = Math.max(unit, least / (UNEVEN * weight));
  };
  gaps.forEach((gap, index) => {
    raise(gap, index, index + 1);
  });
  for (const { from, to, least } of apart) raise(least, from, to);
  const inner = mins.reduce((sum, min, index) => sum + Math.max(min, unit * itemAt(weights, index)), 0);
  // What the pairs need above the sum of their gaps.
  const rest = Math.max(0, ...apart.map(({ from, to, least }) => least - sumOf(mins, from, to, unit, weights)));
  const last = weights.length === 0 ? 0 : unit * itemAt(weights, weights.length - 1);
  return before + inner + rest + Math.max(after, last);
}

function sumOf(mins: readonly number[], from: number, to: number, unit: number, weights: readonly number[]): number {
  let sum = 0;
  for (let index = from; index < to; index++) sum += Math.max(itemAt(mins, index), unit * itemAt(weights, index));
  return sum;
}

function weightsOf({ lengths }: Pick<Spacing, 'lengths'>): number[] {
  return lengths.map((length, index) => stretch(length) * (index === lengths.length - 1 ? TO_BAR_LINE : 1));
}

/** The middle of each column. Where the width is too small everything moves together evenly. */
export function place(spacing: Spacing): number[] {
  const { width, before, after, beyond, lengths, apart } = spacing;
  if (lengths.length === 0) return [];
  const weights = weightsOf(spacing);
  const mins = [...spacing.gaps, after];
  const room = width - before;
  let gaps = fill(mins, weights, room, beyond);
  // Wide pairs are met by widening the gaps between them in proportion; a few rounds settle overlapping ones.
  for (let round = 0; round < 4; round++) {
    let moved = false;
    for (const { from, to, least } of apart) {
      const now = gaps.slice(from, to).reduce((sum, gap) => sum + gap, 0);
      if (now >= least - 0.01) continue;
      moved = true;
      for (let index = from; index < to; index++) mins[index] = (itemAt(gaps, index) * least) / now;
    }
    if (!moved) break;
    gaps = fill(mins, weights, room, beyond);
  }
  let at = before;
  return lengths.map((_, index) => {
    const here = at;
    at += itemAt(gaps, index);
    return here;
  });
}

/** Gaps that add up to the room: each in proportion to its weight, or its minimum where that is more. */
function fill(mins: readonly number[], weights: readonly number[], room: number, beyond: number): number[] {
  const least = mins.reduce((sum, min) => sum + min, 0);
  if (least >= room) return mins.map((min) => (min * room) / least);
  const last = weights.length - 1;
  const fixed = new Set<number>();
  for (;;) {
    let free = room;
    let weight = 0;
    weights.forEach((own, index) => {
      if (fixed.has(index)) free -= itemAt(mins, index);
      else {
        weight += own;
        if (index === last) free += beyond;
      }
    });
    const wanted = (own: number, index: number): number => (own * free) / weight - (index === last ? beyond : 0);
    const tight = weights.flatMap((own, index) =>
      !fixed.has(index) && wanted(own, index) < itemAt(mins, index) ? [index] : [],
    );
    if (tight.length === 0)
      return weights.map((own, index) => (fixed.has(index) ? itemAt(mins, index) : wanted(own, index)));
    for (const index of tight) fixed.add(index);
  }
}
