/** Large type and following, on a phone on a music largeType. */
import { describe, expect } from 'vitest';
import { nowBars, seen, test } from './visit.ts';

describe('on a phone on a music stand', () => {
  const PHONE = { width: 360, height: 740, touch: true };

  test('large type says what to do now and next, and covers nothing that is played', async ({ visit }) => {
    const { page, block, control, hearAtOnce, more } = await visit(PHONE);
    await hearAtOnce();
    await more();
    await control('button', 'Large type').click();
    await control('button', 'Stop').click();
    await control('button', 'Play').click();
    const largeType = page.getByRole('region', { name: 'What to play' });
    const now = largeType.locator('.large-type-now');
    // The music continues while the test reads, so all that is shown of one note is read in one look.
    const lacking = async (): Promise<string[]> => {
      const text = ((await now.textContent()) ?? '').replace(/\s+/g, ' ');
      return ['3', 'draw', 'half-step bend', 'lips', '♭3', 'glide on'].filter((word) => !text.includes(word));
    };
    await expect.poll(lacking, { interval: 20, timeout: 20_000 }).toEqual([]);
    await expect
      .poll(() => largeType.locator('.large-type-next').textContent(), { interval: 20, timeout: 20_000 })
      .toContain('rest');
    expect(await largeType.locator('.large-type-place').textContent()).toContain('E7 (I7)');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    // A bar takes two seconds: the page has followed to it well before it is over.
    const clear = () =>
      block.evaluate((element) => {
        const tile = element.querySelector('.tile.now')?.getBoundingClientRect();
        const main = element.querySelector('.player')?.getBoundingClientRect();
        return tile && main && tile.top >= 0 && tile.bottom <= main.top + 1;
      });
    await block.locator('.tile.now[data-bar="2"]').first().waitFor();
    await expect.poll(clear, { timeout: 1500 }).toBe(true);
  });

  test('large type says during the count-in what comes first', async ({ visit }) => {
    const { page, control, hear, more } = await visit(PHONE);
    await hear();
    await more();
    await control('button', 'Large type').click();
    const largeType = page.getByRole('region', { name: 'What to play' });
    expect(await largeType.locator('.large-type-place').textContent()).toBe('Bar 1 · E7 (I7) · 120 a minute');
    expect(await largeType.locator('.large-type-now').textContent()).toContain('count-in');
    expect(await largeType.locator('.large-type-next').textContent()).toContain('half-step bend');
  });

  test('large type that cannot be loaded stays closed, and its button says so', async ({ visit }) => {
    const { page, control, hear, more } = await visit(PHONE);
    await hear();
    await control('button', 'Pause').waitFor();
    await more();
    await control('button', 'Large type').waitFor();
    await page.route(/\.js$/, (route) => route.abort());
    await control('button', 'Large type').click();
    await expect.poll(() => control('button', 'Large type').getAttribute('aria-pressed')).toBe('false');
    expect(await page.getByRole('region', { name: 'What to play' }).count()).toBe(0);
    await control('button', 'Pause').waitFor();
  });

  test('large type has room for a chord and every word about it', async ({ visit }) => {
    for (const size of [PHONE, { ...PHONE, width: 740, height: 360 }]) {
      const { page, control, hearAtOnce, more } = await visit(size);
      await hearAtOnce();
      await more();
      await control('button', 'Large type').click();
      await control('button', /^Loop bar 8\b/).click();
      await control('button', 'Pause').click();
      const largeType = page.getByRole('region', { name: 'What to play' });
      expect(await largeType.locator('.large-type-now').textContent()).toBe('Now1 2 3drawlips');
      const faults = await largeType.evaluate((element) => {
        const whole = element.getBoundingClientRect();
        return [
          ...element.querySelectorAll('.large-type-place, .large-type-now b, .large-type-now .large-type-about span'),
        ]
          .filter((one) => {
            const { top, bottom, left, right, height } = one.getBoundingClientRect();
            const line = Number.parseFloat(getComputedStyle(one).fontSize) * 3;
            const inside = top >= whole.top && bottom <= whole.bottom && left >= whole.left && right <= whole.right;
            return !inside || height === 0 || height > line;
          })
          .map((one) => one.textContent);
      });
      expect(faults).toEqual([]);
    }
  });

  test('large type follows the harp in the hand, paused as well', async ({ visit }) => {
    const { page, control, hearAtOnce, more } = await visit(PHONE);
    await hearAtOnce();
    await more();
    await control('button', 'Large type').click();
    await control('button', 'Pause').click();
    const place = page.getByRole('region', { name: 'What to play' }).locator('.large-type-place');
    expect(await place.textContent()).toContain('E7 (I7)');
    await page.evaluate(() => {
      localStorage.setItem('reedway-harp', JSON.stringify({ harp: 'low F' }));
      document.dispatchEvent(new CustomEvent('reedway:harp'));
    });
    expect(await place.textContent()).toContain('C7 (I7)');
  });

  test('a finger chooses a bar by touching it', async ({ visit }) => {
    const { block, control, hear } = await visit(PHONE);
    await hear();
    await control('button', /^Loop bar 2\b/).tap();
    expect(await block.locator('.bar-picks button.chosen').count()).toBe(1);
    await control('button', /^Loop bar 3\b/).tap();
    expect(await block.locator('.bar-picks button.chosen').count()).toBe(2);
  });

  test('what can be seen is not scrolled', async ({ visit }) => {
    const { page, hearAtOnce } = await visit({ height: 2200 });
    await hearAtOnce();
    await expect.poll(() => nowBars(page), { timeout: 8000 }).toEqual([2]);
    expect((await seen(page)).scrolls).toEqual([]);
  });

  test('the page follows smoothly, or at once for who wants no motion', async ({ visit }) => {
    for (const calm of [false, true]) {
      const { page, hearAtOnce } = await visit({ ...PHONE, calm });
      await hearAtOnce();
      await expect.poll(async () => (await seen(page)).scrolls.length, { timeout: 5000 }).toBeGreaterThan(0);
      const { scrolls } = await seen(page);
      expect(new Set(scrolls.map(({ behavior }) => behavior))).toEqual(new Set([calm ? 'instant' : 'smooth']));
    }
  });
});
