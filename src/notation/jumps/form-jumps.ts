/** Whether the bars behind a jump back go on in the progression, which is counted as the music is played. */
import { type Diagnostic, hasError } from '../../diagnostics/diagnostic.ts';
import { printFormBar } from '../../harmony/form.ts';
import { isJumpBack } from '../../score/jump.ts';
import { jumpPlaces, playOrder } from '../../score/playing-order.ts';
import type { Progression } from '../../score/score.ts';
import { itemAt } from '../../values/checked.ts';
import type { DraftBar } from '../bars.ts';
import type { Header } from '../header.ts';
import { report } from '../problems.ts';

/**
 * Reports a jump back behind which the progression goes on with other chords than the bars have, where it would be right if each bar
 * kept the chords it had before: so it is in print. Returns whether it did; that bars and progression disagree is then explained.
 */
export function checkFormJump(
  bars: readonly DraftBar[],
  { pickup, ownChords }: Header,
  progression: Progression,
  diagnostics: Diagnostic[],
): boolean {
  const jump = bars.findIndex((bar) => isJumpBack(bar.jump));
  const { jump: sign, signSpans } = bars[jump] ?? {};
  // With another mistake the order of playing may be an accident.
  if (!sign || !signSpans?.jump || hasError(diagnostics)) return false;
  const isFull = (index: number): boolean => !pickup || index > 0;
  const order = playOrder({ bars, pickup }).filter(isFull);
  const behind = order.length - jumpPlaces({ bars, pickup }, jump).afterJump.filter(isFull).length;
  const { length } = progression.bars;
  const chordsAt = (place: number): string => printFormBar(itemAt(progression.bars, place % length));
  const placeOf = new Map<number, number>();
  const places: number[] = [];
  let agrees = order.length % length === 0 || (!ownChords && order.length < length);
  for (const [at, index] of order.entries()) {
    const before = placeOf.get(index);
    const next = at === 0 ? 0 : itemAt(places, at - 1) + 1;
    if (before !== undefined && chordsAt(before) !== chordsAt(at)) {
      // A repeat that disagrees is said there.
      if (at < behind) return false;
      agrees = false;
    }
    const place = at < behind ? next : (before ?? next);
    places.push(place);
    placeOf.set(index, place);
  }
  const fills = [behind - 1, order.length - 1].some((at) => (itemAt(places, at) + 1) % length === 0);
  if (agrees || (ownChords && !fills)) return false;
  const range = progression.range ? ` bars ${progression.range.join('-')}` : '';
  const form = progression.form === undefined ? 'the list of chords' : progression.form + range;
  const chords = places.map(chordsAt).join(' | ');
  diagnostics.push(report('jump-against-form', signSpans.jump, { sign, form, chords }));
  return true;
}
