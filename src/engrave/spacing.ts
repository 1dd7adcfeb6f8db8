/** Places columns of notes across a width: as music is spaced, longer notes wider, and never closer than what they carry. */
import { itemAt, lastOf } from '../values/checked.ts';

/** Where the columns of a bar are, in CSS pixels. */
export interface Spacing {
  readonly width: number;
  /** Room before the middle of the first column, and after the middle of the last. */
  readonly before: number;
  readonly after: number;
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

/** A note twice as long takes about half as much more room. */
const stretch = (length: number): number => length ** 0.6;

/** The width below which columns would touch. */
export function leastWidth({ before, after, gaps, apart }: Omit<Spacing, 'width' | 'lengths'>): number {
  const at = [0];
  gaps.forEach((gap, index) => {
    let next = itemAt(at, index) + gap;
    for (const pair of apart) if (pair.to === index + 1) next = Math.max(next, itemAt(at, pair.from) + pair.least);
    at.push(next);
  });
  return before + lastOf(at) + after;
}

/** The middle of each column. Where the width is too small everything moves together evenly. */
export function place(spacing: Spacing): number[] {
  const { width, before, after, lengths, apart } = spacing;
  if (lengths.length === 0) return [];
  // The last column's own length stretches too, but may not fall under what it needs up to the bar line.
  const mins = [...spacing.gaps, after];
  const room = width - before;
  let gaps = fill(mins, lengths, room);
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
    gaps = fill(mins, lengths, room);
  }
  let at = before;
  return lengths.map((_, index) => {
    const here = at;
    at += itemAt(gaps, index);
    return here;
  });
}

/** Gaps that add up to the room: each in proportion to its length's stretch, or its minimum where that is more. */
function fill(mins: readonly number[], lengths: readonly number[], room: number): number[] {
  const least = mins.reduce((sum, min) => sum + min, 0);
  if (least >= room) return mins.map((min) => (min * room) / least);
  const weights = lengths.map(stretch);
  const fixed = new Set<number>();
  for (;;) {
    let free = room;
    let weight = 0;
    weights.forEach((own, index) => {
      if (fixed.has(index)) free -= itemAt(mins, index);
      else weight += own;
    });
    const tight = weights.findIndex((own, index) => !fixed.has(index) && (own * free) / weight < itemAt(mins, index));
    if (tight < 0) return weights.map((own, index) => (fixed.has(index) ? itemAt(mins, index) : (own * free) / weight));
    weights.forEach((own, index) => {
      if ((own * free) / weight < itemAt(mins, index)) fixed.add(index);
    });
  }
}
