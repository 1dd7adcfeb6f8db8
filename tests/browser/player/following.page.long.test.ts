/** The page scrolls with the playing, and not against its reader. */
import type { Locator, Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { LOOP, seen, test } from './visit.ts';

const PHONE = { width: 360, height: 740, touch: true, calm: true };
const scrolls = async (page: Page): Promise<number> => (await seen(page)).scrolls.length;
const scrollY = (page: Page): Promise<number> => page.evaluate(() => window.scrollY);

/** Plays round after round, from when the page has first followed on. */
async function playOn(page: Page, control: (role: 'button', name: string | RegExp) => Locator): Promise<void> {
  await control('button', LOOP).click();
  await expect.poll(() => scrolls(page), { timeout: 8000 }).toBeGreaterThan(0);
}

describe('following', () => {
  test('never scrolls the control that has the focus away', async ({ visit }) => {
    const { page, control, hearAtOnce, more } = await visit(PHONE);
    await hearAtOnce();
    await playOn(page, control);
    await more();
    const slider = control('slider', 'Tempo');
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    await page.waitForTimeout(300);
    for (let second = 0; second < 8; second++) {
      await page.waitForTimeout(1000);
      const { y = -1, height = 0 } = (await slider.boundingBox()) ?? {};
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y + height).toBeLessThan(PHONE.height);
    }
    expect(await slider.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  test.for(['PageDown', 'End', 'a wheel', 'a script'])(
    'waits four seconds for a reader who scrolls with %s',
    async (how, { visit }) => {
      const { page, control, hearAtOnce } = await visit(PHONE);
      await hearAtOnce();
      await playOn(page, control);
      await page.evaluate(() => (document.activeElement as HTMLElement).blur());
      const from = await scrollY(page);
      if (how === 'a wheel') await page.mouse.wheel(0, 700);
      else if (how === 'a script') await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
      else await page.keyboard.press(how);
      await expect.poll(() => scrollY(page)).toBeGreaterThan(from + 300);
      await page.waitForTimeout(300);
      const [before, place] = [await scrolls(page), await scrollY(page)];
      await page.waitForTimeout(3200);
      expect([await scrolls(page), await scrollY(page)]).toEqual([before, place]);
    },
  );

  test('goes on where the page becomes longer above what is seen', async ({ visit }) => {
    const { page, control, hearAtOnce } = await visit(PHONE);
    await hearAtOnce();
    await playOn(page, control);
    const [before, place] = [await scrolls(page), await scrollY(page)];
    await page.evaluate(() =>
      document.querySelector('main')?.insertAdjacentHTML('afterbegin', '<p>Words</p>'.repeat(8)),
    );
    await expect.poll(() => scrollY(page)).toBeGreaterThan(place + 100);
    await expect.poll(() => scrolls(page), { timeout: 3500 }).toBeGreaterThan(before);
  });

  test('leaves a reader alone who has gone where nothing is played, and comes back when asked to', async ({
    visit,
  }) => {
    const { page, control, hearAtOnce } = await visit(PHONE);
    await hearAtOnce();
    await playOn(page, control);
    await page.evaluate(() => {
      document.querySelector('main')?.insertAdjacentHTML('beforeend', '<p>Words</p>'.repeat(80));
    });
    await page.waitForTimeout(500);
    await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
    await control('button', 'To the music').waitFor();
    const place = await scrollY(page);
    await page.waitForTimeout(7000);
    expect(await scrollY(page)).toBe(place);
    await control('button', 'To the music').click();
    await expect.poll(() => scrollY(page)).toBeLessThan(place - 1000);
    await expect.poll(() => control('button', 'To the music').count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Pause');
  });

  test('leaves room for a bar at the head of the window', async ({ visit }) => {
    const { page, block, control, hearAtOnce } = await visit(PHONE);
    await page.evaluate(() => {
      document.documentElement.style.scrollPaddingTop = '200px';
    });
    await hearAtOnce();
    await playOn(page, control);
    await block.locator('.tile.now[data-bar="2"]').first().waitFor();
    const tops = await block.evaluate(async (element) => {
      const found: number[] = [];
      for (let look = 0; look < 12; look++) {
        await new Promise((resolve) => setTimeout(resolve, 500));
        // The scroll is at once, a frame after its bar has begun.
        await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
        // The band is over the tile of the note; a crowded bar has another above it.
        const band = element.querySelector('.play-band:not([hidden])');
        if (band) found.push(Math.round(band.getBoundingClientRect().top));
      }
      return found;
    });
    expect(tops.length).toBeGreaterThan(5);
    expect(Math.min(...tops)).toBeGreaterThanOrEqual(200);
  });
});
