/** The demo course's site, opened as its students open it: on a phone, a tablet and a desktop, by night, on paper, without scripts. */
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { DEMO } from '../../src/command/package.ts';
import { loadCourse } from '../../src/course/load.ts';
import { itemAt } from '../../src/values/checked.ts';
import { alsoLong, LONG } from '../setup/long.ts';
import { violationsOn } from './axe.ts';
import { demoSite, type SharedSite } from './shared-site.ts';
import { openBrowser } from './sound/browser-sound.ts';

const course = loadCourse(DEMO);
const fullest = itemAt(
  [...course.lessons].sort((a, b) => barsOf(b) - barsOf(a)),
  0,
);
const first = itemAt(course.lessons, 0);

function barsOf({ blocks }: (typeof course.lessons)[number]): number {
  return blocks.reduce((sum, { score }) => sum + (score?.bars.length ?? 0), 0);
}

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

const complaints: string[] = [];
async function open(path: string, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 820, height: 900 }, ...options });
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(`${path}: ${error.message}`));
  page.on('console', (message) => {
    // A page that is not there is asked for on purpose.
    if (message.type() === 'error' && !/404/.test(message.text())) complaints.push(`${path}: ${message.text()}`);
  });
  await page.goto(site.address + path);
  return page;
}

const colourOf = (page: Page, property: 'color' | 'backgroundColor'): Promise<string> =>
  page.evaluate((name) => getComputedStyle(document.documentElement)[name], property);

test.each(alsoLong([''], ['guide/', `lessons/${fullest.id}/`, `lessons/${first.id}/`, 'no-such-page/']))(
  '/%s passes axe on a phone and a desktop, by day and night',
  async (path) => {
    const page = await open(path);
    for (const width of alsoLong([360], [1440])) {
      await page.setViewportSize({ width, height: 800 });
      await page.emulateMedia({ colorScheme: 'light' });
      expect(await violationsOn(page)).toEqual([]);
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await violationsOn(page, 'contrast')).toEqual([]);
    }
    await page.context().close();
  },
);

