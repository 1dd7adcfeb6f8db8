/** What the sentences and the head of a lesson say on the student's harp, in a real browser. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { LONG } from '../../setup/long.ts';
import { violationsOn } from '../axe.ts';
import { type OpenSite, openSite } from './site.ts';

let site: OpenSite;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site?.close());

const contexts: BrowserContext[] = [];
afterEach(async () => {
  for (const context of contexts.splice(0)) await context.close();
});

async function open(path: string, { width = 1200, scripts = true } = {}): Promise<Page> {
  const context = await site.browser.newContext({ viewport: { width, height: 900 }, javaScriptEnabled: scripts });
  contexts.push(context);
  const page = await context.newPage();
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto(site.url + path);
  return page;
}

const choose = (page: Page, key: string) =>
  page.selectOption('select[name="key"]', key === '' ? { value: '' } : { label: key });

/** The texts of elements as they are seen, each with its spaces as one. */
const seen = (page: Page, selector: string): Promise<string[]> =>
  page.locator(selector).evaluateAll((elements) =>
    elements.map((element) => {
      const copy = element.cloneNode(true) as Element;
      for (const one of copy.querySelectorAll('.aloud, [hidden]')) one.remove();
      return (copy.textContent ?? '').replace(/\s+/g, ' ').trim();
    }),
  );
const SENTENCE = '.lesson-text > p';
const HEADING = '.lesson-text > h2';
const CELLS = '.lesson-text td';
/** The values of the list at the head, by their names. */
const facts = async (page: Page): Promise<Record<string, string>> =>
  Object.fromEntries(
    await page.locator('dl.facts > div').evaluateAll((rows) =>
      rows.map((row) => {
        const items = [...row.querySelectorAll('li')].filter((item) => item.offsetParent !== null);
        const words = items.map((item) => {
          const copy = item.cloneNode(true) as Element;
          for (const one of copy.querySelectorAll('.aloud')) one.remove();
          return copy.textContent?.trim();
        });
        return [row.querySelector('dt')?.textContent?.trim() ?? '', words.join(' / ')];
      }),
    ),
  );

const AS_WRITTEN = {
  heading: ['Home is G on a C harp'],
  sentence: [
    'A C harp has B♭ in hole 3: flat third of G7, and C, E, G and B♭ are the tones of the other. On a low F harp it is E♭. A riff in G major.',
  ],
  cells: ['V7', 'D7'],
};
const ON_A = {
  heading: ['Home is E on an A harp'],
  sentence: [
    'An A harp has G in hole 3: flat third of E7, and A, C♯, E and G are the tones of the other. On a low F harp it is E♭. A riff in E major.',
  ],
  cells: ['V7', 'B7'],
};
const said = async (page: Page) => ({
  heading: await seen(page, HEADING),
  sentence: (await seen(page, SENTENCE)).slice(0, 1),
  cells: await seen(page, CELLS),
});

describe('a student who picks another harp', () => {
  it('reads sentences, headings, cells and the head of the page for it, as the staff has it', async () => {
    const page = await open('/lessons/said/');
    expect(await said(page)).toEqual(AS_WRITTEN);
    expect(await facts(page)).toMatchObject({ Harp: 'C / D', Key: 'G major / A major' });
    await choose(page, 'A');
    await expect.poll(() => said(page), { timeout: 10_000 }).toEqual(ON_A);
    // Two harps are one now.
    expect(await facts(page)).toMatchObject({ Harp: 'A', Key: 'E major' });
    await expect
      .poll(() => page.locator('.tab-block').first().getAttribute('aria-label'), { timeout: 10_000 })
      .toContain('A harp');
    expect(await page.locator('.tab-block').first().getAttribute('aria-label')).toContain('E');
    // What a voice reads.
    expect(await page.locator(`${SENTENCE} .aloud`).first().textContent()).toBe('A, C sharp, E and G');
  });

  it('and goes back to the page as written has the very same nodes again', async () => {
    const page = await open('/lessons/said/');
    await page.evaluate(() => {
      const kept = [...document.querySelectorAll('[data-said]')].map(
        (place) => [place, [...place.childNodes]] as const,
      );
      Object.assign(globalThis, {
        same: () => kept.every(([place, nodes]) => nodes.every((node) => node.parentNode === place)),
      });
    });
    const same = (): Promise<boolean> => page.evaluate(() => (globalThis as unknown as { same(): boolean }).same());
    await choose(page, 'A');
    await expect.poll(() => said(page), { timeout: 10_000 }).toEqual(ON_A);
    expect(await same()).toBe(false);
    await choose(page, '');
    await expect.poll(() => said(page), { timeout: 10_000 }).toEqual(AS_WRITTEN);
    expect(await same()).toBe(true);
    expect(await facts(page)).toMatchObject({ Harp: 'C / D', Key: 'G major / A major' });
  });

  it('keeps the page as it is written, with a message, where the music cannot be fetched', async () => {
    const page = await open('/lessons/said/');
    await page.route('**/music/**', (route) => route.abort());
    await choose(page, 'A');
    const status = page.locator('harp-choice [role="status"]');
    await expect.poll(() => status.textContent(), { timeout: 10_000 }).toContain('could not be changed');
    expect(await said(page)).toEqual(AS_WRITTEN);
    await page.unroute('**/music/**');
    await choose(page, '');
    await choose(page, 'A');
    await expect.poll(() => said(page), { timeout: 10_000 }).toEqual(ON_A);
  });

  it.runIf(LONG)('has a page that axe-core has nothing to say of, on the phone too', async () => {
    const page = await open('/lessons/said/?harp=A', { width: 360 });
    await expect.poll(() => said(page), { timeout: 10_000 }).toEqual(ON_A);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    expect(await violationsOn(page)).toEqual([]);
  });
});

it('without scripts a page says what is true on the harp of the lesson', async () => {
  const page = await open('/lessons/said/?harp=A', { scripts: false });
  expect(await said(page)).toEqual(AS_WRITTEN);
});

describe('a word', () => {
  it.runIf(LONG)('leads to its place in the glossary, which is seen', async () => {
    const page = await open('/lessons/said/', { width: 360 });
    await page.click('.lesson-text a[href$="#term-riff"]');
    await page.waitForURL('**/glossary/#term-riff');
    const target = page.locator('#term-riff');
    expect(await target.locator('dt').textContent()).toBe('riff');
    expect(
      await target.evaluate((element) => {
        const { top, bottom } = element.getBoundingClientRect();
        return element.matches(':target') && top >= 0 && bottom <= innerHeight;
      }),
    ).toBe(true);
    // The glossary is one more page at the head of every page, after the five that all courses have.
    expect(await page.locator('.masthead li a').count()).toBe(6);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    const wide = await page
      .locator('.masthead a')
      .evaluateAll((links) => links.filter((link) => link.getBoundingClientRect().right > innerWidth).length);
    expect(wide).toBe(0);
    expect(await violationsOn(page)).toEqual([]);
  });
});
