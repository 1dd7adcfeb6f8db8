/**
 * Choosing bars on the block itself: a layer over it with a button for every bar. A press chooses its bar; a press on
 * another bar extends the choice to it, one inside the choice narrows it to that bar, and one on the only chosen bar
 * clears it. A drag chooses what it passes; arrow keys move, and with the shift key extend.
 */
import type { BarRange } from '../../schedule/settings.ts';
import { barAmongAll } from '../../score/bar-words.ts';
import type { Playback } from '../../score/playback.ts';
import { itemAt } from '../../values/checked.ts';
import { elementAt } from '../query.ts';
import { playerText } from '../texts/player.ts';
import { make } from './dom.ts';
import { watchTiles } from './watch-tiles.ts';

/** The bars of a drawing, by which a student chooses what to loop. */
export interface Tiles {
  readonly element: HTMLElement;
  /** Shows a choice of bars; undefined for none. */
  readonly show: (range: BarRange | undefined) => void;
}

/** `chosen` hears of a choice when it is made, `moved` when the block's tiles lie elsewhere or were drawn again. */
export function offerTiles(
  block: HTMLElement,
  playback: () => Playback,
  chosen: (range: BarRange | undefined) => void,
  moved: () => void,
): Tiles {
  const layer = make('div', { class: 'bar-picks', role: 'group', 'aria-label': playerText('barsToLoop') });
  let range: BarRange | undefined;
  /** The bar the keyboard is on: the only one of the block in the tab order. */
  let here = 0;
  /** The end of the choice that stays while the other is dragged, and while the other is moved with the shift key. */
  let anchor: number | undefined;
  let post: number | undefined;
  /** What a drag has passed so far. */
  let dragged: BarRange | undefined;

  const barOf = (element: Element | null): number | undefined => {
    const bar = element?.closest<HTMLElement>('[data-loop-bar]')?.dataset['loopBar'];
    return bar === undefined || !layer.contains(element) ? undefined : Number(bar);
  };
  const between = (a: number, b: number): BarRange => ({ first: Math.min(a, b), last: Math.max(a, b) });

  function choose(next: BarRange | undefined): void {
    show(next);
    chosen(next);
  }

  function show(next: BarRange | undefined): void {
    range = next;
    mark(next);
  }

  const picks = (): HTMLElement[] => [...layer.querySelectorAll<HTMLElement>(':scope > *')];

  function mark(next: BarRange | undefined): void {
    for (const pick of picks()) {
      const bar = Number(pick.dataset['loopBar']);
      const inside = next !== undefined && bar >= next.first && bar <= next.last;
      pick.classList.toggle('chosen', inside);
      if (!(pick instanceof HTMLButtonElement)) continue;
      pick.setAttribute('aria-pressed', String(inside));
      pick.tabIndex = bar === here ? 0 : -1;
    }
  }

  /** One button a bar; where a crowded bar takes two tiles, the second is covered too but is no button of its own. */
  function furnish(): void {
    const tiles = [...block.querySelectorAll<SVGElement>('[data-bar]')];
    const offered = picks().map((pick) => pick.dataset['loopBar']);
    if (tiles.map((tile) => tile.dataset['bar']).join() !== offered.join()) {
      const focused = barOf(document.activeElement);
      const seen = new Set<number>();
      layer.replaceChildren(
        ...tiles.map((tile) => {
          const index = Number(tile.dataset['bar']);
          const bar = itemAt(playback().bars, index);
          const again = seen.has(index);
          seen.add(index);
          if (again) return make('span', { 'data-loop-bar': index });
          const name = barAmongAll(bar);
          const { part } = bar;
          const label =
            part === undefined
              ? playerText('loopBar', { bar: name })
              : playerText('loopBarOfPart', { bar: name, part });
          return make('button', {
            type: 'button',
            'data-loop-bar': index,
            'aria-label': label,
          });
        }),
      );
      show(range);
      // A harp on which a bar takes more tiles, or fewer, takes the focus from no bar.
      if (focused !== undefined) buttonOf(focused)?.focus({ preventScroll: true });
    }
    const origin = layer.getBoundingClientRect();
    for (const [index, pick] of picks().entries()) {
      const { left, top, width, height } = itemAt(tiles, index).getBoundingClientRect();
      pick.style.left = `${left - origin.left}px`;
      pick.style.top = `${top - origin.top}px`;
      pick.style.width = `${width}px`;
      pick.style.height = `${height}px`;
    }
  }

  function press(bar: number): void {
    if (!range) choose({ first: bar, last: bar });
    else if (range.first === bar && range.last === bar) choose(undefined);
    else if (bar < range.first) choose({ first: bar, last: range.last });
    else if (bar > range.last) choose({ first: range.first, last: bar });
    else choose({ first: bar, last: bar });
  }

  const buttonOf = (bar: number): HTMLElement | null =>
    layer.querySelector<HTMLElement>(`button[data-loop-bar="${bar}"]`);

  function focusBar(bar: number): void {
    here = bar;
    mark(range);
    buttonOf(bar)?.focus();
  }

  layer.addEventListener('pointerdown', (event) => {
    const bar = barOf(elementAt(event));
    if (bar === undefined || event.button !== 0) return;
    anchor = bar;
    dragged = undefined;
    // A finger would otherwise keep the first button as its target, and so would a mouse over a selection.
    if (layer.hasPointerCapture(event.pointerId)) layer.releasePointerCapture(event.pointerId);
  });
  layer.addEventListener('pointermove', (event) => {
    if (anchor === undefined || event.buttons === 0) return;
    const bar = barOf(document.elementFromPoint(event.clientX, event.clientY));
    if (bar === undefined || (bar === anchor && !dragged)) return;
    dragged = between(anchor, bar);
    mark(dragged);
  });
  addEventListener('pointerup', () => {
    if (anchor !== undefined && dragged) choose(dragged);
    anchor = undefined;
  });
  addEventListener('pointercancel', () => {
    if (dragged) mark(range);
    anchor = undefined;
    dragged = undefined;
  });

  layer.addEventListener('click', (event) => {
    const bar = barOf(elementAt(event));
    // A drag has chosen before its click arrives; a click by a key has no drag before it.
    const drags = dragged && event.detail > 0;
    dragged = undefined;
    if (bar === undefined) return;
    if (!drags) press(bar);
    focusBar(bar);
  });

  layer.addEventListener('keydown', (event) => {
    const bar = barOf(elementAt(event));
    if (bar === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    const end = playback().bars.length - 1;
    const steps: Readonly<Record<string, number>> = {
      ArrowLeft: bar - 1,
      ArrowUp: bar - 1,
      ArrowRight: bar + 1,
      ArrowDown: bar + 1,
      Home: 0,
      End: end,
    };
    const to = steps[event.key];
    if (event.key === 'Escape' && range) choose(undefined);
    else if (to === undefined) return;
    else {
      const next = Math.max(0, Math.min(end, to));
      if (event.shiftKey) {
        post ??= bar;
        choose(between(post, next));
      } else post = undefined;
      focusBar(next);
    }
    event.preventDefault();
  });

  const look = (): void => {
    furnish();
    moved();
  };
  watchTiles(block, () => layer.parentElement, look);
  return { element: layer, show };
}
