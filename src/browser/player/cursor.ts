/** Marks what sounds on the block, staff, breath lanes and chord symbol at once, and keeps it on the screen. */
import type { Playback } from '../../score/playback.ts';
import type { Showing } from '../transport.ts';
import { make } from './dom.ts';

export interface Cursor {
  /** A band over the note that sounds, laid over the block. */
  readonly element: HTMLElement;
  readonly show: (showing: Showing | undefined) => void;
}

/** Milliseconds after which a reader who has scrolled away is followed again. */
const LEFT_ALONE = 4000;
/** Pixels that the band is wider than its note on either side. */
const MARGIN = 4;

/** `floor` is where on the screen what covers its foot begins. */
export function createCursor(block: HTMLElement, playback: () => Playback, floor: () => number): Cursor {
  const band = make('div', { class: 'play-band', hidden: true });
  const calm = matchMedia('(prefers-reduced-motion: reduce)');
  let marked: readonly Element[] = [];
  let shown = '';
  let row = Number.NaN;
  let scrolledAt = Number.NEGATIVE_INFINITY;
  for (const kind of ['wheel', 'touchmove'] as const) {
    addEventListener(
      kind,
      () => {
        scrolledAt = performance.now();
      },
      { passive: true },
    );
  }

  function show(showing: Showing | undefined): void {
    const moment = showing?.moment;
    const key = moment ? `${moment.bar} ${moment.event} ${moment.answer}` : '';
    // Tiles drawn anew for another harp have lost their marks.
    if (key === shown && marked.every((element) => element.isConnected)) return;
    shown = key;
    if (!moment) {
      mark([]);
      band.hidden = true;
      row = Number.NaN;
      return;
    }
    const bar = playback().bars[moment.bar];
    const event = moment.event === undefined ? undefined : bar?.events[moment.event];
    const chord = bar?.chords.findLastIndex((one) => one.at <= (event?.at ?? 0)) ?? -1;
    const tiles = [...block.querySelectorAll(`[data-bar="${moment.bar}"]`)];
    const notes = event ? [...block.querySelectorAll(`[data-event="${event.index}"]`)] : [];
    const symbols = chord < 0 ? [] : tiles.flatMap((tile) => [...tile.querySelectorAll(`[data-chord="${chord}"]`)]);
    mark([...tiles, ...notes, ...symbols]);
    for (const tile of tiles) tile.classList.toggle('answer', moment.answer);
    const tile = notes[0]?.closest('[data-bar]') ?? tiles[0];
    band.hidden = !notes[0];
    if (!tile) return;
    if (notes[0]) cover(notes[0], tile);
    follow(tile);
  }

  /** What stays marked is not touched, so that nothing is drawn again without need. */
  function mark(elements: readonly Element[]): void {
    for (const element of marked) if (!elements.includes(element)) element.classList.remove('now', 'answer');
    for (const element of elements) element.classList.add('now');
    marked = elements;
  }

  function cover(note: Element, tile: Element): void {
    const { left, right } = note.getBoundingClientRect();
    const { top, height } = tile.getBoundingClientRect();
    const zero = (band.offsetParent ?? block).getBoundingClientRect();
    band.style.transform = `translate(${left - zero.left - MARGIN}px, ${top - zero.top}px)`;
    band.style.width = `${right - left + 2 * MARGIN}px`;
    band.style.height = `${height}px`;
  }

  /** Scrolls only when a new row begins outside of what can be seen, and not against a reader's own hand. */
  function follow(tile: Element): void {
    const { top, bottom } = tile.getBoundingClientRect();
    const inPage = Math.round(top + scrollY);
    if (inPage === row) return;
    row = inPage;
    const end = floor();
    if ((top >= 0 && bottom <= end) || performance.now() - scrolledAt < LEFT_ALONE) return;
    const above = Math.max(8, Math.min(end * 0.15, end - (bottom - top)));
    scrollBy({ top: top - above, behavior: calm.matches ? 'instant' : 'smooth' });
  }

  return { element: band, show };
}
