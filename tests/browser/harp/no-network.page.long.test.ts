/** A harp chosen where the network fails: the page says why where it was chosen, is whole, and the harp can be tried again. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { withBrowser as test } from '../with-browser.ts';
import { type OpenSite, openSite } from './site.ts';

let site: OpenSite;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site?.close());

const status = (page: Page) => page.locator('harp-choice [role="status"]');
const chooseF = (page: Page) => page.selectOption('select[name="key"]', { label: 'F' });

async function again(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect.poll(() => status(page).textContent(), { timeout: 20_000 }).toContain('Showing the page for an F harp');
  expect(await page.getByRole('button', { name: 'Try again' }).count()).toBe(0);
}

for (const [what, pattern] of [
  ['the music', '**/music/**'],
  ['the worker', /worker[^/]*\.js/],
] as const) {
  test(`${what} is not found`, { timeout: 60_000 }, async ({ newPage }) => {
    const page = await newPage({ viewport: { width: 1200, height: 900 } });
    await page.goto(`${site.url}/lessons/one/`);
    const before = await page.locator('.lesson-text').innerHTML();
    await page.context().route(pattern, (route) => route.fulfill({ status: 404 }));
    await chooseF(page);
    await expect.poll(() => status(page).textContent()).toContain('Something that this needs could not be loaded.');
    expect(await page.locator('.lesson-text').innerHTML()).toBe(before);
    await page.context().unroute(pattern);
    await again(page);
  });

  test(`${what} never comes`, { timeout: 60_000 }, async ({ newPage }) => {
    const page = await newPage({ viewport: { width: 1200, height: 900 } });
    await page.goto(`${site.url}/lessons/one/`);
    await page.context().route(pattern, () => {});
    await chooseF(page);
    await expect
      .poll(() => status(page).textContent(), { timeout: 20_000 })
      .toContain('The network did not answer in time.');
    await page.context().unroute(pattern);
    await again(page);
  });
}

test('there is no network, and then there is', { timeout: 60_000 }, async ({ newPage }) => {
  const page = await newPage({ viewport: { width: 360, height: 740 } });
  await page.goto(`${site.url}/lessons/one/`);
  await page.getByText('Your harp, and what blocks show').click();
  await page.context().setOffline(true);
  await chooseF(page);
  await expect.poll(() => status(page).textContent()).toContain('There is no network connection.');
  await page.context().setOffline(false);
  await again(page);
});
