/** A lesson on a phone: its text is on the first screen and its first block few keys away. */
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
