/**
 * Sets every block and figure of a page for the student's harp. The engraver runs in a worker, so that nothing stutters,
 * and what can be seen comes first. What is on the page as written is kept, and comes back without being drawn.
 */
import type { FigureOnHarp } from '../../engrave/figure/figure.ts';
import { present } from '../../values/checked.ts';
import { drawingHolder } from '../scroll-box.ts';
import { type Chosen, differs, LoadingTooSlow, readChosen } from './chosen.ts';
import { musicAddress } from './music.ts';
import { findSaid, type Said } from './said.ts';
import type { Drawn, RedrawJob } from './worker.ts';

/** Dispatched on a figure that was set again; `detail` is the markup, as the engraver gave it. */
export const REDRAWN_EVENT = 'reedway:redrawn';

/** Something on the page that follows the harp. */
interface Place {
  /** The figure around it. */
  readonly figure: HTMLElement;
  /** What is in it as written. */
  readonly written: readonly Element[];
  /** What is in it now. */
  shown: readonly Element[];
  /** What it was last drawn for. */
  drawnFor?: Chosen | undefined;
  readonly job: (chosen: Chosen) => RedrawJob;
}

let places: readonly Place[] | undefined;
let said: Said | undefined;
let worker: Worker | undefined;
/** Choices come faster than pages are set: only the last one is finished. */
let latest = 0;

/**
 * Resolves to whether the page now is as chosen; false where a later choice has overtaken this one. Where something cannot be drawn
 * it rejects, and the whole page is as written: half of it for another harp would contradict the rest.
 */
export async function redraw(chosen: Chosen): Promise<boolean> {
  const mine = ++latest;
  places ??= findPlaces();
  said ??= findSaid();
  if (!differs(chosen)) {
    restore(places, said);
    return true;
  }
  try {
    return await redrawAll(chosen, mine, places, said);
  } catch (error) {
    if (mine === latest) restore(places, said);
    throw error;
  }
}

function restore(all: readonly Place[], words: Said): void {
  words.restore();
  for (const place of all) {
    put(place, place.written, { html: '' });
    place.drawnFor = undefined;
  }
}

async function redrawAll(chosen: Chosen, mine: number, all: readonly Place[], words: Said): Promise<boolean> {
  // A sentence is as quick as its words, and stands beside music that takes longer.
  if (words.lesson !== undefined) {
    const { harp, tuned } = chosen;
    const { html } = await draw({ kind: 'said', music: musicAddress(words.lesson), harp, tuned });
    if (mine !== latest) return false;
    words.put(elementsOf(html));
  }
  // The reader may scroll while the page is being redrawn.
  const waiting = new Set(all);
  while (waiting.size > 0) {
    const place = nearest(waiting);
    waiting.delete(place);
    if (isSame(place.drawnFor, chosen)) continue;
    const drawn = await draw(place.job(chosen));
    if (mine !== latest) return false;
    if (drawn.sheet) addOutlines(drawn.sheet);
    put(place, elementsOf(drawn.html), drawn);
    place.drawnFor = chosen;
  }
  return true;
}

/**
 * Looks again for what follows the harp, after parts of the page were replaced by others as they are written. Returns whether the page has
 * to be drawn again for what is chosen.
 */
export function findAgain(): boolean {
  const chosen = readChosen();
  if (!places) return differs(chosen);
  const known = new Map(places.map((place) => [place.figure, place]));
  places = findPlaces().map((found) => {
    const before = known.get(found.figure);
    return before?.shown.every((element) => element.isConnected) ? before : found;
  });
  said = findSaid(said);
  return differs(chosen);
}

/** Values of a choice are rows of tables, so that equal ones are the same, but for what is read from storage. */
const isSame = (one: Chosen | undefined, other: Chosen): boolean => JSON.stringify(one) === JSON.stringify(other);

function findPlaces(): Place[] {
  const blocks = [...document.querySelectorAll<HTMLElement>('figure[data-block]')].flatMap((figure): Place[] => {
    const written = [...figure.querySelectorAll<HTMLElement>(':scope > .tab-block')];
    const job = ({ harp, tuned }: Chosen): RedrawJob => {
      const { lesson = '', block = '', idPrefix } = figure.dataset;
      return { kind: 'block', music: musicAddress(lesson), block, parts: idPrefix, harp, tuned };
    };
    return written.length > 0 ? [{ figure, written, shown: written, job }] : [];
  });
  const figures = [...document.querySelectorAll<HTMLElement>('figure[data-figure]')].map((figure): Place => {
    const written = [...drawingHolder(figure).children];
    const value = JSON.parse(figure.dataset['figure'] ?? '') as FigureOnHarp;
    const job = ({ harp, tuned, concertA, temperament }: Chosen): RedrawJob => ({
      kind: 'figure',
      figure: value,
      harp,
      tuned,
      pitching: { concertA, temperament },
    });
    return { figure, written, shown: written, job };
  });
  return [...blocks, ...figures];
}

