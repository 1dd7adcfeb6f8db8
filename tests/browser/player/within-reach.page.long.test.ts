/** What a student reaches while a long tune plays: on a phone upright and on its side, a tablet and a desktop. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { demoSite, type SharedSite } from '../shared-site.ts';
import { withBrowser as test } from '../with-browser.ts';

const WINDOWS = [
  { width: 360, height: 740, touch: true },
  { width: 740, height: 360, touch: true },
  { width: 820, height: 1180, touch: true },
  { width: 1440, height: 900, touch: false },
];

let site: SharedSite;
beforeAll(async () => {
  site = await demoSite();
});
afterAll(() => site.close());

/** The solo of 24 bars, and what in its page is not where it should be. */
async function openSolo(page: Page): Promise<{ readonly block: Locator; readonly faults: () => Promise<string[]> }> {
  await page.goto(`${site.address}lessons/closing-solo/`);
  const block = page.locator('#block-millrace-blues');
  expect(await block.locator('[data-bar="23"]').count()).toBeGreaterThan(0);
  const faults = () =>
    page.evaluate(() => {
      const found: string[] = [];
      const inWindow = ({ top, bottom }: DOMRect): boolean => top >= -1 && bottom <= innerHeight + 1;
      const bar = document.querySelector('.player.shown');
      if (!bar || !inWindow(bar.getBoundingClientRect())) found.push('the bar is not in the window');
      const focused = document.activeElement;
      if (focused && focused !== document.body && !inWindow(focused.getBoundingClientRect()))
        found.push(`the focus is not in the window: ${focused.outerHTML.slice(0, 80)}`);
      const lanes = document.querySelector('.tile.now .lanes')?.getBoundingClientRect();
      const covered = bar?.getBoundingClientRect().top ?? innerHeight;
      if (lanes && (lanes.top < 0 || lanes.bottom > covered)) found.push('the holes that are played are not in sight');
      if (document.documentElement.scrollWidth > innerWidth) found.push('the page is wider than the window');
      return found;
    });
  return { block, faults };
}

describe.for(WINDOWS)('in a window of $width by $height', ({ width, height, touch }) => {
  test('bars 3 and 4 are looped at 60 % with four presses', async ({ newPage }) => {
    const page = await newPage({ viewport: { width, height }, hasTouch: touch });
    const { block, faults } = await openSolo(page);
    let presses = 0;
    const press = async (name: string | RegExp): Promise<void> => {
      presses++;
      const control = block.getByRole('button', { name, exact: typeof name === 'string' });
      await (touch ? control.tap() : control.click());
    };
    await press(/^Hear it/);
    await block.getByRole('button', { name: 'Pause', exact: true }).waitFor();
    // The first bars are in sight without a swipe, while the player counts.
    await expect
      .poll(() =>
        block
          .locator('[data-bar="0"] .lanes')
          .first()
          .evaluate((lanes) => {
            const { top, bottom } = lanes.getBoundingClientRect();
            return top >= 0 && bottom <= (document.querySelector('.player.shown')?.getBoundingClientRect().top ?? 0);
          }),
      )
      .toBe(true);
    await press(/^Loop bar 3\b/);
    await press(/^Loop bar 4\b/);
    await press('60 %');
    expect(presses).toBe(4);
    expect(await block.locator('.player-now').textContent()).toBe('62 a minute');
    expect(await block.getByRole('button', { name: 'Loop: bars 3 to 4' }).getAttribute('aria-pressed')).toBe('true');
    // Nine seconds of four-bar rounds at 62: both bars, and back.
    await page.waitForTimeout(6000);
    for (let look = 0; look < 9; look++) {
      expect(await faults()).toEqual([]);
      await page.waitForTimeout(1000);
    }
  });

  test('no control loses sight of its reader while the tune plays, by the keyboard alone', async ({ newPage }) => {
    const page = await newPage({ viewport: { width, height } });
    const { block, faults } = await openSolo(page);
    await block.getByRole('button', { name: /^Hear it/ }).focus();
    await page.keyboard.press('Enter');
    await block.getByRole('button', { name: 'Pause', exact: true }).waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('More');
    await page.keyboard.press('Enter');
    await block.getByRole('slider', { name: 'Tempo' }).waitFor();
    const reached = new Set<string>();
    for (let stop = 0; stop < 30; stop++) {
      await page.keyboard.press('Tab');
      const where = await page.evaluate(() => {
        const { activeElement: focused } = document;
        if (!focused?.closest('.player')) return 'outside';
        const { top, bottom } = focused.getBoundingClientRect();
        const name = focused.getAttribute('aria-label') || focused.textContent || focused.id;
        return top >= 0 && bottom <= innerHeight ? name : `${name} is out of the window`;
      });
      if (where === 'outside') break;
      reached.add(where);
    }
    expect([...reached].filter((name) => name.includes('out of'))).toEqual([]);
    expect(reached.size).toBeGreaterThan(15);
    await block.getByRole('button', { name: 'More', exact: true }).focus();
    await page.keyboard.press('Escape');
    for (let look = 0; look < 6; look++) {
      expect((await faults()).filter((fault) => fault.includes('focus'))).toEqual([]);
      await page.waitForTimeout(700);
    }
  });
});
