/** What a page loads and makes before and when sound is asked for, and where it cannot sound. */
import { gzipSync } from 'node:zlib';
import { describe, expect } from 'vitest';
import { LONG } from '../../setup/long.ts';
import { seen, test } from './visit.ts';

describe('before sound is asked for', () => {
  test('a page loads a button and no more, and with the player stays under 29 KiB', async ({ files, visit }) => {
    const { page, hear, loaded } = await visit();
    const weight = (paths: readonly string[]): number =>
      paths
        .filter((path) => path.endsWith('.js'))
        .reduce((sum, path) => sum + gzipSync(files[path]?.body ?? '').length, 0);
    expect(weight(loaded)).toBeLessThan(1024);
    expect((await seen(page)).contexts).toEqual([]);
    await hear();
    await page.locator('.player').waitFor();
    expect(weight(loaded)).toBeLessThan(29 * 1024);
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

  test.runIf(LONG)('that holds the sound back is asked again with a button', async ({ visit }) => {
    const { page, block, control, hear } = await visit({
      before: () => {
        let held = true;
        const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, 'state')?.get;
        Object.defineProperty(AudioContext.prototype, 'state', {
          get(this: AudioContext) {
            return held ? 'suspended' : real?.call(this);
          },
        });
        Object.assign(globalThis, {
          letSound: () => {
            held = false;
          },
        });
      },
    });
    await hear();
    const message = block.locator('.player-message');
    await expect.poll(() => message.textContent()).toContain('blocking sound on this page');
    expect(await control('button', 'Play').count()).toBe(1);
    await page.evaluate(() => (globalThis as unknown as { letSound: () => void }).letSound());
    await control('button', 'Play anyway').click();
    await control('button', 'Pause').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Pause');
    expect(await message.textContent()).toBe('');
    await block.locator('.tile.now').first().waitFor();
  });
});
