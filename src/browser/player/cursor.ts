/** Marks what sounds on the block (staff, breath lanes and chord symbols at once) and keeps it on the screen. */
import type { Playback } from '../../score/playback.ts';
import type { Showing } from '../transport.ts';

export interface Cursor {
  readonly show: (showing: Showing | undefined) => void;
}

/** Milliseconds after which a reader who has scrolled away is followed again. */
const LEFT_ALONE = 4000;
const calm = matchMedia('(prefers-reduced-motion: reduce)');

export function createCursor(block: HTMLElement, playback: () => Playback, covered: () => number): Cursor {
  let marked: Element[] = [];
  let shown = '';
  let row = Number.NaN;
  let scrolledAt = 0;
  for (const kind of ['wheel', 'touchmove'] as const) {
    addEventListener(kind, () => (scrolledAt = performance.now()), { passive: true });
  }

  function show(showing: Showing | undefined): void {
    const moment = showing?.moment;
    const key = moment ? `${moment.bar} ${moment.event} ${moment.answer}` : '';
    // Tiles drawn anew for another harp have lost their marks.
    if (key === shown && marked.every((element) => element.isConnected)) return;
    shown = key;
    for (const element of marked) element.classList.remove('now', 'answer');
    marked = [];
    if (!moment) return;
    const tile = block.querySelector(`[data-bar="${moment.bar}"]`);
    if (!tile) return;
    tile.classList.toggle('answer', moment.answer);
    const event = moment.event === undefined ? undefined : playback().bars[moment.bar]?.events[moment.event];
    const notes = event ? block.querySelectorAll(`[data-event="${event.index}"]`) : [];
    const at = event?.at ?? 0;
    const chord = playback().bars[moment.bar]?.chords.findLastIndex((one) => one.at <= at) ?? -1;
    const symbols = chord < 0 ? [] : tile.querySelectorAll(`[data-chord="${chord}"]`);
    marked = [tile, ...notes, ...symbols];
    for (const element of marked) element.classList.add('now');
    follow(tile);
  }

  /** Scrolls only when a new row begins outside of what can be seen, and not against a reader's own hand. */
  function follow(tile: Element): void {
    const { top, bottom } = tile.getBoundingClientRect();
    const page = top + scrollY;
    if (page === row) return;
    row = page;
    const floor = innerHeight - covered();
    if ((top >= 0 && bottom <= floor) || performance.now() - scrolledAt < LEFT_ALONE) return;
    const above = Math.max(8, Math.min(floor * 0.15, floor - (bottom - top)));
    scrollBy({ top: top - above, behavior: calm.matches ? 'instant' : 'smooth' });
  }

  return { show };
}
