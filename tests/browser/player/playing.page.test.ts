/** A block that plays: what sounds, what lights up, what pauses, and what a screen reader announces. */
import { describe, expect } from 'vitest';
import { LONG } from '../../setup/long.ts';
import { level, nowBars, seen, test } from './visit.ts';

describe('playing', () => {
  test('counts in, sounds, and moves over staff, lanes and chord together', async ({ visit }) => {
    const { page, block, control, hear } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    // The clicks of the count are heard though the metronome is off.
    await expect.poll(() => level(page)).toBeGreaterThan(0.05);
    expect(await nowBars(page)).toEqual([]);
    await block.locator('.tile.now').first().waitFor();
    expect(await level(page)).toBeGreaterThan(0.05);
    const marked = await block.evaluate((element) => {
      const box = (one: Element | null | undefined): DOMRect => one?.getBoundingClientRect() ?? new DOMRect();
      const covers = (over: DOMRect, one: DOMRect): boolean =>
        one.width > 0 &&
        over.left <= one.left &&
        over.right >= one.right &&
        over.top <= one.top &&
        over.bottom >= one.bottom;
      const marked = [...element.querySelectorAll<SVGElement>('[data-event].now')];
      const find = (selector: string) => marked.flatMap((group) => [...group.querySelectorAll(selector)])[0];
      const band = box(element.querySelector('.play-band'));
      const line = box(element.querySelector('.play-line'));
      const symbol = element.querySelector('[data-chord].now');
      return {
        staff: covers(band, box(find('use[href^="#g-"]'))),
        lane: covers(band, box(find('text.n'))),
        events: new Set(marked.map((group) => group.dataset['event'])).size,
        chord: symbol?.textContent,
        underlined: [line.left - box(symbol).left, line.right - box(symbol).right, line.top - box(symbol).bottom],
      };
    });
    expect(marked).toMatchObject({ staff: true, lane: true, events: 1 });
    expect(marked.chord).toContain('E7');
    for (const off of marked.underlined) expect(Math.abs(off)).toBeLessThanOrEqual(2);
  });

  test.runIf(LONG)('pauses with the place kept, continues, stops, and is silent then', async ({ visit }) => {
    const { page, block, control, hearAtOnce } = await visit();
    await hearAtOnce();
    await expect.poll(() => nowBars(page), { timeout: 5000 }).toEqual([1]);
    await control('button', 'Pause').click();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    await control('button', 'Play').click();
    await expect.poll(() => level(page)).toBeGreaterThan(0.02);
    expect(await nowBars(page)).toEqual([1]);
    await control('button', 'Stop').click();
    expect(await nowBars(page)).toEqual([]);
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    for (const mark of ['.play-band', '.play-line']) expect(await block.locator(mark).isHidden()).toBe(true);
  });

  test('keeps the screen awake while it plays, and no longer', async ({ visit }) => {
    const { page, control, hear, more } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    expect(await seen(page)).toMatchObject({ wakes: 1, released: 0 });
    await more();
    await control('combobox', 'Drone').selectOption('E, the key note');
    await control('button', 'Pause').click();
    expect(await seen(page)).toMatchObject({ wakes: 1, released: 0 });
    await control('combobox', 'Drone').selectOption('none');
    expect(await seen(page)).toMatchObject({ wakes: 1, released: 1 });
  });

  test.runIf(LONG)(
    'shows where it continues while it is paused, through other bars, another width and other tiles',
    async ({ visit }) => {
      const { page, block, control, hearAtOnce, more } = await visit();
      await hearAtOnce();
      // Not the first note, where a player that is stopped begins.
      await page.waitForFunction(() => {
        const now = document.querySelector<HTMLElement>('[data-event].now');
        return now && now.dataset['event'] !== '0';
      });
      await control('button', 'Pause').click();
      /** How far the band's sides are from the note it marks. */
      const off = () =>
        block.evaluate((element) => {
          const band = element.querySelector('.play-band')?.getBoundingClientRect();
          const notes = [...element.querySelectorAll('[data-event].now')].map((note) => note.getBoundingClientRect());
          const left = Math.min(...notes.map((note) => note.left));
          const right = Math.max(...notes.map((note) => note.right));
          return band && notes.length > 0 ? [left - band.left, band.right - right].map(Math.round) : [];
        });
      expect(await off()).toEqual([4, 4]);
      await page.setViewportSize({ width: 700, height: 900 });
      await expect.poll(off).toEqual([4, 4]);
      await more();
      await control('combobox', 'From').selectOption('bar 7');
      expect(await nowBars(page)).toEqual([6]);
      await block.evaluate((element) => {
        const tile = element.querySelector('[data-bar="6"]');
        tile?.classList.remove('now');
        tile?.replaceWith(tile.cloneNode(true));
      });
      await expect.poll(() => nowBars(page)).toEqual([6]);
      await expect.poll(off).toEqual([4, 4]);
    },
  );

  test('is left to one block at a time', async ({ visit }) => {
    const { page, control, hear } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    await page.locator('[data-block="1"]').getByRole('button', { name: 'Hear it' }).click();
    await control('button', 'Hear it').waitFor();
    // The bar at the foot of the window is now that of the other.
    const bars = page.getByRole('group', { name: /^Player/ });
    expect(await bars.count()).toBe(1);
    expect(await page.locator('[data-block="1"]').getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
  });

  test('pauses when the page is no longer looked at, and no drone continues', async ({ visit }) => {
    const { page, control, hear, more } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    await more();
    await control('combobox', 'Drone').selectOption('E, the key note');
    await page.evaluate(() => {
      Object.defineProperty(document, 'hidden', { value: true, configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await control('button', 'Play').waitFor();
    expect(await control('combobox', 'Drone').inputValue()).toBe('');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
  });
});
