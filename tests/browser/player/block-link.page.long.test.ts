/** Links to bars: what the page shows of an address, what the player then plays, and the link it copies. */
import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { serve } from '../sound/browser-sound.ts';
import { type Files, lessonPage } from '../sound/lesson-page.ts';
import { withBrowser } from '../with-browser.ts';

const HEAD = 'harp: C\ntempo: 100\nslot: 1/4\n4 5 6 7 | 6 5 4 = | 4 5 6 7 |: -4 = = = |1 5 = = = :|2 4 = = = |]\n';
const TAIL = 'harp: C\ntempo: 150\nslot: 1/4\npickup: 1\n4 | 4 5 6 7 | -4 -5 -6 -7\n';
const LINKS = `<nav><a href="/?bars=1-2&amp;tempo=60%25#block-0">slow</a> <a href="/?bars=0-1&amp;loop=no#block-1">other</a>
<a href="?bars=2#block-0">two</a> <a href="#block-1">place</a> <a href="/#block-1">plain</a></nav>`;

interface Fixtures {
  readonly files: Files;
  readonly address: string;
  /** Opens the page at what follows its address. */
  readonly open: (rest?: string, options?: { readonly scripts?: boolean }) => Promise<Page>;
}

const test = withBrowser.extend<Fixtures>({
  files: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads the fixtures that one needs from its first argument.
    async ({}, use) => {
      const files = await lessonPage([HEAD, TAIL]);
      const [page] = [files['/']];
      if (!page) throw new Error('no page');
      await use({ ...files, '/': { ...page, body: page.body.replace('<h1>', `${LINKS}<h1>`) } });
    },
    { scope: 'file' },
  ],
  address: [
    async ({ files }, use) => {
      const { address, close } = await serve(files);
      await use(address);
      close();
    },
    { scope: 'file' },
  ],
  open: async ({ newPage, address }, use) => {
    await use(async (rest = '', { scripts = true } = {}) => {
      const page = await newPage({ viewport: { width: 700, height: 500 }, javaScriptEnabled: scripts });
      await page.goto(new URL(rest, address).href);
      return page;
    });
  },
});

const asked = (page: Page) => page.locator('.player-asked');
const message = (page: Page) => page.locator('.player-message:not(:empty)');
const chosenBars = (page: Page, block: number) =>
  page
    .locator(`#block-${block} .bar-picks > button`)
    .evaluateAll((bars) => [...bars.flatMap((bar, index) => (bar.classList.contains('chosen') ? [index] : []))]);
const play = (page: Page, block: number) => page.locator(`#block-${block} .player-head button`).click();
/** The tempo, as the bar says it. */
const tempo = (page: Page) => page.locator('.player.shown .player-now').textContent();
const copy = async (page: Page): Promise<void> => {
  await page.locator('.player.shown').getByRole('button', { name: 'More' }).click();
  await page.getByRole('button', { name: 'Copy a link' }).click();
};
const isAtBlock = (page: Page, block: number) =>
  page.locator(`#block-${block}`).evaluate((figure) => {
    const { top } = figure.getBoundingClientRect();
    const isEnd = scrollY > 0 && scrollY + innerHeight >= document.documentElement.scrollHeight - 1;
    return top >= -1 && (isEnd ? top < innerHeight : top < innerHeight / 2);
  });

describe('a page that is opened by an address with bars', () => {
  test('shows them at the block before it plays, and plays them', async ({ open }) => {
    const page = await open('?bars=1-2&tempo=60%#block-0');
    await expect.poll(() => asked(page).textContent()).toBe('Ready to play: bars 1 to 2 at 60 a minute, looped.');
    expect(await message(page).count()).toBe(0);
    expect(await isAtBlock(page, 0)).toBe(true);
    await play(page, 0);
    await expect.poll(() => chosenBars(page, 0)).toEqual([0, 1]);
    expect(await tempo(page)).toContain('60');
    expect(await asked(page).count()).toBe(0);
    expect(await page.getByRole('button', { name: 'Loop: bars 1 to 2' }).getAttribute('aria-pressed')).toBe('true');
  });

  test('says which of two endings, and a pickup', async ({ open }) => {
    const page = await open('?bars=4-5.2&loop=no#block-0');
    await expect
      .poll(() => asked(page).textContent())
      .toBe('Ready to play: bar 4 to bar 5, second ending at 100 a minute.');
    const other = await open('?bars=0#block-1');
    await expect.poll(() => asked(other).textContent()).toBe('Ready to play: the pickup at 150 a minute, looped.');
  });

  test('ignores bad values with a message, and uses the others', async ({ open }) => {
    const page = await open('?bars=3-9&tempo=50&loop=perhaps&utm_source=x#block-0');
    await expect.poll(() => asked(page).textContent()).toBe('Ready to play: the whole block at 50 a minute.');
    expect(await message(page).textContent()).toBe(
      'Not all that this address asks for could be used. There is no bar 9: the bars are 1 to 4, 5.1, 5.2. “perhaps” cannot be read as loop.',
    );
    expect(await message(page).getAttribute('role')).toBe('alert');
  });

  test('says that there is no such block', async ({ open }) => {
    const page = await open('?bars=1#block-9');
    await expect.poll(() => message(page).textContent()).toContain('a block that is not on this page');
  });

  test('without scripts jumps to the block', async ({ open }) => {
    const page = await open('?bars=2#block-1', { scripts: false });
    expect(await page.locator('#block-1:target').count()).toBe(1);
    expect(await isAtBlock(page, 1)).toBe(true);
  });
});

