/**
 * Large type for a phone on a music stand: what to do now, and what next. A blow number is above the line and a draw
 * number under it, a bend lower by a notch for each half step, as in the breath lanes.
 */
import type { Moment } from '../../../schedule/plan.ts';
import { barInWords } from '../../../score/bar-words.ts';
import { chordAtTick, type Playback } from '../../../score/playback.ts';
import { largeTypeText } from '../../texts/large-type.ts';
import type { Showing } from '../../transport.ts';
import { make } from '../dom.ts';
import { chordInFull, tempoInWords } from '../in-words.ts';
import { largeTypeSheet } from './large-type-sheet.ts';

/** The panel that shows the current note so large that it can be read from a music stand. */
export interface LargeType {
  readonly show: (showing: Showing | undefined) => void;
  /** Opens or closes it. The page has room for one: opening closes that of another block. */
  readonly open: (open: boolean) => void;
  readonly isOpen: () => boolean;
  /** How much of the foot of the screen it covers, in pixels. */
  readonly covered: () => number;
}

let closeOther: (() => void) | undefined;

/** `opened` hears when it opens or closes. */
export function createLargeType(playback: () => Playback, opened: () => void): LargeType {
  const place = make('p', { class: 'large-type-place' });
  const now = make('div', { class: 'large-type-now' });
  const next = make('div', { class: 'large-type-next' });
  const element = make(
    'section',
    { class: 'large-type', 'aria-label': largeTypeText('whatToPlay'), hidden: true },
    place,
    now,
    next,
  );
  let shown = '';
  let harp: Playback['harp'] | undefined;
  let latest: Showing | undefined;

  function show(showing: Showing | undefined): void {
    const at = (moment: Moment | undefined) => [moment?.measure, moment?.tick];
    const key = showing ? JSON.stringify([showing.counting, showing.tempo, at(showing.moment), at(showing.next)]) : '-';
    if (key === shown && harp === playback().harp) return;
    shown = key;
    harp = playback().harp;
    latest = showing;
    if (!element.hidden) write();
  }

  /** Nothing is written while it is hidden: notes pass many times a second. */
  function write(): void {
    const showing = latest;
    place.textContent = showing ? placeInWords(showing, playback()) : largeTypeText('pressPlay');
    const [first, second] = showing?.counting ? [undefined, showing.moment] : [showing?.moment, showing?.next];
    now.replaceChildren(...(showing ? largeTypeSheet(largeTypeText('now'), first, playback()) : []));
    next.replaceChildren(...(second ? largeTypeSheet(largeTypeText('next'), second, playback()) : []));
  }

  function open(on: boolean): void {
    if (on === !element.hidden) return;
    if (on) {
      closeOther?.();
      closeOther = close;
    } else closeOther = undefined;
    element.hidden = !on;
    if (on) write();
    opened();
  }
  const close = (): void => open(false);

  function covered(): number {
    const { top, bottom, left } = element.getBoundingClientRect();
    return element.hidden || left > 0 ? 0 : bottom - top;
  }

  document.body.append(element);
  return { show, open, isOpen: () => !element.hidden, covered };
}

function placeInWords({ moment, tempo }: Showing, playback: Playback): string {
  const bar = playback.bars[moment.bar];
  if (!bar) return '';
  const name = barInWords(bar.number);
  const chord = chordAtTick(bar, moment.tick);
  return [name.charAt(0).toUpperCase() + name.slice(1), chord ? chordInFull(chord) : '', tempoInWords(tempo)]
    .filter(Boolean)
    .join(' · ');
}
