/**
 * Answers an address that asks for bars, a tempo or a loop, when the page is opened and when a link within it is pressed. A link to the
 * page it is on does not load the page again.
 */

/** Whether a query asks for a block to be played. */
const asks = (search: string): boolean => ASKS.test(search);
const ASKS = /[?&](?:bars|tempo|loop)=/;

let loaded: Promise<typeof import('./asked.ts')> | undefined;
const load = () => {
  loaded ??= import('./asked.ts');
  return loaded;
};
/** Where it cannot be loaded, the page is as without scripts: at the block. */
const NOTHING = (): void => {};

if (asks(location.search)) load().then(({ showAtOpening }) => showAtOpening(), NOTHING);
addEventListener('popstate', () => {
  const isAsked = asks(location.search);
  if (loaded || isAsked) load().then(({ showAgain }) => showAgain(isAsked), NOTHING);
});
addEventListener('click', follow);

function follow(event: MouseEvent): void {
  const link = event.target instanceof Element && event.target.closest('a');
  if (!(link instanceof HTMLAnchorElement) || link.target || !link.hash) return;
  // One that is to be opened elsewhere is the browser's.
  if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
  // A place of the page by its anchor alone keeps what the address asks for.
  if (link.getAttribute('href')?.startsWith('#')) return;
  if (link.origin + link.pathname !== location.origin + location.pathname) return;
  if (!asks(link.search) && (link.search === location.search || !asks(location.search))) return;
  event.preventDefault();
  const { href, search } = link;
  load().then(
    ({ followLink }) => followLink(new URL(href), asks(search)),
    () => location.assign(href),
  );
}

// It is loaded for what it does.
export {};