describe('a page opened again at a place', () => {
  test('asks for nothing of what its address kept', async ({ open }) => {
    const page = await open('?bars=1#block-0');
    await expect.poll(() => asked(page).count()).toBe(1);
    await page.evaluate(() => {
      document.querySelector('h1')?.setAttribute('id', 'head');
      location.hash = 'head';
    });
    await expect.poll(() => page.evaluate(() => history.state)).toEqual({ asks: false });
    await page.reload();
    await page.waitForLoadState('networkidle');
    expect(await message(page).count()).toBe(0);
    await page.goBack();
    await expect.poll(() => asked(page).count()).toBe(1);
  });
});

describe('a link to bars of the same page', () => {
  test('does not load it again, and Back returns', async ({ open }) => {
    const page = await open();
    await page.evaluate(() => Object.assign(globalThis, { kept: true }));
    await page.getByRole('link', { name: 'slow' }).click();
    await expect.poll(() => asked(page).textContent()).toContain('bars 1 to 2 at 60');
    await page.getByRole('link', { name: 'other' }).click();
    await expect.poll(() => asked(page).textContent()).toContain('the pickup and bar 1 at 150 a minute.');
    expect(page.url()).toMatch(/\?bars=0-1&loop=no#block-1$/);
    expect(await isAtBlock(page, 1)).toBe(true);
    // A press of Enter plays it.
    expect(await page.evaluate(() => document.activeElement?.closest('figure')?.id)).toBe('block-1');
    await page.goBack();
    await expect
      .poll(() => asked(page).allTextContents())
      .toEqual(['Ready to play: bars 1 to 2 at 60 a minute, looped.']);
    await page.goBack();
    await expect.poll(() => asked(page).count()).toBe(0);
    await page.goForward();
    await expect.poll(() => asked(page).textContent()).toContain('bars 1 to 2');
    expect(await page.evaluate(() => 'kept' in globalThis)).toBe(true);
  });

  test('gives an open player its bars and tempo', async ({ open }) => {
    const page = await open();
    await play(page, 0);
    await expect.poll(() => page.locator('.player.shown').count()).toBe(1);
    await page.getByRole('link', { name: 'slow' }).click();
    await expect.poll(() => chosenBars(page, 0)).toEqual([0, 1]);
    expect(await tempo(page)).toContain('60');
    expect(await asked(page).count()).toBe(0);
    await page.getByRole('link', { name: 'two' }).click();
    await expect.poll(() => chosenBars(page, 0)).toEqual([1]);
    expect(await tempo(page)).toContain('100');
    await page.goBack();
    await expect.poll(() => chosenBars(page, 0)).toEqual([0, 1]);
  });

  test('to a place keeps what is asked for, and one to the block itself ends it', async ({ open }) => {
    const page = await open('?bars=1#block-0');
    await expect.poll(() => asked(page).count()).toBe(1);
    await page.evaluate(() => Object.assign(globalThis, { kept: true }));
    await page.getByRole('link', { name: 'place' }).click();
    await expect.poll(() => page.url()).toMatch(/\?bars=1#block-1$/);
    expect(await page.locator('#block-0 .player-asked').count()).toBe(1);
    await page.getByRole('link', { name: 'plain' }).click();
    await expect.poll(() => asked(page).count()).toBe(0);
    expect(new URL(page.url()).search).toBe('');
    expect(await page.evaluate(() => 'kept' in globalThis)).toBe(true);
    await play(page, 0);
    await expect.poll(() => page.locator('.player.shown').count()).toBe(1);
    expect(await chosenBars(page, 0)).toEqual([]);
  });
});

describe('the button that copies a link', () => {
  test('copies what is set now, says so, and the link opens it', async ({ open }) => {
    const page = await open('?bars=4-5.2&tempo=80&loop=no&harp=low+F#block-0');
    await page.evaluate(() => {
      Object.defineProperty(navigator, 'clipboard', {
        value: { writeText: async (text: string) => Object.assign(globalThis, { copied: text }) },
      });
    });
    await expect.poll(() => asked(page).count()).toBe(1);
    await play(page, 0);
    await copy(page);
    const said = page.locator('.player-copied');
    await expect.poll(() => said.textContent()).toBe('Copied a link to bar 4 to bar 5, second ending at 80 a minute.');
    expect(await said.getAttribute('role')).toBe('status');
    const copied = await page.evaluate(() => (globalThis as unknown as { copied: string }).copied);
    expect(copied).toMatch(/\?bars=4-5\.2&tempo=80&loop=no&harp=low\+F#block-0$/);
    const again = await open(copied);
    await expect.poll(() => asked(again).textContent()).toContain('bar 4 to bar 5, second ending at 80 a minute.');
  });

  test('shows the link in a field where it may not copy', async ({ open }) => {
    const page = await open();
    await page.evaluate(() => {
      Object.defineProperty(navigator, 'clipboard', { value: undefined });
    });
    await play(page, 1);
    await copy(page);
    const field = page.getByLabel('Copy this link to the whole block at 150 a minute:');
    expect(await field.inputValue()).toMatch(/\/#block-1$/);
    expect(await field.evaluate((element) => element === document.activeElement)).toBe(true);
  });
});
