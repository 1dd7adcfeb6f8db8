/**
 * The author's loop in the browser: when the course was read again, the page is fetched again, and what differs from what was sent
 * before is replaced. Only the authoring server's pages have this script, in front of all others. A page that cannot be changed in place
 * is loaded again.
 */
import { outdateMusic } from '../harp/music.ts';
import { outdatePathLessons } from '../progress/path-lessons.ts';
import { followPage } from './live-page.ts';
import { followProblems } from './problems.ts';

/** What the authoring server sends when it has read the course again (publish/serve.ts): paths below the course folder that changed. */
const READ_AGAIN = 'reedway:read-again';
/** Dispatched on `document` when the page shows what was saved. */
const SHOWN_EVENT = 'reedway:shown';

declare global {
  interface ImportMeta {
    readonly hot?: import('vite/types/hot.js').ViteHotContext;
  }
}

const page = followPage();
const sayProblems = followProblems();
let latest: string | undefined;
let changed = new Set<string>();
let isFollowing = false;

import.meta.hot?.on(READ_AGAIN, ({ files }: { readonly files: readonly string[] }) => {
  changed = new Set([...changed, ...files]);
  if (!isFollowing) void follow();
});

/** Saves come faster than pages are made: only the last one has to be shown. */
async function follow(): Promise<void> {
  isFollowing = true;
  try {
    while (changed.size > 0) {
      const files = changed;
      changed = new Set();
      await show(files);
    }
  } catch {
    location.reload();
  }
  isFollowing = false;
}

async function show(files: ReadonlySet<string>): Promise<void> {
  const response = await fetch(location.pathname, { headers: { accept: 'text/html' }, cache: 'no-store' });
  if (!response.ok) throw new Error(`${location.pathname}: ${response.status}`);
  const text = await response.text();
  outdateMusic();
  outdatePathLessons();
  if (text !== latest) {
    latest = text;
    const isOther = page.update(new DOMParser().parseFromString(text, 'text/html'));
    if (isOther) await start();
    sayProblems();
  }
  await refetchMedia(files);
  document.dispatchEvent(new CustomEvent(SHOWN_EVENT));
}

/** New elements start by themselves; what works on the whole page is given the new parts. */
async function start(): Promise<void> {
  if (document.querySelector('.figure')) {
    const { offerTones } = await import('../tones/offer.ts');
    offerTones();
  }
  if (!document.querySelector('harp-choice')) return;
  const [{ readChosen }, { findAgain, redraw }] = await Promise.all([
    import('../harp/chosen.ts'),
    import('../harp/redraw.ts'),
  ]);
  if (findAgain()) await redraw(readChosen());
}

/** A picture whose file changed has the same address; a recording that changed starts from its beginning, as the page does. */
async function refetchMedia(files: ReadonlySet<string>): Promise<void> {
  const base = document.documentElement.dataset['base'] ?? '/';
  const addresses = new Set([...files].map((file) => `${base}${file.replace(/^public\//, '')}`));
  const shows = (address: string): boolean => addresses.has(decodeURI(new URL(address, location.href).pathname));
  for (const media of document.querySelectorAll<HTMLMediaElement>('video[src], audio[src], source[src], track[src]'))
    if (shows(media.src)) throw new Error('a recording changed');
  for (const picture of document.querySelectorAll('img')) {
    if (!shows(picture.src)) continue;
    await fetch(picture.src, { cache: 'reload' });
    const address = new URL(picture.src);
    address.searchParams.set('read', `${Date.now()}`);
    picture.src = address.href;
  }
}
