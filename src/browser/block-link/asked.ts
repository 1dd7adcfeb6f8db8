/**
 * Shows what the address of the page asks of a block before it plays, and hands it to the block's player. A harp in the address is the
 * page's own anyway (harp/chosen.ts), and is not stored.
 */
import { readBlockLink } from '../../schedule/block-link.ts';
import type { PlaySettings } from '../../schedule/settings.ts';
import type { Playback } from '../../score/playback.ts';
import { type Chosen, chosenName, HARP_EVENT, readChosen, tuningsOfCourse } from '../harp/chosen.ts';
import { make } from '../player/dom.ts';
// Who opens such an address is about to play: the further controls are there then, and share their files with this.
import '../player/sheet/sheet.ts';
import { blockLinkText } from '../texts/block-link.ts';
import type { Asked } from './asked-event.ts';
import { linkInWords, linkProblemInWords } from './in-words.ts';

/**
 * Whether the address of an entry of the history asks for something: one that the browser makes itself, for a place in the page, keeps the
 * query and does not.
 */
interface Entry {
  readonly asks?: boolean;
}
const ASKED_EVENT: keyof HTMLElementEventMap = 'asked';
const ASKING: Entry = { asks: true };
const PLACE_ALONE: Entry = { asks: false };

let shown: readonly Element[] = [];
/** Ends what waits for the player of a block to be opened. */
let waiting: MutationObserver | undefined;
/** Ends with what the address asked for. */
let asking = new AbortController();
let harp = harpName(readChosen());

/** What the page is opened with: an entry that was made for a place in the page may be opened again. */
export function showAtOpening(): void {
  const entry: Entry | null = history.state;
  if (entry?.asks !== false) showAsked();
}

/** Shows what the address asks for at its block, and what of it is wrong. */
function showAsked(): void {
  forget();
  history.replaceState(ASKING, '');
  const host = placeAsked()?.closest('[data-block]')?.querySelector('reedway-player');
  if (!host) {
    const page = document.querySelector('main') ?? document.body;
    complain((message) => page.prepend(message), [blockLinkText('noBlock')]);
    return;
  }
  const ask = (detail: Asked) => host.dispatchEvent(new CustomEvent(ASKED_EVENT, { detail }));
  // The page has the block as it is written until its player is open.
  const data = host.querySelector('script')?.textContent;
  if (!data) {
    ask((written) => show(host, written, true));
    return;
  }
  show(host, JSON.parse(data) as Playback, false);
  waiting = new MutationObserver(() => {
    if (host.querySelector('script')) return;
    waiting?.disconnect();
    ask((written) => settingsAsked(written).settings);
  });
  waiting.observe(host, { childList: true });
}

function settingsAsked(written: Playback) {
  const tunings = tuningsOfCourse().tunings.map(({ id }) => id);
  const { link, problems } = readBlockLink(location.search, { ...written, tunings });
  const { bars: range, tempo = written.tempo, loop } = link;
  return { settings: { range, tempo, loop, climb: undefined }, link, problems };
}

/** Says what the block will play, and returns it. The controls of an open player show it themselves. */
function show(host: Element, written: Playback, isOpen: boolean): Partial<PlaySettings> {
  const { settings, link, problems } = settingsAsked(written);
  const line = make('p', { class: isOpen ? 'aloud' : 'player-asked', role: 'status' });
  const button = host.querySelector('button');
  if (isOpen) host.append(line);
  else button?.after(line);
  line.textContent = blockLinkText('ready', { what: linkInWords(link, written) });
  shown = [line];
  const wrong = problems.flatMap((problem) => linkProblemInWords(problem, written) ?? []);
  if (wrong.length > 0) complain((message) => host.append(message), [blockLinkText('ignored'), ...wrong]);
  // Later settings are not those that were asked for.
  if (!isOpen) button?.addEventListener('click', asksOrGoesOn, { signal: asking.signal });
  return settings;
}

/** A click with settings of its own, which goes on from last time, asks for these instead. */
function asksOrGoesOn({ detail }: CustomEventInit<unknown>): void {
  if (typeof detail === 'object' && detail !== null) forget();
  else clear();
}

function complain(put: (message: HTMLElement) => void, sentences: readonly string[]): void {
  const message = make('p', { class: 'player-message', role: 'alert' });
  put(message);
  message.textContent = sentences.join(' ');
  shown = [...shown, message];
}

function clear(): void {
  for (const element of shown) element.remove();
  shown = [];
}

/** What was asked for is asked no more. What an open player took on stays. */
function forget(): void {
  asking.abort();
  asking = new AbortController();
  waiting?.disconnect();
  clear();
}

/** What the address names in the page. */
function placeAsked(): Element | null {
  const id = location.hash.slice(1);
  try {
    return document.getElementById(decodeURIComponent(id));
  } catch {
    return document.getElementById(id);
  }
}

function harpName({ harp: chosen, tuned }: Chosen): string {
  return `${chosen ? chosenName(chosen) : ''}/${tuned?.tuning.id ?? ''}`;
}

/** The page follows a harp that another address names. */
function followHarp(): void {
  const chosen = readChosen();
  if (harpName(chosen) === harp) return;
  harp = harpName(chosen);
  document.dispatchEvent(new CustomEvent<Chosen>(HARP_EVENT, { detail: chosen }));
}

/** The address is one that the page had before, or has a new place in the page; `asks` is whether it asks for anything. */
export function showAgain(asks: boolean): void {
  followHarp();
  const entry: Entry | null = history.state;
  if (!asks) forget();
  else if (entry?.asks) showAsked();
  else history.replaceState(PLACE_ALONE, '');
}

/** Follows a link to a place of the page it is on. The harp stays unless the link names one. */
export function followLink(next: URL, asks: boolean): void {
  const named = ['harp', 'tuning'] as const;
  const now = new URLSearchParams(location.search);
  const kept = named.some((name) => next.searchParams.has(name)) ? [] : named;
  for (const name of kept) {
    const value = now.get(name);
    if (value !== null) next.searchParams.set(name, value);
  }
  harp = harpName(readChosen());
  history.pushState(null, '', next);
  followHarp();
  if (asks) showAsked();
  else forget();
  const place = placeAsked();
  place?.scrollIntoView();
  const play = asks ? place?.closest('[data-block]')?.querySelector('reedway-player button') : undefined;
  if (play instanceof HTMLElement) play.focus({ preventScroll: true });
}
