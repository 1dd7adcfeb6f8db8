/** What a page loads and makes before and when sound is asked for, and where it cannot sound. */
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { LONG } from '../../setup/long.ts';
import { nowBars, seen, test } from './visit.ts';

describe('before sound is asked for', () => {
  test('a page loads a button and no more, and with the player stays under 30 KiB', async ({ files, visit }) => {
    const { page, hear, loaded } = await visit();
    const weight = (paths: readonly string[]): number =>
      paths
        .filter((path) => path.endsWith('.js'))
        .reduce((sum, path) => sum + gzipSync(files[path]?.body ?? '').length, 0);
    expect(weight(loaded)).toBeLessThan(1024);
    expect((await seen(page)).contexts).toEqual([]);
    await hear();
    await page.locator('.player').waitFor();
    expect(weight(loaded)).toBeLessThan(30 * 1024);
    expect(weight(loaded)).toBeGreaterThan(5 * 1024);
  });

  test('without scripts no control is shown', async ({ visit }) => {
    const { page, block } = await visit({ scripts: false });
    expect(await page.getByRole('button').filter({ visible: true }).count()).toBe(0);
    expect(await block.getByText('Hear it').isVisible()).toBe(false);
    expect(await page.locator('.tile').first().isVisible()).toBe(true);
  });

  test('the sound is made in the handler of the click itself', async ({ visit }) => {
    const { page, hear } = await visit();
    await hear();
    await page.locator('.player').waitFor();
    expect((await seen(page)).contexts).toEqual(['click']);
  });
});

describe('a player that cannot be loaded', () => {
  test('says so on its button, which keeps the focus and tries again', async ({ visit }) => {
    const { page, block, control } = await visit();
    await page.route(/\.js$/, (route) => route.abort());
    const button = block.locator('reedway-player button');
    await button.press('Enter');
    await expect.poll(() => button.textContent()).toContain('could not be loaded');
    expect(await button.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.unroute(/\.js$/);
    await button.press('Enter');
    await control('button', 'Pause').waitFor();
  });
});

describe('a browser that makes no sound', () => {
  test('gets a message, and the block stays', async ({ visit }) => {
    const { page, block, hear } = await visit({
      before: () => {
        Reflect.deleteProperty(globalThis, 'AudioContext');
      },
    });
    await hear();
    expect(await block.getByRole('alert').textContent()).toContain('Web Audio is missing');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('alert');
    expect(await block.locator('.tile').first().isVisible()).toBe(true);
  });

  /** A device whose state the test decides, from asleep on. */
  const held = (): void => {
    let state: AudioContextState | undefined = 'suspended';
    const contexts: AudioContext[] = [];
    const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, 'state')?.get;
    Object.defineProperty(AudioContext.prototype, 'state', {
      get(this: AudioContext) {
        if (!contexts.includes(this)) contexts.push(this);
        return state ?? real?.call(this);
      },
    });
    Object.assign(globalThis, {
      become: (next?: AudioContextState) => {
        state = next;
        for (const context of contexts) context.dispatchEvent(new Event('statechange'));
      },
    });
  };
  const become = (page: Page, state?: AudioContextState) =>
    page.evaluate(
      (next) => (globalThis as unknown as { become: (next?: AudioContextState) => void }).become(next),
      state,
    );

  test.runIf(LONG)('that holds the sound back is asked again with a button', async ({ visit }) => {
    const { page, block, control, hear } = await visit({ before: held });
    await hear();
    const message = block.locator('.player-message');
    await expect.poll(() => message.textContent(), { timeout: 5000 }).toContain('blocking sound on this page');
    expect(await control('button', 'Play').count()).toBe(1);
    await page.evaluate(() => {
      // It is allowed now, and asked no more by itself.
      EventTarget.prototype.dispatchEvent = () => true;
    });
    await become(page);
    await control('button', 'Play anyway').click();
    await control('button', 'Pause').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Pause');
    expect(await message.textContent()).toBe('');
    await block.locator('.tile.now').first().waitFor();
  });

  test.runIf(LONG)('for two seconds begins when it can, and nothing is said', async ({ visit }) => {
    const { page, block, control, hear } = await visit({ before: held });
    await hear();
    await control('button', 'Pause').waitFor();
    await page.waitForTimeout(2000);
    expect(await block.locator('.player-message').textContent()).toBe('');
    await become(page);
    // Two bars would be over if it had begun with the press: the count is heard first, then the first note.
    const first = block.locator('[data-event].now').first();
    await first.waitFor();
    expect(await nowBars(page)).toEqual([0]);
    await become(page, 'suspended');
    await control('button', 'Play').waitFor();
    expect(await block.locator('.player-message').textContent()).toContain('blocking sound on this page');
    await become(page);
    await expect.poll(() => block.locator('.player-message').textContent()).toBe('');
  });

  test.runIf(LONG)('for longer says so, takes it back and plays', async ({ visit }) => {
    const { page, block, control, hear } = await visit({ before: held });
    await hear();
    const again = control('button', 'Play anyway');
    await again.waitFor();
    await again.focus();
    await become(page);
    await control('button', 'Pause').waitFor();
    expect(await block.locator('.player-message').textContent()).toBe('');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Pause');
    await block.locator('.tile.now').first().waitFor();
  });

  test.runIf(LONG)('and is paused meanwhile stays silent', async ({ visit }) => {
    const { page, control, hear } = await visit({ before: held });
    await hear();
    await control('button', 'Pause').click();
    await control('button', 'Play').waitFor();
    await become(page);
    await page.waitForTimeout(500);
    expect(await control('button', 'Play').count()).toBe(1);
  });
});
