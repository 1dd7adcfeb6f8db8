/** What a reader was doing stays when parts of the page are replaced: where they are on it, the keyboard's focus, what they opened. */

/** Changes the page; what the reader sees of it stays where it is on the screen. `staying` are elements that are not replaced. */
export function keepingPlace(staying: readonly Element[], change: () => void): void {
  const anchor = anchorIn(staying);
  const root = document.documentElement;
  // The browser would move the page by itself as well.
  root.style.overflowAnchor = 'none';
  try {
    const before = anchor?.getBoundingClientRect().top ?? 0;
    change();
    if (anchor?.isConnected) scrollBy({ top: anchor.getBoundingClientRect().top - before, behavior: 'instant' });
  } finally {
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        root.style.removeProperty('overflow-anchor');
        if (root.getAttribute('style') === '') root.removeAttribute('style');
      }),
    );
  }
}

/** The first that begins on the screen, or else the last that begins above it. Where the reader is at the top, the page stays there. */
function anchorIn(staying: readonly Element[]): Element | undefined {
  if (scrollY <= 0) return undefined;
  let best: Element | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const element of staying) {
    const { top, height } = element.getBoundingClientRect();
    if (height === 0 || top >= innerHeight || isFixed(element)) continue;
    const away = top >= 0 ? top : innerHeight - top;
    if (away < least) [best, least] = [element, away];
  }
  return best;
}

/** The list of problems is on the screen wherever the reader is. */
const isFixed = (element: Element): boolean => element.closest('.problems') !== null;

/** Runs `swap`, which puts `now` in place of `before`. */
export function takingOver(before: Element, now: Element, swap: () => void): void {
  const { activeElement } = document;
  const focused = activeElement && before.contains(activeElement) ? focusableIn(before).indexOf(activeElement) : -1;
  const name = activeElement ? nameOf(activeElement) : '';
  keepFolds(before, now);
  swap();
  if (focused < 0) return;
  // Scripts of the page put their buttons on the new part first.
  queueMicrotask(() => {
    const all = focusableIn(now);
    const same = all.find((one) => nameOf(one) === name) ?? all[Math.min(focused, all.length - 1)];
    if (same instanceof HTMLElement || same instanceof SVGElement) same.focus({ preventScroll: true });
  });
}

function keepFolds(before: Element, now: Element): void {
  const [old, next] = [foldsIn(before), foldsIn(now)];
  for (const [index, fold] of next.entries()) {
    const same = old.length === next.length ? old[index] : old.find((one) => titleOf(one) === titleOf(fold));
    if (same) fold.open = same.open;
  }
}

const foldsIn = (element: Element): HTMLDetailsElement[] => [
  ...(element instanceof HTMLDetailsElement ? [element] : []),
  ...element.querySelectorAll('details'),
];
const titleOf = (fold: HTMLDetailsElement): string => fold.querySelector('summary')?.textContent ?? '';
const focusableIn = (element: Element): Element[] => [
  ...(element.matches(FOCUSABLE) ? [element] : []),
  ...element.querySelectorAll(FOCUSABLE),
];
const FOCUSABLE = 'a[href], button, summary, input, select, textarea, [tabindex]';
const nameOf = (element: Element): string =>
  [element.localName, element.id, element.getAttribute('aria-label') ?? element.textContent].join(' ');
