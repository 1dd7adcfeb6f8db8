/** What a student reached is offered again, and what is done is marked wherever lessons are listed. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { practiceIn } from '../../../src/browser/progress/practice-log.ts';
import { entryOf, type Progress, readRecord, writeRecord } from '../../../src/browser/progress/record.ts';
import { itemAt } from '../../../src/values/checked.ts';
import { LONG } from '../../setup/long.ts';
import { violationsOn } from '../axe.ts';
import { demoSite, type SharedSite } from '../shared-site.ts';
import { withBrowser as test } from '../with-browser.ts';
import { entry, record } from './some-progress.ts';

const KEY = 'reedway-progress:/school/';
const LESSON = 'first-chorus';
const BLOCK = `${LESSON}/chorus`;
const DAY = 86_400_000;

let site: SharedSite;
beforeAll(async () => {
  site = await demoSite();
});
afterAll(() => site?.close());

/** Puts a record where the site keeps it, before any page of it is opened. */
async function keep(page: Page, text: string): Promise<void> {
  await page.goto(`${site.address}licences.txt`);
  await page.evaluate(([key, value]) => localStorage.setItem(key ?? '', value ?? ''), [KEY, text]);
}
const keepRecord = (page: Page, progress: Progress) => keep(page, writeRecord(progress));

async function kept(page: Page): Promise<Progress> {
  const text = await page.evaluate((key) => localStorage.getItem(key), KEY);
  return readRecord(text ?? '').progress;
}

const settings = (more: object) => ({ tempo: 66, swing: 0.5, loop: true, ...more });
const reached = (more: object, at = Date.now() - DAY): Progress =>
  record({ settings: { [BLOCK]: entry(settings(more), 5, 'd', at) } });

const blockOf = (page: Page) => page.locator('#block-chorus');
const offerOf = (page: Page) => blockOf(page).locator('.go-on');

