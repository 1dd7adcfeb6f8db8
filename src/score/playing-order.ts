/** The order in which the bars of a score are played: repeats and endings written out. */
import type { Bar } from './score.ts';

type Playable = Pick<Bar, 'repeatStart' | 'repeatEnd' | 'ending'>;

/**
 * Indices into `score.bars`, in playing order. A repeat is played twice, or as often as its endings count.
 * A repeat end without a start goes back to the last repeat's end, or to the first full bar.
 */
export function playOrder(score: { readonly bars: readonly Playable[]; readonly pickup?: unknown }): number[] {
  const { bars } = score;
  const order: number[] = [];
  let start = score.pickup ? 1 : 0;
  let index = 0;
  while (index < bars.length) {
    const section = sectionFrom(bars, index, start);
    if (!section) {
      if (bars[index]?.repeatStart) start = index;
      order.push(index);
      index++;
      continue;
    }
    for (let pass = 1; pass <= section.passes; pass++) {
      for (let i = section.start; i < section.end; i++) {
        const ending = bars[i]?.ending;
        if (ending === undefined || ending === pass) order.push(i);
      }
    }
    index = section.end;
    start = section.end;
  }
  return order;
}

interface Section {
  readonly start: number;
  /** Past the last bar of the last ending. */
  readonly end: number;
  readonly passes: number;
}

/** The repeated section that begins at `index` (or, reached at its end, the one that goes back to `start`). */
function sectionFrom(bars: readonly Playable[], index: number, start: number): Section | undefined {
  const from = bars[index]?.repeatStart ? index : index === start ? start : undefined;
  if (from === undefined) return undefined;
  let end = from;
  while (end < bars.length && !bars[end]?.repeatEnd) {
    end++;
    if (bars[end]?.repeatStart) return undefined;
  }
  if (end >= bars.length) return undefined;
  const first = bars[end]?.ending;
  end++;
  if (first === undefined) return { start: from, end, passes: 2 };
  let last = first;
  for (let next = bars[end]?.ending; next !== undefined && next >= last; next = bars[end]?.ending) {
    last = next;
    end++;
  }
  return { start: from, end, passes: Math.max(2, last) };
}