/** What can be seen before what cannot, and then what is closest. */
function nearest(waiting: ReadonlySet<Place>): Place {
  let best: Place | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const place of waiting) {
    const { top, bottom } = place.figure.getBoundingClientRect();
    const away = Math.max(0, top - innerHeight, -bottom);
    if (away < least) [best, least] = [place, away];
  }
  return present(best, 'a place that waits');
}

/** How long the engraver and what it reads may take to load, in milliseconds. Drawing may take longer. */
const LOADING_TIME = 12_000;

/** Rejects with {@link LoadingTooSlow} where what is needed does not come. After a failure the next drawing starts a new worker. */
function draw(job: RedrawJob): Promise<Drawn> {
  worker ??= new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  const asked = worker;
  return new Promise((resolve, reject) => {
    const { port1, port2 } = new MessageChannel();
    const end = (): void => {
      clearTimeout(timer);
      asked.removeEventListener('error', broken);
      port1.close();
    };
    const fail = (error: Error): void => {
      end();
      // What did not load, or never ends, would be waited for again.
      asked.terminate();
      if (worker === asked) worker = undefined;
      reject(error);
    };
    const broken = (): void => fail(new Error('the engraver did not start'));
    const timer = setTimeout(() => fail(new LoadingTooSlow()), LOADING_TIME);
    asked.addEventListener('error', broken, { once: true });
    port1.onmessage = ({ data }: MessageEvent<Drawn | 'loaded' | { readonly failed: string }>) => {
      if (data === 'loaded') {
        clearTimeout(timer);
      } else if ('failed' in data) {
        fail(new Error(data.failed));
      } else {
        end();
        resolve(data);
      }
    };
    asked.postMessage(job, [port2]);
  });
}

function elementsOf(html: string): Element[] {
  const template = document.createElement('template');
  template.innerHTML = html;
  return [...template.content.children];
}

/** Takes the place of what is shown, and keeps what the reader was doing there: an open fold, the keyboard's focus. */
function put(place: Place, next: readonly Element[], { html, retuned }: Drawn): void {
  const { figure, shown } = place;
  // How hard it is and its tab as text are those of the harp it is written for.
  figure.toggleAttribute('data-retuned', retuned ?? false);
  if (next === shown) return;
  const { activeElement } = document;
  const focused = activeElement instanceof HTMLElement ? shown.flatMap(focusableIn).indexOf(activeElement) : -1;
  const open = shown.flatMap(foldsIn).map((fold) => fold.open);
  shown[0]?.before(...next);
  for (const element of shown) element.remove();
  place.shown = next;
  markFound(figure);
  next.flatMap(foldsIn).forEach((fold, index) => {
    fold.open = open[index] ?? false;
  });
  // Other watchers of the page put their buttons on the new drawing first.
  if (focused >= 0) queueMicrotask(() => next.flatMap(focusableIn)[focused]?.focus({ preventScroll: true }));
  figure.dispatchEvent(new CustomEvent(REDRAWN_EVENT, { bubbles: true, detail: html }));
}

/** Notes a technique's page points at are marked again on the notes that are there now. */
function markFound(figure: HTMLElement): void {
  for (const event of (figure.dataset['markedEvents'] ?? '').split(' ').filter(Boolean)) {
    for (const note of figure.querySelectorAll(`[data-event="${event}"]`)) note.classList.add('found');
  }
}

const foldsIn = (element: Element): HTMLDetailsElement[] => [...element.querySelectorAll('details')];
const focusableIn = (element: Element): HTMLElement[] => [
  ...element.querySelectorAll<HTMLElement>('a[href], button, summary, [tabindex]'),
];

/** Outlines the page has not got yet, beside those it has. */
function addOutlines(sheet: string): void {
  const page = document.querySelector('svg.sheet defs');
  for (const element of elementsOf(sheet)) {
    const missing = [...element.querySelectorAll('[id]')].filter(({ id }) => !document.getElementById(id));
    if (page) page.append(...missing);
    else if (missing.length > 0) document.body.prepend(element);
  }
}