describe('what was reached in a block', () => {
  test('is kept, is offered again, and opens the player as it was', async ({ newPage }) => {
    const page = await newPage({});
    await keepRecord(page, reached({ bars: [2, 3] }));
    await page.goto(`${site.address}lessons/${LESSON}/`);
    await expect.poll(() => offerOf(page).textContent()).toBe('Go on: bars 3 to 4 at 66 (yesterday): First chorus');
    await offerOf(page).click();
    const player = blockOf(page).locator('.player');
    await player.getByRole('button', { name: 'Loop: bars 3 to 4' }).waitFor();
    await player.getByText('66 a minute').first().waitFor();
    // What it opened with is of today now; and what is changed since is kept.
    await offerOf(page).waitFor({ state: 'detached' });
    await player.getByRole('button', { name: 'Faster' }).click();
    await expect
      .poll(async () => entryOf(await kept(page), 'settings', BLOCK)?.value, { timeout: 5000 })
      .toEqual(settings({ tempo: 70, bars: [2, 3] }));
    await player.getByRole('button', { name: 'Stop' }).click();
    expect(entryOf(await kept(page), 'place', 'last')?.value).toEqual({ lesson: LESSON, block: 'chorus' });
    await page.reload();
    await expect.poll(() => offerOf(page).textContent()).toBe('Go on: bars 3 to 4 at 70 (today): First chorus');
  });

  test.runIf(LONG)(
    'is as much of it as the block still has, and nothing where that is as written',
    async ({ newPage }) => {
      for (const [more, text] of [
        [{ bars: [2, 30] }, 'Go on: whole block at 66 (yesterday)'],
        [{ bars: [11, 11], tempo: 900 }, 'Go on: bar 12 at 138 (yesterday)'],
      ] as const) {
        const page = await newPage({});
        await keepRecord(page, reached(more));
        await page.goto(`${site.address}lessons/${LESSON}/`);
        await expect.poll(() => offerOf(page).textContent()).toBe(`${text}: First chorus`);
      }
      const page = await newPage({});
      await keepRecord(page, reached({ tempo: 92, swing: 2 / 3, loop: false }));
      const loaded = page.waitForResponse(/later\.[^/]*\.js/);
      await page.goto(`${site.address}lessons/${LESSON}/`);
      await loaded;
      await page.waitForLoadState('networkidle');
      expect(await offerOf(page).count()).toBe(0);
    },
  );

  test.runIf(LONG)('is what one goes on with, though the address asks for other bars', async ({ newPage }) => {
    const page = await newPage({});
    await keepRecord(page, reached({ bars: [2, 3] }));
    await page.goto(`${site.address}lessons/${LESSON}/?bars=7-8&tempo=80#block-chorus`);
    await blockOf(page).getByText('Ready to play: bars 7 to 8').waitFor();
    await offerOf(page).click();
    const player = blockOf(page).locator('.player');
    await player.getByRole('button', { name: 'Loop: bars 3 to 4' }).waitFor();
    await player.getByText('66 a minute').first().waitFor();
    await offerOf(page).waitFor({ state: 'detached' });
    expect(await player.getByRole('button', { name: 'Loop: bars 3 to 4' }).count()).toBe(1);
    expect(await blockOf(page).getByText('Ready to play').count()).toBe(0);
  });

  test.runIf(LONG)(
    'is not replaced by hearing the block as it is written, and what was practised is logged',
    async ({ newPage }) => {
      const page = await newPage({});
      const before = reached({ bars: [2, 3] });
      await keepRecord(page, before);
      await page.goto(`${site.address}lessons/${LESSON}/`);
      await blockOf(page).getByRole('button', { name: 'Hear it' }).click();
      const player = blockOf(page).locator('.player');
      await player.getByRole('button', { name: 'Pause' }).waitFor();
      await page.waitForTimeout(5500);
      await player.getByRole('button', { name: 'Pause' }).click();
      await expect.poll(async () => (await kept(page)).get('log')?.size).toBe(1);
      expect(entryOf(await kept(page), 'settings', BLOCK)).toEqual(entryOf(before, 'settings', BLOCK));
      const { seconds = 0, tempo } = practiceIn(await kept(page)).find(({ block }) => block === BLOCK) ?? {};
      expect(seconds).toBeGreaterThanOrEqual(5);
      expect(tempo).toBe(92);
    },
  );
});

describe('the last place', () => {
  test.runIf(LONG)('is where home and the path lead to, until that lesson is done', async ({ newPage }) => {
    const page = await newPage({});
    await page.goto(`${site.address}lessons/${LESSON}/`);
    await page.goto(site.address);
    const onward = page.locator('path-onward a');
    await expect.poll(() => onward.textContent()).toContain('A first chorus');
    await page.goto(`${site.address}path/`);
    await expect
      .poll(() => page.locator('.progress-summary').textContent())
      .toMatch(/^Go on with A first chorus\. Next: /);
    await page.goto(`${site.address}lessons/${LESSON}/`);
    await page.getByLabel('I have done this lesson').check();
    await page.goto(site.address);
    await expect.poll(() => onward.textContent()).toContain('First sounds');
  });
});

