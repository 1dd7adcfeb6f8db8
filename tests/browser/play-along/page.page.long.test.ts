/** The page to play along with: a band, a metronome and a drone without a block. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { violationsOn } from '../axe.ts';
import { demoSite, type SharedSite } from '../shared-site.ts';
import { withBrowser as test } from '../with-browser.ts';

let site: SharedSite;
beforeAll(async () => {
  site = await demoSite();
});
afterAll(() => site.close());

const open = async (page: Page): Promise<Page> => {
  await page.goto(`${site.address}play-along/`);
  return page;
};
const chord = (page: Page) => page.locator('.along-now b').textContent();

describe('the page to play along with', () => {
  test('plays a form chorus after chorus, and follows what is chosen meanwhile', async ({ newPage }) => {
    const page = await open(await newPage({ viewport: { width: 360, height: 740 }, hasTouch: true }));
    await page.getByLabel('Tempo, beats a minute').fill('240');
    await page.getByLabel('Form', { exact: true }).selectOption({ label: 'Eight-bar' });
    await page.getByRole('button', { name: 'Start' }).first().click();
    await expect.poll(() => page.locator('.along-place').textContent()).toBe('Chorus 1 · bar 1 of 8');
    expect(await chord(page)).toBe('E7');
    await expect.poll(() => chord(page), { timeout: 4000 }).toBe('B7');
    expect(await page.locator('.along-bars [aria-current]').textContent()).toContain('V7');
    await page.getByLabel('Key', { exact: true }).selectOption('C');
    await expect.poll(() => page.locator('.along-bars li').first().textContent()).toContain('C7');
    expect(await page.locator('.along-harps').textContent()).toContain('F in second position');
    await expect
      .poll(() => page.locator('.along-place').textContent(), { timeout: 15_000 })
      .toMatch(/^Chorus 2 · bar \d of 8$/);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
    await page.getByRole('button', { name: 'Stop' }).click();
    await expect.poll(() => page.locator('.along-bars .now').count()).toBe(0);
  });

  test('is a metronome in the meter that is chosen, at a tempo that is tapped', async ({ newPage }) => {
    const page = await open(await newPage({}));
    await page.getByLabel('Form', { exact: true }).selectOption({ label: 'none: metronome only' });
    await page.getByLabel('Meter', { exact: true }).selectOption('3/4');
    const tap = page.getByRole('button', { name: 'Tap the tempo' });
    await tap.click();
    await page.waitForTimeout(500);
    await tap.click();
    const tempo = Number(await page.getByLabel('Tempo, beats a minute').inputValue());
    expect(tempo).toBeGreaterThan(80);
    expect(tempo).toBeLessThan(125);
    await page.getByRole('button', { name: 'Start' }).first().click();
    await page.getByLabel('Metronome volume').waitFor();
    expect(await page.locator('.along-chords').isVisible()).toBe(false);
    expect(await page.locator('.along-harps').isVisible()).toBe(false);
  });

  test('holds a note while the band plays, and lets it go', async ({ newPage }) => {
    const page = await open(await newPage({}));
    const drone = page.getByRole('region', { name: 'Drone' });
    await drone.getByRole('button', { name: 'Start' }).click();
    await expect.poll(() => drone.getByRole('button').getAttribute('aria-pressed')).toBe('true');
    await drone.getByLabel('Note', { exact: true }).selectOption('A');
    await drone.getByLabel('with its fifth').check();
    await drone.getByRole('button', { name: 'Stop' }).click();
    expect(await drone.getByRole('button').getAttribute('aria-pressed')).toBe('false');
  });

  test('has no fault that axe finds, and its charts are read without scripts', async ({ newPage }) => {
    const page = await open(await newPage({}));
    await page.getByRole('button', { name: 'Start' }).first().click();
    await page.locator('.along-bars').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    const plain = await open(await newPage({ javaScriptEnabled: false }));
    expect(await plain.getByRole('button', { name: 'Start' }).first().isVisible()).toBe(false);
    expect(await plain.locator('#forms ~ figure').first().isVisible()).toBe(true);
  });
});
