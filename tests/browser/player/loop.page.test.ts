/** Loops: chosen by mouse, finger and keyboard, and played round after round. */
import { describe, expect } from 'vitest';
import { LONG } from '../../setup/long.ts';
import { barsPlayed, LOOP, test } from './visit.ts';

describe('a loop', () => {
  test.runIf(LONG)(
    'is chosen by a press, stretched and narrowed by others, and let go by the last',
    async ({ visit }) => {
      const { block, control, hear, more } = await visit();
      await hear();
      await control('button', 'Stop').click();
      const bar = (number: number) => control('button', new RegExp(`^Loop bar ${number}\\b`));
      const chosen = () =>
        block
          .locator('.bar-picks button[aria-pressed="true"]')
          .evaluateAll((picks) => picks.map((pick) => Number((pick as HTMLElement).dataset['loopBar']) + 1));
      await bar(3).click();
      expect(await chosen()).toEqual([3]);
      expect(await control('button', LOOP).getAttribute('aria-pressed')).toBe('true');
      await bar(5).click();
      expect(await chosen()).toEqual([3, 4, 5]);
      await more();
      expect(await control('combobox', 'to').inputValue()).toBe('4');
      await bar(4).click();
      expect(await chosen()).toEqual([4]);
      await bar(4).click();
      expect(await chosen()).toEqual([]);
      expect(await control('button', LOOP).getAttribute('aria-pressed')).toBe('false');
      await expect.poll(() => block.locator('[aria-live]').textContent()).toBe('The whole block.');
    },
  );

  test.runIf(LONG)('is chosen by a drag, and plays these bars and no others, round after round', async ({ visit }) => {
    const { page, block, control, hearAtOnce, more } = await visit({ height: 1800 });
    await hearAtOnce();
    const from = await control('button', /^Loop bar 2\b/).boundingBox();
    const to = await control('button', /^Loop bar 3\b/).boundingBox();
    if (!from || !to) throw new Error('no tiles');
    await page.mouse.move(from.x + 40, from.y + 60);
    await page.mouse.down();
    await page.mouse.move(to.x + 10, to.y + 70, { steps: 5 });
    await page.mouse.move(to.x + 60, to.y + 70, { steps: 5 });
    await page.mouse.up();
    expect(await block.locator('.bar-picks button.chosen').count()).toBe(2);
    await more();
    await control('spinbutton', 'quarters a minute').fill('180');
    await control('spinbutton', 'quarters a minute').press('Enter');
    // Two rounds of two bars take 5.3 seconds.
    expect(await barsPlayed(page, 6)).toEqual([1, 2]);
  });

  test('is taken on once a drag is over, after which a key chooses as ever', async ({ visit }) => {
    const { page, block, control, hear } = await visit({ height: 1800 });
    await hear();
    await control('button', 'Stop').click();
    const from = await control('button', /^Loop bar 2\b/).boundingBox();
    const to = await control('button', /^Loop bar 3\b/).boundingBox();
    if (!from || !to) throw new Error('no tiles');
    await page.mouse.move(from.x + 20, from.y + 40);
    await page.mouse.down();
    await page.mouse.move(to.x + 20, to.y + 40, { steps: 4 });
    expect(await block.locator('.bar-picks button.chosen').count()).toBe(2);
    expect(await control('button', LOOP).getAttribute('aria-pressed')).toBe('false');
    await page.mouse.up();
    expect(await control('button', LOOP).getAttribute('aria-pressed')).toBe('true');
    await control('button', /^Loop bar 1\b/).focus();
    await page.keyboard.press('Enter');
    expect(await block.locator('.bar-picks button.chosen').count()).toBe(3);
  });

  test('is chosen with the keyboard alone', async ({ visit }) => {
    const { page, block, control } = await visit();
    await block.getByRole('button', { name: 'Hear it' }).focus();
    await page.keyboard.press('Enter');
    await control('button', 'Pause').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Pause');
    await page.keyboard.press('Space');
    await control('button', 'Play').waitFor();
    await page.keyboard.press('Shift+Tab');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(/^Loop bar 1\b/);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    const picked = () =>
      block
        .locator('.bar-picks button.chosen')
        .evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset['loopBar']));
    expect(await picked()).toEqual(['1', '2', '3']);
    await page.keyboard.press('Escape');
    expect(await picked()).toEqual([]);
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    expect(await picked()).toEqual(['11']);
    // Every bar is clear of the row of buttons at the foot of the screen.
    await page.setViewportSize({ width: 700, height: 500 });
    await page.keyboard.press('Home');
    for (let bar = 0; bar < 12; bar++) {
      const [pick, main] = await Promise.all([
        block.locator(`button[data-loop-bar="${bar}"]`).boundingBox(),
        block.locator('.player').boundingBox(),
      ]);
      expect((pick?.y ?? 0) + (pick?.height ?? 0)).toBeLessThanOrEqual(main?.y ?? 0);
      await page.keyboard.press('ArrowRight');
    }
    const outlined = await page.evaluate(() => getComputedStyle(document.activeElement as Element).outlineStyle);
    expect(outlined).not.toBe('none');
  });

  test('is a part by its name, or from one bar to another', async ({ visit }) => {
    const { block, control, hear, more } = await visit();
    await hear();
    const picked = () => block.locator('.bar-picks button.chosen').count();
    await more();
    await control('combobox', 'Part').selectOption('Turn');
    expect(await picked()).toBe(6);
    await control('combobox', 'From').selectOption('bar 2');
    await control('combobox', 'to').selectOption('bar 5');
    expect(await picked()).toBe(4);
    expect(await control('combobox', 'Part').inputValue()).toBe('');
    await control('button', 'All bars').click();
    expect(await picked()).toBe(0);
  });
});
