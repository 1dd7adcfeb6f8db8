/** What a student reads when the browser cannot sound or keep anything: there where they asked for it. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { DONE_MARKS } from '../../src/texts/english/marks.ts';
import { PLAYER } from '../../src/texts/english/player/player.ts';
import { TONES } from '../../src/texts/english/tones.ts';
import { itemAt } from '../../src/values/checked.ts';
import { LONG } from '../setup/long.ts';
import { demoSite, type SharedSite } from './shared-site.ts';
import { withBrowser as test } from './with-browser.ts';

let site: SharedSite;
let lesson: string;
beforeAll(async () => {
  site = await demoSite();
  lesson = `lessons/${itemAt(site.course.lessons, 0).id}/`;
});
afterAll(() => site?.close());

async function visit(page: Page, path: string, before: () => void): Promise<void> {
  await page.addInitScript(before);
  await page.goto(site.address + path);
}

describe('a browser that gives no sound', () => {
  const silent = (): void => {
    Object.assign(globalThis, {
      AudioContext: class {
        constructor() {
          throw new DOMException('The number of hardware contexts provided (6) is greater than or equal to the limit.');
        }
      },
    });
  };

  test('says so in place of the player', async ({ newPage }) => {
    const page = await newPage({});
    await visit(page, lesson, silent);
    await page.locator('reedway-player button').first().click();
    expect(await page.locator('reedway-player [role=alert]').first().textContent()).toBe(PLAYER.noSound);
  });

  test('says so below a figure whose note is pressed, once', async ({ newPage }) => {
    const page = await newPage({});
    await visit(page, `harps/${itemAt(site.course.tunings, 0).id}/`, silent);
    const notes = page.locator('.figure .tone');
    for (const index of [0, 1]) await notes.nth(index).click();
    expect(await page.locator('.no-sound').allTextContents()).toEqual([TONES.noSound]);
  });
});

describe('a tick that the browser does not keep', () => {
  const blocked = (): void => {
    Object.defineProperty(globalThis, 'localStorage', {
      get() {
        throw new DOMException('The operation is insecure.', 'SecurityError');
      },
    });
  };
  const full = (): void => {
    Storage.prototype.setItem = () => {
      throw new DOMException('Setting the value exceeded the quota.', 'QuotaExceededError');
    };
  };

  for (const [why, before, text] of [
    ['as it is set to keep nothing', blocked, DONE_MARKS.notKeptBlocked],
    ['as it has no room', full, DONE_MARKS.notKeptFull],
  ] as const) {
    test(`${why}, is reported beside it`, async ({ newPage }) => {
      const page = await newPage({});
      await visit(page, lesson, before);
      for (const mark of ['block-mark', 'lesson-mark']) {
        const place = page.locator(mark).first();
        expect(await place.locator('[role=status]').textContent()).toBe('');
        await place.locator('input').check();
        expect(await place.locator('[role=status]').textContent()).toBe(text);
      }
    });
  }

  test.runIf(LONG)(
    'from a file that names 200,000 lessons of another course is left out, and counted',
    async ({ newPage }) => {
      const page = await newPage({});
      await visit(page, 'path/', () => {});
      const [own = ''] = site.course.lessons.map(({ id }) => id);
      const marks = Object.fromEntries(
        [own, ...Array.from({ length: 200_000 }, (_, index) => `other-${index}`)].map((id) => [
          id,
          { done: true, at: 1 },
        ]),
      );
      await page.locator('progress-file summary').click();
      await page.locator('progress-file input').setInputFiles({
        name: 'progress.json',
        mimeType: 'application/json',
        buffer: Buffer.from(JSON.stringify({ version: 1, lessons: marks, blocks: {} })),
      });
      await expect
        .poll(() => page.locator('progress-file details [role=status]').textContent())
        .toBe(
          'Loaded: 1 more lesson done. 200000 marks are for something that this course does not have, and were left out.',
        );
      expect(await page.locator(`.path-list [data-lesson="${own}"]`).getAttribute('class')).toMatch('done');
      expect(await page.evaluate(() => JSON.stringify(localStorage).length)).toBeLessThan(500);
    },
  );
});
