/** A lesson on a phone: its text is on the first screen and its first block few keys away; targets are large enough to touch. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { demoSite, type SharedSite } from './shared-site.ts';
import { withBrowser as test } from './with-browser.ts';

const PHONE = { viewport: { width: 360, height: 740 }, hasTouch: true };
/** Tab stops of a page before the first block, whose own stop is not counted. */
const MOST_STOPS = 12;

let site: SharedSite;
beforeAll(async () => {
  site = await demoSite();
});
afterAll(() => site.close());

const lessons = (): string[] => site.pages.filter((page) => /^lessons\/./.test(page));

/** Presses Tab until the focus is in a block, in a text of the lesson, or on another page part after them. */
async function stopsBeforeText(page: Page): Promise<number> {
  for (let stops = 0; stops < 100; stops++) {
    await page.keyboard.press('Tab');
    const there = await page.evaluate(() => !document.activeElement?.closest('.skip, .masthead, .lesson-head'));
    if (there) return stops;
  }
  throw new Error('the focus does not leave the head of the page');
}

test('the text of every lesson begins on the first screen, after few tab stops', { timeout: 180_000 }, async ({
  newPage,
}) => {
  const page = await newPage(PHONE);
  const measured: { path: string; top: number; stops: number }[] = [];
  for (const path of lessons()) {
    await page.goto(site.address + path);
    await page.waitForFunction(
      () => customElements.get('harp-choice') !== undefined || !document.querySelector('harp-choice'),
    );
    const top = await page.evaluate(
      () =>
        document.querySelector('.lesson-text > p, .lesson-text > ol, .lesson-text > ul')?.getBoundingClientRect().top ??
        0,
    );
    measured.push({ path, top: Math.round(top), stops: await stopsBeforeText(page) });
  }
  console.info(
    `the text begins ${Math.min(...measured.map(({ top }) => top))} to ${Math.max(...measured.map(({ top }) => top))} px down, after ${Math.min(...measured.map(({ stops }) => stops))} to ${Math.max(...measured.map(({ stops }) => stops))} tab stops`,
  );
  expect(measured.length).toBeGreaterThan(20);
  // A line of the text has to be on the screen, not only its upper edge.
  expect(measured.filter(({ top, stops }) => top > 740 - 28 || stops > MOST_STOPS)).toEqual([]);
});

test('every target is 24 pixels, or as far from others as that', { timeout: 180_000 }, async ({ newPage }) => {
  const page = await newPage(PHONE);
  const small = new Map<string, string>();
  for (const path of site.pages) {
    await page.goto(site.address + path);
    for (const [what, size] of await page.evaluate(smallTargets))
      if (!small.has(what)) small.set(what, `${size} on ${path}`);
  }
  expect([...small]).toEqual([]);
});

/**
 * WCAG 2.2, 2.5.8: targets below 24 by 24 pixels whose circle of 24 pixels meets another target or its circle. Links within
 * sentences are exempt, and so are controls as the browser draws them and what a label makes larger.
 */
function smallTargets(): [what: string, size: string][] {
  const boxOf = (element: Element): DOMRect => (element.closest('label') ?? element).getBoundingClientRect();
  const targets = [
    ...document.querySelectorAll('a[href], button, summary, input, select, [role="button"], [tabindex="0"]'),
  ]
    .filter((element) => element.checkVisibility() && !element.matches('.skip'))
    .filter((element) => {
      const { width, height } = boxOf(element);
      return width > 0 && height > 0;
    });
  const inSentence = (element: Element): boolean => {
    const around = element.closest('p, li, dd, td, figcaption, blockquote');
    return (
      element.matches('a') &&
      !!around &&
      around.textContent.trim().length > (element.textContent.trim().length || 1) + 3
    );
  };
  const found: [string, string][] = [];
  for (const element of targets) {
    const box = boxOf(element);
    if ((box.width >= 24 && box.height >= 24) || inSentence(element)) continue;
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
    const near = targets.some((other) => {
      if (other === element || other.contains(element) || element.contains(other)) return false;
      const next = boxOf(other);
      const [dx, dy] = [Math.max(next.left - x, 0, x - next.right), Math.max(next.top - y, 0, y - next.bottom)];
      const isSmall = next.width < 24 || next.height < 24;
      const apart = Math.hypot(next.left + next.width / 2 - x, next.top + next.height / 2 - y);
      return Math.hypot(dx, dy) < 12 || (isSmall && apart < 24);
    });
    const list = element.parentElement?.closest('[class]')?.getAttribute('class') ?? '';
    if (near)
      found.push([`${element.tagName.toLowerCase()} in ${list}`, `${box.width.toFixed(1)} × ${box.height.toFixed(1)}`]);
  }
  return found;
}
