/** What makes a page wider than its window, or scrolls sideways within it. */
import type { Page } from 'playwright-core';

/** Names of the elements that do; none for a page that fits. */
export const sidewaysOn = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const root = document.scrollingElement ?? document.documentElement;
    const nameOf = (element: Element): string =>
      [
        element.tagName.toLowerCase(),
        element.id && `#${element.id}`,
        ...[...element.classList].map((own) => `.${own}`),
      ].join('');
    const scrolls = (element: Element): boolean => {
      const { overflowX } = getComputedStyle(element);
      return overflowX !== 'visible' && element.scrollWidth > element.clientWidth;
    };
    const inside = [...document.querySelectorAll('.tab-block, .tab-block *')].filter(
      (element) =>
        element instanceof HTMLElement && scrolls(element) && getComputedStyle(element).overflowX !== 'hidden',
    );
    const found = inside.map(
      (element) => `${nameOf(element)} scrolls by ${element.scrollWidth - element.clientWidth} px`,
    );
    if (root.scrollWidth <= root.clientWidth) return found;
    const wide = [...document.body.querySelectorAll('*')].filter((element) => {
      if (element.getBoundingClientRect().right <= root.clientWidth + 0.5) return false;
      for (let at = element.parentElement; at && at !== document.body; at = at.parentElement) {
        if (getComputedStyle(at).overflowX !== 'visible') return false;
      }
      return true;
    });
    const outermost = wide.filter((element) => !wide.includes(element.parentElement ?? document.body));
    const by = root.scrollWidth - root.clientWidth;
    return [...found, `the page by ${by} px: ${outermost.map(nameOf).join(', ')}`];
  });
