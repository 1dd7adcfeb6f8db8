/** Rests of several bars, each of which is as long as a bar of its meter. */
import { barLength } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import type { DraftBar, DraftSettings } from '../bars.ts';

/** Gives the bars of such rests their lengths. A chord behind the sign comes in at the end. */
export function fillRests(bars: readonly DraftBar[], settings: readonly DraftSettings[]): void {
  bars.forEach((bar, index) => {
    if (!bar.inRest) return;
    const length = barLength(itemAt(settings, index).meter);
    bar.length = length;
    for (const event of bar.events) event.duration = length;
    if (bar.restBars === undefined) bar.chords = bar.chords.map(({ text }) => ({ onset: length, text }));
  });
}
