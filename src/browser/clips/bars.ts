/** The bars that the cues of clips are about: which tiles show them, and a button on the first of them for each cue. */
import { button, make } from '../player/dom.ts';
import { watchTiles } from '../player/watch-tiles.ts';
import { clipText } from '../texts/clips.ts';
import type { CueOnPage } from './passage.ts';

/** The drawn bars of a cue. */
export const tilesOf = ({ block, first, last }: CueOnPage): Element[] =>
  [...document.querySelectorAll<SVGElement>(`[data-block="${CSS.escape(block)}"] [data-bar]`)].filter((tile) => {
    const bar = Number(tile.dataset['bar']);
    return bar >= first && bar <= last;
  });

/** A button of a block’s bar that plays the recording from there. */
export interface BarButton {
  readonly text: string;
  /** What is read aloud: which clip it plays, and from where. */
  readonly name: string;
  readonly press: () => void;
}

/** Puts a button above the first bar of a cue. Cues of one bar, perhaps of several clips, are side by side. */
export function offerBar({ block, first }: CueOnPage, { text, name, press }: BarButton): HTMLElement | undefined {
  const figure = document.querySelector<HTMLElement>(`[data-block="${CSS.escape(block)}"]`);
  if (!figure) return undefined;
  const offered = button(text, press, { 'aria-label': name, title: name });
  cuesOver(figure).add(first, offered);
  return offered;
}

interface CuesOver {
  readonly add: (bar: number, element: HTMLElement) => void;
}

/** Pixels between the cues of a row and the row above it. */
const CUE_GAP = 4;

const layers = new WeakMap<HTMLElement, CuesOver>();

function cuesOver(figure: HTMLElement): CuesOver {
  const known = layers.get(figure);
  if (known) return known;
  const layer = make('div', { class: 'bar-cues', role: 'group', 'aria-label': clipText('fromThisBar') });
  const heaps = new Map<number, HTMLElement>();
  figure.classList.add('sounding', 'cued');
  figure.prepend(layer);

  function place(): void {
    const tileOf = (bar: number): DOMRect | undefined =>
      figure.querySelector(`[data-bar="${bar}"]`)?.getBoundingClientRect();
    for (const [bar, heap] of heaps) {
      const tile = tileOf(bar);
      heap.hidden = tile === undefined;
      if (tile) heap.style.maxWidth = `${tile.width}px`;
    }
    // Cues that have no room side by side are in several lines, for which all rows make room.
    const highest = Math.max(0, ...[...heaps.values()].map((heap) => heap.offsetHeight));
    figure.style.setProperty('--cue-room', `${highest + CUE_GAP}px`);
    const origin = layer.getBoundingClientRect();
    for (const [bar, heap] of heaps) {
      const tile = tileOf(bar);
      if (!tile) continue;
      heap.style.left = `${Math.max(0, tile.right - origin.left - heap.offsetWidth)}px`;
      heap.style.top = `${tile.top - origin.top - heap.offsetHeight}px`;
    }
  }

  function add(bar: number, element: HTMLElement): void {
    const heap = heaps.get(bar) ?? make('span', { class: 'bar-cue' });
    heap.append(element);
    heaps.set(bar, heap);
    // In the order of the bars, which is the order in which they are walked with the keyboard.
    layer.append(...[...heaps].sort(([a], [b]) => a - b).map(([, one]) => one));
    place();
  }

  watchTiles(figure, () => layer, place);
  const over: CuesOver = { add };
  layers.set(figure, over);
  return over;
}
