/** Which bars sound, in order, for a block or a choice of its bars. */
import type { Playback } from '../score/playback.ts';
import { itemAt } from '../values/checked.ts';
import type { BarRange } from './settings.ts';

/**
 * The bars to play, as indices. The whole block is played with its repeats. A choice of bars is played as the block plays
 * them where that is possible without leaving the choice (so a whole repeated section inside it is repeated), and else as
 * they are, each once.
 */
export function barsToPlay({ bars, order }: Pick<Playback, 'bars' | 'order'>, range?: BarRange): readonly number[] {
  if (!range || (range.first <= 0 && range.last >= bars.length - 1)) return order;
  const { first, last } = range;
  for (const [start, bar] of order.entries()) {
    const run = bar === first ? runFrom(order, start, range) : undefined;
    if (run) return run;
  }
  return Array.from({ length: last - first + 1 }, (_, index) => first + index);
}

/** From a place in the order to the first end of the choice by which all of it has been played; undefined if it leaves the choice before. */
function runFrom(order: readonly number[], start: number, { first, last }: BarRange): readonly number[] | undefined {
  const heard = new Set<number>();
  for (let place = start; place < order.length; place++) {
    const bar = itemAt(order, place);
    if (bar < first || bar > last) return undefined;
    heard.add(bar);
    if (bar === last && heard.size === last - first + 1) return order.slice(start, place + 1);
  }
  return undefined;
}