describe('a lesson', () => {
  const path = `lessons/${fullest.id}/`;

  test('is whole with scripts off, and says nothing of what needs them', async () => {
    const page = await open(path, { javaScriptEnabled: false });
    expect(await page.locator('.tab-grid').count()).toBe(fullest.blocks.length);
    expect(await page.locator('.tab-words').count()).toBe(fullest.blocks.length);
    for (const name of ['page-choice', 'reedway-player', 'harp-choice']) {
      for (const one of await page.locator(name).all()) expect(await one.isVisible(), name).toBe(false);
    }
    await page.context().close();
  });

  test('prints its music and words on white, as many bars to a row as have room, without the ways about', async () => {
    const page = await open(path, { colorScheme: 'dark' });
    await page.emulateMedia({ media: 'print' });
    // The width of a page of A4 between its margins.
    await page.setViewportSize({ width: 680, height: 900 });
    expect(await colourOf(page, 'backgroundColor')).toBe('rgb(255, 255, 255)');
    expect(await colourOf(page, 'color')).toBe('rgb(0, 0, 0)');
    for (const selector of ['.masthead', '.comb', '.onward', 'page-choice', 'reedway-player', 'harp-choice']) {
      for (const one of await page.locator(selector).all()) expect(await one.isVisible(), selector).toBe(false);
    }
    const widths = await page.evaluate(() =>
      [...document.querySelectorAll('.tab-grid')].map((grid) => {
        const paper = grid.getBoundingClientRect().width;
        return (
          Math.max(...[...grid.querySelectorAll('.tile')].map((tile) => tile.getBoundingClientRect().right)) / paper
        );
      }),
    );
    expect(Math.max(...widths)).toBeGreaterThan(0.75);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(680);
    await page.context().close();
  });

  test.runIf(LONG)(
    'shows staff and lanes, lanes only or staff only, as its reader chose last, and prints what it shows',
    async () => {
      const page = await open(path);
      const height = () =>
        page.locator('.tab-grid').evaluateAll((all) => all.reduce((sum, one) => sum + one.clientHeight, 0));
      const shown = async (part: string): Promise<boolean> => page.locator(part).first().isVisible();
      /** Lines have no height, and so count as hidden for the browser's driver. */
      const lengths = () =>
        page.evaluate(() => getComputedStyle(document.querySelector('.L') as Element).display !== 'none');
      /** The line of signs that is in place of the staff. */
      const signs = () =>
        page.evaluate(() => {
          const line = document.createElement('i');
          line.className = 'pg';
          document.querySelector('.tile')?.append(line);
          const { display } = getComputedStyle(line);
          line.remove();
          return display !== 'none';
        });
      const both = await height();
      expect([await shown('.ps'), await shown('.pl'), await lengths()]).toEqual([true, true, false]);
      expect(await signs()).toBe(false);
      await page.getByLabel('lanes only').check();
      expect(await signs()).toBe(true);
      expect([await shown('.ps'), await shown('.pl'), await lengths()]).toEqual([false, true, true]);
      // Rows of notes with signs have a line for them.
      expect(await height()).toBeLessThan(0.75 * both);
      await page.goto(`${site.address}lessons/${first.id}/`);
      expect([await shown('.ps'), await shown('.pl')]).toEqual([false, true]);
      await page.emulateMedia({ media: 'print' });
      expect([await shown('.ps'), await shown('.pl')]).toEqual([false, true]);
      await page.emulateMedia({ media: 'screen' });
      await page.getByLabel('staff only').check();
      expect([await shown('.ps'), await shown('.pl'), await signs()]).toEqual([true, false, false]);
      await page.reload();
      expect([await shown('.ps'), await shown('.pl')]).toEqual([true, false]);
      await page.context().close();
    },
  );

  test('has the tab of each block as text, behind a disclosure', async () => {
    const page = await open(path, { javaScriptEnabled: false });
    expect(await page.locator('.tab-text').count()).toBe(fullest.blocks.length);
    await page.locator('.tab-text summary').first().click();
    expect(await page.locator('.tab-text pre').first().textContent()).toContain('|');
    await page.context().close();
  });

  test('has one heading of the first rank, and skips no rank below it', async () => {
    const page = await open(path);
    const ranks = await page.evaluate(() =>
      [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map((node) => Number(node.tagName[1])),
    );
    expect(ranks[0]).toBe(1);
    expect(ranks.filter((rank) => rank === 1)).toHaveLength(1);
    expect(ranks.filter((rank, index) => index > 0 && rank > (ranks[index - 1] ?? 0) + 1)).toEqual([]);
    await page.context().close();
  });

  test('weighs less than 60 kB as it is sent, for six blocks', async () => {
    const six = course.lessons.filter(({ blocks }) => blocks.length >= 5);
    expect(six.length).toBeGreaterThan(0);
    for (const { id, blocks } of six) {
      const sent = gzipSync(await (await fetch(`${site.address}lessons/${id}/`)).bytes()).length;
      expect(sent, id).toBeLessThan((60 * 1024 * Math.max(6, blocks.length)) / 6);
    }
  });
});

describe('by keyboard', () => {
  test('the first step skips to the page itself', async () => {
    const page = await open('');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('skip');
    expect(await page.locator('.skip').boundingBox()).toMatchObject({ x: 0, y: 0 });
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.closest('main') !== null)).toBe(true);
    await page.context().close();
  });

  test('whatever has the focus shows it', async () => {
    const page = await open(`lessons/${first.id}/`);
    for (let step = 0; step < 30; step++) {
      await page.keyboard.press('Tab');
      const [name, outline] = await page.evaluate(() => {
        const node = document.activeElement as HTMLElement;
        const { outlineStyle, outlineWidth } = getComputedStyle(node);
        return [node.outerHTML.slice(0, 80), `${outlineStyle} ${outlineWidth}`];
      });
      if (name.startsWith('<body')) break;
      expect(outline, name).not.toMatch(/^none|^\S+ 0px/);
    }
    await page.context().close();
  });

  test.runIf(LONG)('the path leads from lesson to lesson', async () => {
    const page = await open('');
    await page.getByRole('link', { name: /^Start with/ }).press('Enter');
    await page.waitForURL(`**/lessons/${first.id}/`);
    for (const { id } of course.lessons.filter(({ frontMatter }) => !frontMatter.draft).slice(1, 4)) {
      await page.locator('a[rel=next]').press('Enter');
      await page.waitForURL(`**/lessons/${id}/`);
      expect(await page.locator('.comb [aria-current=page]').count()).toBe(1);
    }
    await page.context().close();
  });
});

describe('the light', () => {
  test('is the device’s until the visitor chooses, and then lasts from page to page', async () => {
    const page = await open('', { colorScheme: 'light' });
    const day = await colourOf(page, 'backgroundColor');
    await page.getByRole('radio', { name: 'dark' }).check();
    const night = await colourOf(page, 'backgroundColor');
    expect(night).not.toBe(day);
    await page.goto(`${site.address}guide/`);
    expect(await colourOf(page, 'backgroundColor')).toBe(night);
    expect(await page.getByRole('radio', { name: 'dark' }).isChecked()).toBe(true);
    await page.getByRole('radio', { name: 'match device' }).check();
    expect(await colourOf(page, 'backgroundColor')).toBe(day);
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await colourOf(page, 'backgroundColor')).toBe(night);
    await page.context().close();
  });

  test('follows the device with scripts off', async () => {
    const page = await open('', { colorScheme: 'dark', javaScriptEnabled: false });
    const night = await colourOf(page, 'backgroundColor');
    await page.emulateMedia({ colorScheme: 'light' });
    expect(await colourOf(page, 'backgroundColor')).not.toBe(night);
    await page.context().close();
  });
});

test('no page complained, of its own policy or of anything else', () => {
  expect(complaints).toEqual([]);
});
