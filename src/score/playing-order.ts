/** The order in which the bars of a score are played: repeats and endings written out. */
import { compare } from '../time/fraction.ts';
import { itemAt, lastOf } from '../values/checked.ts';
import { isSameEnding } from './queries.ts';
import type { Bar } from './score.ts';

type Playable = Pick<Bar, 'repeatStart' | 'repeatEnd' | 'endings' | 'length'>;

/**
 * Indices into `score.bars`, in playing order. A repeat is played twice, or as often as its endings count.
 * A repeat end without a start goes back to the last repeat's end, or to the first full bar; to the pickup, where the bar of
 * the repeat end is the shorter for it.
 */
export function playOrder(score: { readonly bars: readonly Playable[]; readonly pickup?: unknown }): number[] {
  const { bars } = score;
  const order: number[] = [];
  let start = score.pickup ? 1 : 0;
  let index = 0;
  while (index < bars.length) {
    const section = sectionFrom(bars, index, start);
    if (!section) {
      order.push(index);
      index++;
      continue;
    }
    for (let pass = 1; pass <= section.passes; pass++) {
      if (pass > 1 && section.implicit && start === 1 && isShorter(itemAt(bars, lastOf(order)), itemAt(bars, 1)))
        order.push(0);
      for (let i = section.start; i < section.end; i++) {
        const { endings } = itemAt(bars, i);
        if (!endings || endings.includes(pass)) order.push(i);
      }
    }
    index = section.end;
    start = section.end;
  }
  return order;
}

/** Indices of the bars that repeats go back to, with and without a repeat sign at their start. */
export function repeatStarts(score: {
  readonly bars: readonly Playable[];
  readonly pickup?: unknown;
}): ReadonlySet<number> {
  const order = playOrder(score);
  // Playing goes back only where a section begins again.
  return new Set(order.filter((bar, place) => place > 0 && bar <= (order[place - 1] ?? 0)));
}

const isShorter = (bar: Playable, other: Playable): boolean => compare(bar.length, other.length) < 0;

interface Section {
  readonly start: number;
  /** Without a repeat sign at its start. */
  readonly implicit: boolean;
  /** Past the last bar of the last ending. */
  readonly end: number;
  readonly passes: number;
}

/** The repeated section that begins at `index` (or, reached at its end, the one that goes back to `start`). */
function sectionFrom(bars: readonly Playable[], index: number, start: number): Section | undefined {
  const from = itemAt(bars, index).repeatStart ? index : index === start ? start : undefined;
  if (from === undefined) return undefined;
  let end = from;
  while (end < bars.length && !itemAt(bars, end).repeatEnd) {
    end++;
    if (bars[end]?.repeatStart) return undefined;
  }
  if (end >= bars.length) return undefined;
  const passes = new Set(itemAt(bars, end).endings);
  end++;
  const implicit = !itemAt(bars, from).repeatStart;
  // An ending for a time that another one has is of the next repeat.
  while (
    passes.size > 0 &&
    bars[end]?.endings &&
    (isSameEnding(bars[end - 1], bars[end]) || !bars[end]?.endings?.some((pass) => passes.has(pass)))
  ) {
    for (const pass of bars[end]?.endings ?? []) passes.add(pass);
    end++;
  }
  return { start: from, implicit, end, passes: Math.max(2, ...passes) };
}