describe('a lesson that is done', () => {
  test.runIf(LONG)('is marked wherever lessons are listed, and in other tabs at once', async ({ newPage }) => {
    const page = await newPage({});
    const [first, second] = site.course.lessons.map(({ id }) => id);
    // By a version of the site before this one.
    await keep(page, JSON.stringify({ version: 1, lessons: { [first ?? '']: { done: true, at: 5 } }, blocks: {} }));
    await page.goto(site.address);
    const done = page.locator('.lessons lesson-done').filter({ hasText: 'Done' });
    await expect.poll(() => done.count()).toBe(1);
    expect(await page.locator('.lessons > li').first().locator('h3').textContent()).toMatch(
      /^\s*First sounds\s+✓ Done\s*$/,
    );
    expect(await violationsOn(page)).toEqual([]);

    const other = await page.context().newPage();
    await other.goto(`${site.address}lessons/${second}/`);
    const number = (index: number) => other.locator('.comb a').nth(index);
    await expect.poll(() => number(0).getAttribute('aria-label')).toBe('1. First sounds, done');
    expect(await number(1).getAttribute('aria-label')).toBe('2. In and out');
    await other.getByLabel('I have done this lesson').check();
    expect(await number(1).getAttribute('aria-label')).toBe('2. In and out, done');
    await expect.poll(() => done.count()).toBe(2);
    await other.getByLabel('I have done this lesson').uncheck();
    await expect.poll(() => done.count()).toBe(1);
    expect(await number(1).getAttribute('aria-label')).toBe('2. In and out');

    const technique = itemAt(site.course.byId.get(first ?? '')?.frontMatter.teaches ?? [], 0);
    for (const path of ['techniques/', `techniques/${technique}/`]) {
      await other.goto(site.address + path);
      await other.locator('lesson-done').filter({ hasText: 'Done' }).first().waitFor();
    }
    expect(await violationsOn(other)).toEqual([]);
  });

  test.runIf(LONG)('is not marked without scripts', async ({ newPage }) => {
    const page = await newPage({ javaScriptEnabled: false });
    for (const path of ['', `lessons/${LESSON}/`, 'techniques/']) {
      await page.goto(site.address + path);
      expect(await page.locator('lesson-done').first().count()).toBe(1);
      expect(await page.locator('lesson-done').filter({ visible: true }).count()).toBe(0);
    }
  });
});

describe('what a browser may delete', () => {
  test.runIf(LONG)('it is asked to keep, once, when something is marked', async ({ newPage }) => {
    const page = await newPage({});
    await page.addInitScript(() => {
      navigator.storage.persist = async () => {
        sessionStorage.setItem('asked', `${Number(sessionStorage.getItem('asked')) + 1}`);
        return false;
      };
    });
    const asked = () => page.evaluate(() => sessionStorage.getItem('asked'));
    await page.goto(`${site.address}lessons/${LESSON}/`);
    expect(await asked()).toBeNull();
    await page.getByLabel('I have done this lesson').check();
    await expect.poll(asked).toBe('1');
    await page.reload();
    await page.getByLabel('I can play this').first().check();
    await page.waitForLoadState('networkidle');
    expect(await asked()).toBe('1');
  });

  test.runIf(LONG)(
    'is offered as a file where there is much of it, until it is saved or not wanted',
    async ({ newPage }) => {
      const lessons = site.course.lessons.slice(0, 6).map(({ id }) => id);
      const marks = (at: number) =>
        record({ lessons: Object.fromEntries(lessons.map((id, index) => [id, entry(true, index, 'd', at)])) });
      const page = await newPage({ acceptDownloads: true });
      const reminder = page.locator('.reminder');
      await keepRecord(page, marks(Date.now() - DAY));
      await page.goto(`${site.address}path/`);
      await page.locator('.path-list .next').waitFor();
      expect(await reminder.textContent()).toBe('');
      await keepRecord(page, marks(Date.now() - 10 * DAY));
      await page.goto(`${site.address}path/`);
      const download = page.waitForEvent('download');
      await reminder.getByRole('button', { name: 'Save to a file' }).click();
      await download;
      expect(await reminder.textContent()).toBe('');
      await page.reload();
      await page.locator('.path-list .next').waitFor();
      expect(await reminder.textContent()).toBe('');
      await keepRecord(page, marks(Date.now() - 10 * DAY));
      await page.goto(`${site.address}path/`);
      await reminder.getByRole('button', { name: 'Not now' }).click();
      await page.reload();
      await page.locator('.path-list .next').waitFor();
      expect(await reminder.textContent()).toBe('');
    },
  );
});
