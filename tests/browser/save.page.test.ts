/** The menu of files under a block: what a student takes along is for the harp they chose, and made when it is asked for. */
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { BLOCK } from '../../src/texts/english/block.ts';
import { SAVE } from '../../src/texts/english/save.ts';
import { itemAt } from '../../src/values/checked.ts';
import { LONG } from '../setup/long.ts';
import { demoSite, type SharedSite } from './shared-site.ts';
import { withBrowser as test } from './with-browser.ts';

/** Compressed bytes of scripts, without those of sound. */
const MOST_BYTES = 24 * 1024;

let site: SharedSite;
let lesson: string;
beforeAll(async () => {
  site = await demoSite();
  lesson = itemAt(site.course.lessons, 2).id;
});
afterAll(() => site?.close());

const menuOf = (page: Page) => page.locator('reedway-save').first();

async function save(page: Page, name: string): Promise<{ readonly name: string; readonly content: Buffer }> {
  const download = page.waitForEvent('download');
  await menuOf(page).getByRole('button', { name, exact: true }).click();
  const file = await download;
  return { name: file.suggestedFilename(), content: readFileSync(await file.path()) };
}

describe('the menu', () => {
  test.runIf(LONG)('makes every kind of file, for the harp that is chosen', async ({ newPage }) => {
    const page = await newPage({});
    await page.goto(`${site.address}lessons/${lesson}/?harp=low+F`);
    await menuOf(page).getByText(BLOCK.save).click();
    const starts: readonly (readonly [string, string, RegExp])[] = [
      [SAVE.musicxml, '.musicxml', /^<\?xml [\s\S]*low F harp/],
      [SAVE.midi, '.mid', /^MThd/],
      [SAVE.midiBand, '.mid', /^MThd[\s\S]*Drums/],
      [SAVE.abc, '.abc', /^%abc-2\.1\nX:1\n[\s\S]*low F harp/],
      [SAVE.text, '.txt', /low F harp/],
      [SAVE.svg, '.svg', /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/],
      [SAVE.png, '.png', /^.PNG/],
      [SAVE.wav, '.wav', /^RIFF/],
    ];
    for (const [button, ending, start] of starts) {
      const { name, content } = await save(page, button);
      expect(name).toMatch(new RegExp(`^${lesson}-.*-low-F-harp\\${ending}$`));
      expect(content.toString('latin1'), button).toMatch(start);
      await expect.poll(() => menuOf(page).getByRole('status').textContent()).toBe(SAVE.made.replace('{file}', name));
    }
  });

  test('loads nothing before it is opened, and little after', async ({ newPage }) => {
    const page = await newPage({});
    const addresses: string[] = [];
    let scripts: Promise<Buffer>[] = [];
    page.on('response', (response) => {
      addresses.push(response.url());
      if (/\.js$/.test(response.url())) scripts.push(response.body());
    });
    await page.goto(`${site.address}lessons/${lesson}/`);
    await page.waitForLoadState('networkidle');
    expect(addresses.filter((address) => /menu|music/.test(address))).toEqual([]);
    await Promise.all(scripts);
    scripts = [];
    await menuOf(page).getByText(BLOCK.save).click();
    await save(page, SAVE.musicxml);
    await page.waitForLoadState('networkidle');
    // The page is closed after the test: all that was asked of it has to be here by then.
    const bytes = (await Promise.all(scripts)).reduce((sum, script) => sum + gzipSync(script).byteLength, 0);
    expect(bytes).toBeGreaterThan(0);
    expect(bytes).toBeLessThan(MOST_BYTES);
  });

  test('says so where a file cannot be made, and makes it when asked again', async ({ newPage }) => {
    const page = await newPage({});
    await page.goto(`${site.address}lessons/${lesson}/`);
    await menuOf(page).getByText(BLOCK.save).click();
    await page.route('**/music/**', (route) => route.abort());
    await menuOf(page).getByRole('button', { name: SAVE.abc, exact: true }).click();
    await expect.poll(() => menuOf(page).getByRole('status').textContent()).toBe(SAVE.notMade);
    await page.unroute('**/music/**');
    expect((await save(page, SAVE.abc)).name).toMatch(/\.abc$/);
  });

  test.runIf(LONG)(
    'says so where its list cannot be loaded, and loads it when it is opened again',
    async ({ newPage }) => {
      const page = await newPage({});
      await page.goto(`${site.address}lessons/${lesson}/`);
      await page.route('**/made/menu*', (route) => route.abort());
      await menuOf(page).getByText(BLOCK.save).click();
      await expect.poll(() => menuOf(page).getByText(BLOCK.saveNotLoaded).isVisible()).toBe(true);
      await page.unroute('**/made/menu*');
      await page.reload();
      await menuOf(page).getByText(BLOCK.save).click();
      await expect.poll(() => menuOf(page).getByRole('button').count()).toBeGreaterThan(5);
      expect(await menuOf(page).getByText(BLOCK.saveNotLoaded).isVisible()).toBe(false);
    },
  );

  test('is not shown without scripts', async ({ newPage }) => {
    const page = await newPage({ javaScriptEnabled: false });
    await page.goto(`${site.address}lessons/${lesson}/`);
    expect(await menuOf(page).isVisible()).toBe(false);
  });
});
