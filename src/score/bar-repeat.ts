/** Signs for whole bars. Bars that play the one before again: where their sign says all, and notes are not written again. */
import { plainChord } from '../harmony/chord.ts';
import { equals } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { isSameEnding } from './queries.ts';
import type { Bar, Score } from './score.ts';

/**
 * Indices of the bars that are shown by the sign of a repeated bar. Those over other chords are not, since their notes have other roles;
 * nor those whose notes hang together with a bar beside them or change the embouchure.
 */
export const barsShownAsSign = ({ bars }: Pick<Score, 'bars'>): ReadonlySet<number> =>
  new Set(bars.flatMap((bar, index) => (bar.repeatsLast && isClosed(bars, index) ? [index] : [])));

function isClosed(bars: readonly Bar[], index: number): boolean {
  const [before, bar, next] = [itemAt(bars, index - 1), itemAt(bars, index), bars[index + 1]];
  const goesOn = (one: Bar): boolean => {
    const last = one.events.at(-1);
    return last?.kind === 'sound' && last.glides;
  };
  const follower = next?.events[0];
  const mouths = new Set(bar.events.flatMap((event) => (event.kind === 'sound' ? [event.mouth] : [])));
  const isHeldOn = follower?.kind === 'sound' && follower.tied;
  return (
    sameChords(before, bar) && before.key === bar.key && !goesOn(before) && !goesOn(bar) && !isHeldOn && mouths.size < 2
  );
}

const sameChords = ({ chords: one }: Bar, { chords: other }: Bar): boolean =>
  one.length === other.length &&
  one.every((change, index) => {
    const next = itemAt(other, index);
    return equals(change.onset, next.onset) && plainChord(change.chord) === plainChord(next.chord);
  });

/**
 * By the index of its first bar, how many bars each rest of several bars has: of those that one sign can stand for, since no chord
 * changes in them.
 */
export function restsOfBars({ bars }: Pick<Score, 'bars'>): ReadonlyMap<number, number> {
  const rests = new Map<number, number>();
  bars.forEach(({ restBars }, index) => {
    if (restBars === undefined || index + restBars > bars.length) return;
    const [first, ...others] = bars.slice(index, index + restBars);
    const all = [first, ...others].flatMap((bar) => bar?.chords ?? []);
    const isOne =
      new Set(all.map(({ chord }) => plainChord(chord))).size < 2 &&
      others.every((bar) => hasNoSign(bar) && isSameEnding(first, bar));
    if (isOne) rests.set(index, restBars);
  });
  return rests;
}

/** Whether a bar is silent and nothing is written at its start. */
const hasNoSign = (bar: Bar): boolean =>
  bar.events.every(({ kind }) => kind === 'rest') &&
  !bar.repeatStart &&
  bar.target === undefined &&
  bar.part === undefined &&
  bar.direction === undefined;
