/** A block that plays continues where it is when the student picks another harp. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type OpenSite, openSite } from './site.ts';

let site: OpenSite;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site?.close());

it('keeps playing, keeps its loop and its place, and keeps the focus, through a change of harp', async () => {
  const page = await site.browser.newPage({ viewport: { width: 1200, height: 900 } });
  await page.goto(`${site.url}/lessons/one/`);
  const figure = page.locator('#block-chorus-1');
  await figure.getByRole('button', { name: 'Hear it' }).click();
  await figure.getByRole('button', { name: 'Loop bar 3' }).click();
  await page.keyboard.press('Shift+ArrowRight');
  await figure.locator('.now').first().waitFor();
  const chosen = () =>
    figure
      .locator('[data-loop-bar][aria-pressed="true"]')
      .evaluateAll((picks) => picks.map((pick) => pick.getAttribute('aria-label')));
  const before = await chosen();
  expect(before).toHaveLength(2);
  const focus = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label'));
  const focused = await focus();
  expect(focused).toContain('bar 4');

  await page.evaluate(() => {
    const key = document.querySelector('select[name="key"]') as HTMLSelectElement;
    key.selectedIndex = 11;
    key.dispatchEvent(new Event('change', { bubbles: true }));
  });
  await page.waitForFunction(() =>
    /Showing the page for/.test(document.querySelector('harp-choice [role="status"]')?.textContent ?? ''),
  );

  expect(await figure.locator('.tab-block').getAttribute('aria-label')).toContain('F harp');
  expect(await figure.getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
  expect(await chosen()).toEqual(before);
  expect(await focus()).toBe(focused);
  // What sounds is marked on the tiles that are there now.
  await figure.locator('.tab-block .now').first().waitFor();
  const bars = await figure
    .locator('[data-bar].now')
    .evaluateAll((tiles) => tiles.map((tile) => Number(tile.getAttribute('data-bar'))));
  expect(bars.every((bar) => bar === 2 || bar === 3)).toBe(true);
  await page.close();
});
