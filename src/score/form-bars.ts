/** Which bar of its progression each bar of a score is. */
import { playOrder } from './playing-order.ts';
import type { Score } from './score.ts';

/**
 * For each bar of a score the index of the bar of `score.progression` it is on, by the order of playing; undefined for a pickup,
 * and for all where there is no progression.
 */
export function formBarsOf(score: Pick<Score, 'bars' | 'pickup' | 'progression'>): (number | undefined)[] {
  const places: (number | undefined)[] = score.bars.map(() => undefined);
  const length = score.progression?.bars.length;
  if (length === undefined) return places;
  let position = 0;
  for (const index of playOrder(score)) {
    if (score.pickup && index === 0) continue;
    places[index] ??= position % length;
    position++;
  }
  return places;
}
