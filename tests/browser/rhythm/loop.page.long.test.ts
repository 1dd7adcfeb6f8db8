/** The button of a rhythm line: strokes light up as they are heard, after the count-in, until it is pressed again. */
import { afterAll, beforeAll, expect } from 'vitest';
import { write } from '../../course/some-course.ts';
import { type SharedSite, sharedSite } from '../shared-site.ts';
import { withBrowser } from '../with-browser.ts';

let site: SharedSite;

beforeAll(async () => {
  site = await sharedSite('rhythm', '/', (folder) => {
    write(folder, 'course.yaml', 'title: A course\n');
    const line = '<RhythmLine rhythm="x x[accent] . x" slot="1/4" tempo="240" syllables="ta da ta" />';
    write(folder, 'lessons/one.mdx', `---\ntitle: One\n---\n\n${line}\n`);
  });
});
afterAll(() => site?.close());

withBrowser('plays in a loop and shows what is heard', async ({ newPage }) => {
  const page = await newPage({});
  await page.goto(`${site.address}lessons/one/`);
  const button = page.locator('reedway-rhythm button');
  expect(await button.textContent()).toBe('Play it in a loop');
  await button.click();
  await expect.poll(() => button.textContent()).toBe('Stop');
  const now = (): Promise<string | null> =>
    page.evaluate(() => document.querySelector<SVGElement>('.stroke.now')?.dataset['event'] ?? null);
  // Once round, and from the start again; the rest lights nothing.
  for (const event of ['0', '1', null, '3', '0']) await expect.poll(now, { interval: 10, timeout: 5000 }).toBe(event);
  await button.click();
  await expect.poll(() => button.textContent()).toBe('Play it in a loop');
  expect(await now()).toBe(null);
});

withBrowser('is complete without scripts', async ({ newPage }) => {
  const page = await newPage({ javaScriptEnabled: false });
  await page.goto(`${site.address}lessons/one/`);
  expect(await page.locator('reedway-rhythm').isVisible()).toBe(false);
  expect(await page.locator('.rhythm-line circle').count()).toBe(3);
});
