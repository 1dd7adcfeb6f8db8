/**
 * Choosing bars on the block itself: every tile gets a button over it. A press chooses its bar; a press on another bar
 * stretches the choice to it, one inside the choice narrows it to that bar, and one on the only bar chosen lets it go.
 * A drag across tiles chooses what lies between; arrow keys move, and with the shift key stretch.
 */
import type { Playback } from '../../score/playback.ts';
import type { BarRange } from '../schedule/settings.ts';
import { make } from './dom.ts';
import { barInWords } from './words.ts';

export interface Tiles {
  /** Shows a choice of bars; undefined for none. */
  readonly show: (range: BarRange | undefined) => void;
}

const PICK = 'bar-pick';

export function offerTiles(
  block: HTMLElement,
  playback: () => Playback,
  chosen: (range: BarRange | undefined) => void,
): Tiles {
  let range: BarRange | undefined;
  /** The bar the keyboard stands on: the only one of the block in the tab order. */
  let here = 0;
  /** The end of the choice that stays while the other is dragged or moved. */
  let anchor: number | undefined;
  let dragged = false;

  const tiles = (): HTMLElement[] => [...block.querySelectorAll<HTMLElement>('[data-bar]')];
  const barOf = (element: Element | null | undefined): number | undefined => {
    const tile = element?.closest<HTMLElement>('[data-bar]');
    return tile && block.contains(tile) ? Number(tile.dataset['bar']) : undefined;
  };

  function choose(next: BarRange | undefined): void {
    show(next);
    chosen(next);
  }
  const between = (a: number, b: number): BarRange => ({ first: Math.min(a, b), last: Math.max(a, b) });

  function show(next: BarRange | undefined): void {
    range = next;
    for (const tile of tiles()) {
      const bar = Number(tile.dataset['bar']);
      const inside = next !== undefined && bar >= next.first && bar <= next.last;
      tile.classList.toggle('chosen', inside);
      const pick = tile.querySelector<HTMLElement>(`:scope > .${PICK}`);
      pick?.setAttribute('aria-pressed', String(inside));
      pick?.setAttribute('tabindex', bar === here ? '0' : '-1');
    }
  }

  /** Puts the buttons on tiles that have none: all at first, and those drawn anew for another harp. */
  function furnish(): void {
    for (const tile of tiles()) {
      if (tile.querySelector(`:scope > .${PICK}`)) continue;
      const bar = playback().bars[Number(tile.dataset['bar'])];
      if (!bar) continue;
      const name = barInWords(bar);
      const part = bar.part === undefined ? '' : `, ${bar.part}`;
      tile.append(
        make('button', { type: 'button', class: PICK, 'aria-label': `Loop ${name}${part}`, 'aria-pressed': 'false' }),
      );
    }
    show(range);
  }

  function press(bar: number): void {
    if (!range) choose({ first: bar, last: bar });
    else if (range.first === bar && range.last === bar) choose(undefined);
    else if (bar < range.first || bar > range.last) choose(between(bar, bar < range.first ? range.last : range.first));
    else choose({ first: bar, last: bar });
  }

  function stand(bar: number): void {
    here = bar;
    show(range);
    block.querySelector<HTMLElement>(`[data-bar="${bar}"] > .${PICK}`)?.focus();
  }

  block.addEventListener('pointerdown', (event) => {
    const bar = barOf(event.target as Element);
    if (bar === undefined || event.button !== 0) return;
    anchor = bar;
    dragged = false;
  });
  block.addEventListener('pointermove', (event) => {
    if (anchor === undefined || event.buttons === 0) return;
    const bar = barOf(document.elementFromPoint(event.clientX, event.clientY));
    if (bar === undefined || (bar === anchor && !dragged)) return;
    dragged = true;
    choose(between(anchor, bar));
  });
  const letGo = (): void => {
    anchor = undefined;
  };
  block.addEventListener('pointerup', letGo);
  block.addEventListener('pointercancel', letGo);

  block.addEventListener('click', (event) => {
    const bar = barOf(event.target as Element);
    if (bar === undefined) return;
    here = bar;
    // The click that ends a drag has chosen already.
    if (!dragged) press(bar);
    dragged = false;
  });

  block.addEventListener('keydown', (event) => {
    const bar = barOf(event.target as Element);
    if (bar === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    const last = playback().bars.length - 1;
    const to = { ArrowLeft: bar - 1, ArrowUp: bar - 1, ArrowRight: bar + 1, ArrowDown: bar + 1, Home: 0, End: last }[
      event.key
    ];
    if (event.key === 'Escape' && range) choose(undefined);
    else if (to === undefined) return;
    else {
      const next = Math.max(0, Math.min(last, to));
      if (event.shiftKey) {
        anchor ??= bar;
        choose(between(anchor, next));
      }
      stand(next);
    }
    event.preventDefault();
    event.stopPropagation();
  });
  block.addEventListener('keyup', (event) => {
    if (event.key === 'Shift') letGo();
  });

  furnish();
  new MutationObserver(furnish).observe(block, { childList: true, subtree: true });
  return { show };
}
