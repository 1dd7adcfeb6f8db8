/** The student's harp in a real browser: what is loaded and when, what the page then shows, and what survives. */
import { gzipSync } from 'node:zlib';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { engraveBlock } from '../../../src/engrave/block.ts';
import { drawFigure } from '../../../src/engrave/figure/draw.ts';
import { harpOfFigure, isOnHarp, moveFigure } from '../../../src/engrave/figure/figure.ts';
import { type Harp, readHarp } from '../../../src/instrument/harp.ts';
import { TEMPERAMENTS } from '../../../src/instrument/temperament.ts';
import type { Tuning } from '../../../src/instrument/tuning.ts';
import { moveToHarp } from '../../../src/score/harp/move.ts';
import { blockParts } from '../../../src/site/addresses.ts';
import { present, valueAt } from '../../../src/values/checked.ts';
import { alsoLong, LONG } from '../../setup/long.ts';
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

interface Opened {
  readonly page: Page;
  /** Addresses asked for since the page was opened, below the site. */
  readonly asked: string[];
}

async function open(
  path: string,
  { width = 1200, context }: { width?: number; context?: BrowserContext } = {},
): Promise<Opened> {
  const own = context ?? (await site.browser.newContext({ viewport: { width, height: 900 } }));
  if (!context) contexts.push(own);
  const page = await own.newPage();
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url().replace(site.url, '')));
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.addInitScript(() => {
    const set: unknown[] = [];
    Object.assign(globalThis, { set });
    document.addEventListener('reedway:redrawn', (event) => {
      const { dataset } = event.target as HTMLElement;
      set.push([dataset['block'] ?? dataset['figure'], (event as CustomEvent).detail]);
    });
  });
  await page.goto(site.url + path);
  return { page, asked };
}

async function choose(page: Page, key: string, register = 'standard'): Promise<void> {
  await page.selectOption('select[name="key"]', key === '' ? { value: '' } : { label: key });
  if (key !== '') await page.selectOption('select[name="register"]', register);
  await settled(page);
}

const settled = (page: Page) =>
  page.waitForFunction(() =>
    /Showing|could not/.test(document.querySelector('harp-choice [role="status"]')?.textContent ?? ''),
  );

const redrawn = (page: Page): Promise<[string, string][]> =>
  page.evaluate(() => (globalThis as unknown as { set: [string, string][] }).set);

const harp = (name: string, tuning: Tuning): Harp => present(readHarp(name, tuning), 'the harp');
const lesson = () => valueAt(site.course.byId, 'one');

