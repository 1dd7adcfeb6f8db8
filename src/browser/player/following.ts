/** Whether the page scrolls with the playing, and how far. */
import type { PlayedRow } from './cursor.ts';

/** Milliseconds after which a reader who has scrolled away is followed again. */
const AFTER_SCROLLING = 4000;
/** The same of a reader who has used a control of the player. */
const AFTER_USE = 5000;
/** Milliseconds that a scroll of the page's own takes at most, where a browser does not say that it has ended. */
const OWN_SCROLL = 1500;
/** Milliseconds in which a browser scrolls to keep its place in a page whose length has changed. */
const SETTLING = 300;
/** Pixels between what is followed and the edge of what can be seen. */
const MARGIN = 8;

/** The part of the window that nothing covers, in pixels from its top. */
export interface Visible {
  readonly top: number;
  readonly bottom: number;
}

/** Pixels to scroll down so that a row is in sight, a little below the top; 0 where it is. */
export function scrollFor(row: Visible, { top, bottom }: Visible): number {
  if (row.top >= top && row.bottom <= bottom) return 0;
  const room = bottom - top;
  return row.top - top - Math.max(MARGIN, Math.min(room * 0.15, room - (row.bottom - row.top)));
}

/** What of a row is to be seen: all of it or, where it has no room, the part that players read. */
export const partToSee = (row: Visible, part: Visible | undefined, { top, bottom }: Visible): Visible =>
  part && row.bottom - row.top > bottom - top ? part : row;

/** When a reader last did something that following must not undo. Times are in milliseconds of one clock. */
export interface Hands {
  readonly used: (now: number) => void;
  /** The reader asks for the playing, and wants to see it. */
  readonly asked: () => void;
  /** The page scrolls by itself: the scrolling until it rests is not the reader's. */
  readonly scrolls: (now: number) => void;
  /** The page is scrolled: by itself, or by the reader with a wheel, a finger, a key, the scroll bar or a link. */
  readonly moved: (now: number) => void;
  readonly rests: () => void;
  readonly areOff: (now: number) => boolean;
  /** Whether the reader has scrolled since the playing was asked for. */
  readonly haveLeft: () => boolean;
}

/** Hands that have done nothing yet. */
export function handsOfReader(): Hands {
  let offFrom = 0;
  let ownUntil = 0;
  let left = false;
  const hold = (until: number): void => {
    offFrom = Math.max(offFrom, until);
  };
  return {
    used: (now) => hold(now + AFTER_USE),
    asked: () => {
      offFrom = 0;
      left = false;
    },
    scrolls: (now) => {
      ownUntil = now + OWN_SCROLL;
    },
    moved: (now) => {
      if (now <= ownUntil) return;
      hold(now + AFTER_SCROLLING);
      left = true;
    },
    rests: () => {
      ownUntil = 0;
    },
    areOff: (now) => now >= offFrom,
    haveLeft: () => left,
  };
}

/** What stays on the screen, wherever the page is scrolled to. */
const FIXED = '.player';
/** A press on it asks for the playing. */
const PLAY = '.player-play, .player-back, .player-head';
const CONTROL = 'reedway-player :is(button, summary, input, select)';

/**
 * Scrolls the window to a row of `block` that is played, as far as its reader's hands allow. `visibleBottom` is where the player covers the
 * page. A reader who has gone to another part of the page stays there until asking for the playing again.
 */
export function followIn(
  block: HTMLElement,
  visibleBottom: () => number,
  signal: AbortSignal,
): (row: PlayedRow) => void {
  const hands = handsOfReader();
  const calm = matchMedia('(prefers-reduced-motion: reduce)');
  const on = (kinds: readonly string[], heard: (now: number, event: Event) => void): void => {
    for (const kind of kinds) {
      addEventListener(kind, (event) => heard(performance.now(), event), { passive: true, signal });
    }
  };
  // Where the page becomes longer or shorter, by another harp say, the browser scrolls to keep its place: before or after its observer.
  let settles = Number.NEGATIVE_INFINITY;
  let height = 0;
  const size = new ResizeObserver(() => {
    settles = performance.now() + SETTLING;
    height = document.body.offsetHeight;
  });
  size.observe(document.body, { box: 'border-box' });
  signal.addEventListener('abort', () => size.disconnect());
  on(['scroll'], (now) => {
    if (now > settles && document.body.offsetHeight === height) hands.moved(now);
  });
  // A reader's hand ends the page's own scrolling: what is scrolled then is the reader's, PageDown as well as a wheel.
  on(['scrollend', 'wheel', 'touchmove', 'keydown'], hands.rests);
  on(['input', 'keydown', 'click'], (now, { type, target }) => {
    const control = target instanceof Element && block.contains(target) && target.closest(CONTROL);
    if (!control) return;
    if (control.closest(PLAY)) {
      if (type === 'click') hands.asked();
    } else if (!control.closest(FIXED)) hands.used(now);
  });

  function isOut({ top, bottom }: Visible): boolean {
    const own = block.getBoundingClientRect();
    return own.bottom < top || own.top > bottom;
  }

  /** Whether a control that has the focus would be scrolled out of the window. A bar that was touched has no need to stay. */
  function losesFocus(top: number, by: number): boolean {
    const focused = block.querySelector(`${CONTROL}:focus:not(${FIXED} *, .bar-picks *), .bar-picks > :focus-visible`);
    if (!focused) return false;
    const own = focused.getBoundingClientRect();
    return own.bottom > top && own.top < innerHeight && (own.top - by < top || own.bottom - by > innerHeight);
  }

  return ({ whole, lanes }) => {
    // What covers the head of a page is what links into it leave room for.
    const top = Number.parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop) || 0;
    const visible = { top, bottom: visibleBottom() };
    const by = scrollFor(partToSee(whole, lanes, visible), visible);
    const now = performance.now();
    if (by === 0 || !hands.areOff(now) || (hands.haveLeft() && isOut(visible)) || losesFocus(top, by)) return;
    hands.scrolls(now);
    scrollBy({ top: by, behavior: calm.matches ? 'instant' : 'smooth' });
  };
}
