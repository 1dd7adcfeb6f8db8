/** No page is wider than its window, also where a reader has text twice as large: what is too wide scrolls in a box of its own. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { write } from '../course/some-course.ts';
import { alsoLong, LONG } from '../setup/long.ts';
import { demoSite, type SharedSite, sharedSite } from './shared-site.ts';
import { withBrowser as test } from './with-browser.ts';

/** Of a window, with the size of text in it. The first is the narrowest in ems. */
const WINDOWS = alsoLong(
  [{ width: 320, text: 200 }],
  [
    { width: 1440, text: 200 },
    { width: 320, text: 100 },
    { width: 360, text: 100 },
    { width: 360, text: 200 },
    { width: 820, text: 100 },
    { width: 820, text: 200 },
    { width: 1440, text: 100 },
  ],
);

let site: SharedSite;
beforeAll(async () => {
  site = await demoSite();
});
afterAll(() => site?.close());

/** As a browser does for a reader who sets the size of text: a rem is larger, a pixel is not. */
async function setText(page: Page, percent: number): Promise<void> {
  await page.evaluate((percent) => {
    const { style } = document.documentElement;
    style.fontSize = '';
    const usual = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    style.fontSize = `${(usual * percent) / 100}px`;
  }, percent);
}

/** How far the page reaches beyond its window, and which elements outside of a box that scrolls do. */
const beyond = (page: Page): Promise<{ pixels: number; elements: string[] }> =>
  page.evaluate(() => {
    const { clientWidth, scrollWidth } = document.documentElement;
    const elements = [...document.querySelectorAll('main *')]
      .filter((element) => !element.closest('scroll-box > *, svg > *'))
      .filter((element) => element.getBoundingClientRect().right > clientWidth + 1)
      .map((element) => element.outerHTML.slice(0, 80));
    return { pixels: scrollWidth - clientWidth, elements };
  });

async function expectToFit(page: Page, path: string): Promise<void> {
  for (const { width, text } of WINDOWS) {
    await page.setViewportSize({ width, height: 800 });
    await setText(page, text);
    expect(await beyond(page), `/${path} at ${width} pixels, text at ${text} %`).toEqual({ pixels: 0, elements: [] });
  }
}

test.runIf(LONG)('no page of the demo is wider than its window, with all its details open', async ({ newPage }) => {
  const page = await newPage({});
  const techniques = site.pages.filter((path) => /^techniques\/./.test(path));
  const others = site.pages.filter((path) => !techniques.includes(path));
  expect(techniques.length).toBeGreaterThan(20);
  expect(others.length).toBeGreaterThan(site.course.lessons.length);
  const some = others.filter((_, index) => index % 4 === 0);
  for (const path of LONG ? site.pages : [...some, ...techniques.slice(0, 2)]) {
    await page.goto(site.address + path);
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true;
    });
    await expectToFit(page, path);
  }
});

test('nor is a page with the player and the menu of files open', async ({ newPage }) => {
  const page = await newPage({});
  const path = `lessons/${site.course.lessons.find(({ blocks }) => blocks.length > 0)?.id}/`;
  await page.goto(site.address + path);
  await page.locator('reedway-player button').first().click();
  await page.locator('.player').first().waitFor();
  await page.locator('reedway-save summary').first().click();
  await page.locator('reedway-save li').first().waitFor();
  await page.locator('.player').first().getByRole('button', { name: 'More' }).click();
  await page.locator('.player input').first().waitFor();
  await expectToFit(page, path);
});

describe('a figure too wide for its window', () => {
  const boxes = (page: Page) =>
    page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('scroll-box')].map((box) => ({
        scrolls: box.scrollWidth > box.clientWidth,
        focusable: box.tabIndex === 0,
        name: box.getAttribute('role') === 'group' ? box.getAttribute('aria-label') : null,
      })),
    );

  test('scrolls by itself, by the keyboard as well, and has a name', async ({ newPage }) => {
    const page = await newPage({ viewport: { width: 320, height: 800 } });
    await page.goto(`${site.address}harps/solo-chromatic/`);
    await setText(page, 200);
    await expect.poll(async () => (await boxes(page)).every(({ focusable }) => focusable)).toBe(true);
    const wide = await boxes(page);
    expect(wide.map(({ scrolls }) => scrolls)).toContain(true);
    expect(wide.filter(({ name }) => !name)).toEqual([]);
    const box = page.locator('scroll-box').first();
    await box.focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => box.evaluate((element) => element.scrollLeft)).toBeGreaterThan(0);
  });

  test('is no stop for the keyboard where it fits, and one without scripts', async ({ newPage }) => {
    const page = await newPage({ viewport: { width: 1440, height: 800 } });
    await page.goto(`${site.address}harps/richter/`);
    await expect.poll(async () => (await boxes(page)).some(({ focusable }) => focusable)).toBe(false);
    const plain = await newPage({ viewport: { width: 320, height: 800 }, javaScriptEnabled: false });
    await plain.goto(`${site.address}harps/richter/`);
    expect(await plain.locator('scroll-box:not([tabindex="0"])').count()).toBe(0);
  });
});

test.runIf(LONG)('an author’s table scrolls by itself too', async ({ newPage }) => {
  const row = `|${' overblow |'.repeat(12)}\n`;
  const lesson = `---\ntitle: Tables\n---\n\n${row}|${' --- |'.repeat(12)}\n${row}`;
  const tables = await sharedSite('tables', '/', (folder) => {
    write(folder, 'course.yaml', 'title: A course\n');
    write(folder, 'lessons/tables.mdx', lesson);
  });
  try {
    const page = await newPage({});
    await page.goto(`${tables.address}lessons/tables/`);
    await expectToFit(page, 'lessons/tables/');
    await page.setViewportSize({ width: 320, height: 800 });
    expect(await page.getByRole('group', { name: 'Table' }).evaluate((box) => box.scrollWidth)).toBeGreaterThan(320);
  } finally {
    tables.close();
  }
});

test.runIf(LONG)('a finger hits every note of a map: 24 pixels at the least', async ({ newPage }) => {
  const page = await newPage({});
  for (const path of ['harps/solo-chromatic/', 'harps/richter/']) {
    for (const width of [320, 360, 820]) {
      await page.setViewportSize({ width, height: 800 });
      await page.goto(site.address + path);
      const tones = page.locator('.harp-map .tone');
      await tones.first().waitFor();
      const sizes = await tones.evaluateAll((all) =>
        all.map((tone) => Math.min(tone.getBoundingClientRect().width, tone.getBoundingClientRect().height)),
      );
      expect(Math.min(...sizes), `${path} at ${width} pixels`).toBeGreaterThanOrEqual(24);
    }
  }
});