describe('a student who picks another harp', () => {
  it('loads the engraver only then, and less than 64 kB of it', async () => {
    const { page, asked } = await open('/lessons/one/');
    await page.waitForLoadState('networkidle');
    expect(asked.filter((path) => /worker|block-|draw|scores|redraw/.test(path))).toEqual([]);
    const first = asked.length;
    await choose(page, 'F', 'low');
    await page.waitForLoadState('networkidle');
    const later = asked.slice(first);
    expect(later.filter((path) => path.startsWith('/music/'))).toEqual(['/music/one.json']);
    expect(later.some((path) => path.includes('worker'))).toBe(true);
    const scripts = await Promise.all(
      later.filter((path) => path.endsWith('.js')).map(async (path) => (await fetch(site.url + path)).arrayBuffer()),
    );
    const bytes = scripts.reduce((sum, script) => sum + gzipSync(script, { level: 9 }).length, 0);
    expect(bytes).toBeGreaterThan(20_000);
    expect(bytes).toBeLessThan(64_000);
  });

  it.each(alsoLong(['low F'], ['high G', 'B♭']))(
    'sees every block and figure as the build draws it for a %s harp, byte for byte',
    async (name) => {
      const { page } = await open('/lessons/one/');
      const [register, key] = name.includes(' ') ? (name.split(' ') as [string, string]) : ['standard', name];
      await choose(page, key, register);
      const { blocks, figures } = lesson();
      const drawn = new Map((await redrawn(page)).slice(-(blocks.length + figures.length)));
      for (const { id, score } of blocks) {
        if (!score) throw new Error(id);
        const built = engraveBlock(moveToHarp(score, harp(name, score.harp.tuning)), { id: blockParts(id) });
        expect(drawn.get(id)).toBe(built.html);
      }
      for (const { figure } of figures) {
        if (!figure || !isOnHarp(figure)) throw new Error('no figure on a harp');
        const built = drawFigure(moveFigure(figure, harp(name, harpOfFigure(figure).tuning)), site.course.file);
        expect(drawn.get(JSON.stringify(figure))).toBe(built);
      }
    },
  );

  it.runIf(LONG)('sees on the harp a block is written for what stood there before', async () => {
    const { page } = await open('/lessons/one/');
    const before = await page.locator('#block-chorus-1 > .tab-block').evaluate((element) => element.outerHTML);
    await choose(page, 'A');
    expect((await redrawn(page)).length).toBeGreaterThan(0);
    expect(await page.locator('#block-chorus-1 > .tab-block').evaluate((element) => element.outerHTML)).toBe(before);
  });

  it.runIf(LONG)('finds every outline a redrawn block uses on the page', async () => {
    const { page } = await open('/lessons/one/');
    await choose(page, 'F♯', 'low');
    const missing = await page.evaluate(() =>
      [...document.querySelectorAll('use')]
        .map((use) => use.getAttribute('href'))
        .filter((href) => !href || !document.querySelector(href)),
    );
    expect(missing).toEqual([]);
  });

  it('keeps a block’s own tuning', async () => {
    const { page } = await open('/lessons/minor/');
    await choose(page, 'D');
    const text = await page.locator('.tab-block').getAttribute('aria-label');
    expect(text).toContain('D harp');
    expect(text).toContain('A minor');
  });

  it('keeps the choice in the address and in the browser, and loses it on going back to what is written', async () => {
    const { page } = await open('/lessons/one/');
    await choose(page, 'F', 'low');
    expect(new URL(page.url()).searchParams.get('harp')).toBe('low F');
    const context = page.context();
    const { page: other } = await open('/lessons/minor/', { context });
    await settled(other);
    expect(await other.inputValue('select[name="register"]')).toBe('low');
    expect(await other.locator('.tab-block').getAttribute('aria-label')).toContain('low F harp');
    await choose(other, '');
    expect(new URL(other.url()).search).toBe('');
    expect(await other.locator('.tab-block').getAttribute('aria-label')).toContain('C harp');
    expect(await other.evaluate(() => localStorage.getItem('reedway-harp'))).toBeNull();
  });

  it.runIf(LONG)('follows a harp in the address on any device, and makes nothing of one that is none', async () => {
    const { page } = await open('/lessons/one/?harp=high+G');
    await settled(page);
    expect(await page.locator('.tab-block').first().getAttribute('aria-label')).toContain('high G harp');
    const { page: odd } = await open('/lessons/one/?harp=%3Cb%3EH');
    expect(await odd.locator('.tab-block').first().getAttribute('aria-label')).toContain('A harp');
    expect(await redrawn(odd)).toEqual([]);
  });

  it('reads what is kept as if another hand had written it', async () => {
    const context = await site.browser.newContext();
    contexts.push(context);
    await context.addInitScript(() =>
      localStorage.setItem('reedway-harp', '{"harp":7,"concertA":"9","temperament":[]'),
    );
    const { page } = await open('/lessons/one/', { context });
    expect(await page.inputValue('select[name="key"]')).toBe('');
    expect(await page.inputValue('input[name="concert-a"]')).toBe('440');
  });

  it.runIf(LONG)('keeps the notes marked that a technique’s page points at', async () => {
    const { page } = await open('/techniques/draw-3-half-step/');
    const found = () =>
      page.locator('g.e.found').evaluateAll((notes) => notes.map((note) => note.getAttribute('data-event')));
    const before = await found();
    expect(before.length).toBeGreaterThan(0);
    await choose(page, 'F', 'low');
    expect(await page.locator('.tab-block').first().getAttribute('aria-label')).toContain('low F harp');
    expect(await found()).toEqual(before);
  });

  it.runIf(LONG)('keeps the focus and what was unfolded where they were', async () => {
    const { page } = await open('/lessons/one/');
    const words = page.locator('#block-chorus-2 details.tab-words');
    await words.locator('summary').click();
    await words.locator('summary').focus();
    await page.evaluate(() => {
      const key = document.querySelector('select[name="key"]') as HTMLSelectElement;
      key.selectedIndex = 3;
      key.dispatchEvent(new Event('change', { bubbles: true }));
    });
    await settled(page);
    expect(await words.evaluate((element: HTMLDetailsElement) => element.open)).toBe(true);
    expect(await page.evaluate(() => document.activeElement?.closest('[data-block]')?.getAttribute('data-block'))).toBe(
      'chorus-2',
    );
  });

  it.runIf(LONG)('keeps the focus on a note of a figure, which sounds on the chosen harp', async () => {
    const { page } = await open('/lessons/one/');
    const note = page.locator(`.role-table [data-tab="-3'"] button`);
    await note.focus();
    await page.evaluate(() => {
      const key = document.querySelector('select[name="key"]') as HTMLSelectElement;
      key.selectedIndex = 6;
      key.dispatchEvent(new Event('change', { bubbles: true }));
    });
    await settled(page);
    expect(await page.evaluate(() => document.activeElement?.closest<HTMLElement>('[data-tab]')?.dataset['tab'])).toBe(
      "-3'",
    );
    // Draw 3 of a C harp, bent a half step, is B flat.
    expect(await page.locator(`.role-table [data-tab="-3'"]`).getAttribute('data-frequency')).toBe('466.2');
  });

  it.runIf(LONG)('has what can be seen set first', async () => {
    const { page } = await open('/lessons/one/');
    await page.locator('#block-chorus-4').scrollIntoViewIfNeeded();
    await page.evaluate(() => {
      const key = document.querySelector('select[name="key"]') as HTMLSelectElement;
      key.selectedIndex = 2;
      key.dispatchEvent(new Event('change', { bubbles: true }));
    });
    await settled(page);
    const seen = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('figure[data-block]')]
        .filter((figure) => {
          const { top, bottom } = figure.getBoundingClientRect();
          return bottom > 0 && top < innerHeight;
        })
        .map((figure) => figure.dataset['block']),
    );
    const order = (await redrawn(page)).map(([name]) => name);
    expect(seen).toContain(order[0]);
  });

  it.runIf(LONG)('sees the frequencies of another temperament and concert pitch', async () => {
    const { page } = await open('/lessons/one/');
    await page.locator('harp-choice summary').click();
    await page.selectOption('select[name="temperament"]', 'just');
    await settled(page);
    await page.fill('input[name="concert-a"]', '442');
    await page.keyboard.press('Tab');
    await page.waitForFunction(() => /442/.test(document.querySelector('.bend-ladder caption')?.textContent ?? ''));
    const figure = lesson().figures.at(-1)?.figure;
    if (!figure) throw new Error('no ladder');
    const expected = drawFigure(figure, { concertA: 442, temperament: TEMPERAMENTS[2] });
    expect((await redrawn(page)).findLast(([name]) => name === JSON.stringify(figure))?.[1]).toBe(expected);
  });

  it('sees figures that few pages have on it too, and those without a harp as they were', async () => {
    const { page } = await open('/lessons/minor/');
    const rhythm = await page.locator('.rhythm-line').innerHTML();
    await choose(page, 'D');
    const figures = valueAt(site.course.byId, 'minor').figures.flatMap(({ figure }) => figure ?? []);
    const drawn = new Map(await redrawn(page));
    for (const figure of figures.filter(isOnHarp)) {
      const moved = moveFigure(figure, harp('D', harpOfFigure(figure).tuning));
      expect(drawn.get(JSON.stringify(figure))).toBe(drawFigure(moved, site.course.file));
    }
    expect(await page.locator('.side-facts thead th').allTextContents()).toEqual([
      'D harp, second position, in A minor',
      'G harp, third position, in A minor',
    ]);
    expect(await page.locator('.rhythm-line').innerHTML()).toBe(rhythm);
  });

  it.runIf(LONG)('stands on the last of several harps chosen quickly', async () => {
    const { page } = await open('/lessons/one/');
    await page.evaluate(() => {
      const key = document.querySelector('select[name="key"]') as HTMLSelectElement;
      for (const index of [3, 5, 9]) {
        key.selectedIndex = index;
        key.dispatchEvent(new Event('change', { bubbles: true }));
      }
    });
    await settled(page);
    const names = await page
      .locator('.tab-block')
      .evaluateAll((blocks) => blocks.map((block) => block.getAttribute('aria-label') ?? ''));
    expect(names).toHaveLength(6);
    for (const name of names) expect(name).toContain('E flat harp');
  });

  it('gets a message when the engraver cannot be had, and keeps the page', async () => {
    const { page } = await open('/lessons/one/');
    await page.route('**/music/**', (route) => route.abort());
    await choose(page, 'C');
    expect(await page.locator('harp-choice [role="status"]').textContent()).toContain('could not be changed');
    expect(await page.locator('.tab-block').first().getAttribute('aria-label')).toContain('A harp');
    await page.unroute('**/music/**');
    await choose(page, 'D');
    expect(await page.locator('.tab-block').first().getAttribute('aria-label')).toContain('D harp');
  });
});

it('with scripts off the page is as it is written, without a picker that could do nothing', async () => {
  const context = await site.browser.newContext({ javaScriptEnabled: false });
  contexts.push(context);
  const page = await context.newPage();
  await page.goto(`${site.url}/lessons/one/?harp=C`);
  expect(await page.locator('.tab-block').first().getAttribute('aria-label')).toContain('A harp');
  expect(await page.locator('harp-choice').isVisible()).toBe(false);
  expect(await page.locator('.role-table, .harp-map, .form-chart, .bend-ladder').count()).toBe(4);
});

describe.each(
  alsoLong(
    ['/lessons/one/?harp=low+F'],
    ['/lessons/one/', '/harps/', '/harps/richter/', '/harps/natural-minor/?harp=high+G'],
  ),
)('%s', (path) => {
  it.runIf(LONG)('fits a phone and a desktop, and gives axe-core nothing to say by day or night', async () => {
    const { page } = await open(path);
    if (path.includes('?')) await settled(page);
    for (const width of [360, 1440]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    }
    expect(await violationsOn(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await violationsOn(page, 'contrast')).toEqual([]);
  });
});
