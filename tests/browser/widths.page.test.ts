/** No page of the demo course is wider than its window, whatever the size of text; what is too wide scrolls in a box of its own. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { LONG } from '../setup/long.ts';
import { demoSite, type SharedSite } from './shared-site.ts';
import { openBrowser } from './sound/browser-sound.ts';

const WIDTHS = [320, 360, 820, 1440];
/** Pages with all kinds of figures and controls; the long run opens every page of the site. */
const SOME = ['', 'harps/', 'harps/richter/', 'lessons/blow-bends/', 'lessons/chord-tones/', 'lessons/twelve-bar/'];

let site: SharedSite;
let browser: Browser;
beforeAll(async () => {
  site = await demoSite();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  site?.close();
});

/** A page with its folds open and its text at a size, in per cent of the usual. */
async function open(page: Page, path: string, text: number): Promise<void> {
  await page.goto(site.address + path);
  await page.evaluate((scale) => {
    for (const fold of document.querySelectorAll('details')) fold.open = true;
    const { style } = document.documentElement;
    style.fontSize = `${(Number.parseFloat(getComputedStyle(document.documentElement).fontSize) * scale) / 100}px`;
  }, text);
}

test.each([100, 200])('no page scrolls sideways with text at %i per cent', { timeout: 600_000 }, async (text) => {
  const pages = LONG ? site.pages : SOME;
  expect(site.pages).toEqual(expect.arrayContaining(SOME));
  const page = await browser.newPage();
  const tooWide: string[] = [];
  for (const path of pages) {
    await open(page, path, text);
    for (const width of WIDTHS) {
      await page.setViewportSize({ width, height: 800 });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (over > 0) tooWide.push(`/${path} at ${width} pixels: ${over} too many`);
    }
  }
  expect(tooWide).toEqual([]);
  await page.close();
});

test('a table too wide for its window scrolls by the keyboard and has a name', async () => {
  const page = await browser.newPage({ viewport: { width: 320, height: 800 } });
  await open(page, 'lessons/chord-tones/', 200);
  const box = page.locator('scroll-box').first();
  const scrolls = () => box.evaluate((node) => node.scrollWidth > node.clientWidth);
  await expect.poll(scrolls).toBe(true);
  await expect.poll(() => box.getAttribute('tabindex')).toBe('0');
  expect(await box.getAttribute('aria-label')).toMatch(/\S/);
  await box.focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => box.evaluate((node) => node.scrollLeft)).toBeGreaterThan(0);
  await page.evaluate(() => {
    document.documentElement.style.fontSize = '';
  });
  await page.setViewportSize({ width: 1440, height: 800 });
  expect(await scrolls()).toBe(false);
  await expect.poll(() => box.getAttribute('tabindex')).toBeNull();
  await page.close();
});

test('a table that was drawn again for another harp still scrolls, and its notes are buttons', async () => {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await open(page, 'lessons/blow-bends/', 100);
  const box = page.locator('scroll-box:has(.bend-ladder)').first();
  await box.locator('.tone').first().waitFor();
  const on = await box.locator('.on').textContent();
  await page.locator('harp-choice select').first().selectOption({ label: 'C' });
  await expect.poll(() => box.locator('.on').textContent()).not.toBe(on);
  await box.locator('.tone').first().waitFor();
  await page.setViewportSize({ width: 320, height: 800 });
  await box.evaluate((node) => {
    node.style.width = '10rem';
  });
  await expect.poll(() => box.getAttribute('tabindex')).toBe('0');
  await page.close();
});
