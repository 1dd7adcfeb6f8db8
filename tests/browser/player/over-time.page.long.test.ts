/** What a player does over several bars, which takes the time the music takes. */
import { describe, expect } from 'vitest';
import { barsPlayed, LOOP, nowBars, test } from './visit.ts';

describe('playing', () => {
  test('ends by itself after the last bar', async ({ visit }) => {
    const { page } = await visit();
    const second = page.locator('[data-block="1"]');
    await second.getByRole('button', { name: 'Hear it' }).click();
    await second.locator('.tile.now').first().waitFor();
    await second.getByRole('button', { name: 'Play', exact: true }).waitFor({ timeout: 6000 });
    expect(await nowBars(page)).toEqual([]);
  });

  test('announces to a screen reader what happens in a sentence or two, not every note', async ({ visit }) => {
    const { page, block, hearAtOnce } = await visit();
    await hearAtOnce();
    const said = await page.evaluateHandle(() => {
      const region = document.querySelector('[aria-live="polite"]') as HTMLElement;
      const said: string[] = [];
      new MutationObserver(() => said.push(region.textContent ?? '')).observe(region, { childList: true });
      return said;
    });
    await expect.poll(() => nowBars(page), { timeout: 8000 }).toEqual([2]);
    expect(await said.jsonValue()).toEqual(['Playing at 120 a minute.']);
    expect(await block.locator('[aria-live]').count()).toBe(1);
  });
});

describe('the controls', () => {
  test('slow the music down by half when they say half', async ({ visit }) => {
    const { page, control, hearAtOnce, more } = await visit();
    await hearAtOnce();
    await more();
    await control('spinbutton', 'quarters a minute').fill('36');
    await control('spinbutton', 'quarters a minute').press('Enter');
    // A bar at 36 takes more than six seconds; at full speed a third one would begin after four.
    expect((await barsPlayed(page, 4.5)).length).toBeLessThanOrEqual(2);
  });
});

describe('a loop', () => {
  test('speeds up by a step each round to its goal, and says where it is', async ({ visit }) => {
    const { block, control, hearAtOnce, more } = await visit();
    await hearAtOnce();
    await control('button', /^Loop bar 4\b/).click();
    await more();
    await control('spinbutton', 'by').fill('30');
    await control('spinbutton', 'to').fill('170');
    await control('button', LOOP).click();
    await control('checkbox', 'Speed up each round').check();
    expect(await control('button', LOOP).getAttribute('aria-pressed')).toBe('true');
    const reported = () => block.locator('.player-status').textContent();
    await expect.poll(reported, { timeout: 8000 }).toMatch(/150 a minuteRound 2/);
    await expect.poll(reported, { timeout: 8000 }).toMatch(/170 a minuteRound 3/);
    await expect.poll(reported, { timeout: 8000 }).toMatch(/170 a minuteRound 4/);
    await expect.poll(() => block.locator('[aria-live]').textContent()).toMatch(/^Round \d, 170 a minute\.$/);
  });

  test('leaves a bar free to answer after each it plays', async ({ visit }) => {
    const { page, block, control, hearAtOnce, more } = await visit();
    await hearAtOnce();
    await more();
    await control('checkbox', /^One bar at a time/).check();
    await more();
    await control('button', /^Loop bar 4\b/).click();
    await block.locator('.tile.answer').waitFor();
    expect(await nowBars(page)).toEqual([3]);
    await block.locator('.tile.now:not(.answer)').waitFor();
  });
});
