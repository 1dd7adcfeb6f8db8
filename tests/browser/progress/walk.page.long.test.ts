/** A student on the path of the demo course, on a phone: marking, closing the browser half way, coming back. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO } from '../../../src/command/package.ts';
import { loadCourse } from '../../../src/course/load.ts';
import { stepOf } from '../../../src/curriculum/curriculum.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { alsoLong, cases, LONG } from '../../setup/long.ts';
import { violationsOn } from '../axe.ts';
import { CHROMIUM } from '../chromium.ts';
import { demoSite, type SharedSite } from '../shared-site.ts';

const BASE = '/school/';
const KEY = `reedway-progress:${BASE}`;
const course = loadCourse(DEMO);
const order = course.lessons.map(({ id }) => id);
const titleOf = (id: string): string => course.byId.get(id)?.frontMatter.title ?? '';

const folders: string[] = [];
const folder = (): string => {
  const made = mkdtempSync(join(tmpdir(), 'reedway-walk-'));
  folders.push(made);
  return made;
};
let site: SharedSite;
beforeAll(async () => {
  site = await demoSite();
});
afterAll(() => {
  site?.close();
  for (const one of folders) rmSync(one, { recursive: true, force: true });
});

const complaints: string[] = [];

/** A browser of a student's own: what it keeps is in a folder, and there again when it is opened again. */
async function openPhone(profile: string): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(profile, {
    ...CHROMIUM,
    viewport: { width: 360, height: 740 },
    acceptDownloads: true,
  });
  context.on('weberror', (error) => complaints.push(error.error().message));
  context.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  return context;
}

async function goto(page: Page, path: string): Promise<void> {
  await page.goto(site.address + path);
}

/** What the path page says of each lesson: `done`, `ready`, `later` or `next`, the same on the map as in the list. */
async function states(page: Page): Promise<Record<string, string>> {
  await goto(page, 'path/');
  await page.locator('.path-list .next').waitFor();
  const read = (selector: string) =>
    page
      .locator(selector)
      .evaluateAll((all) =>
        Object.fromEntries(
          all.map((one) => [
            one.getAttribute('data-lesson'),
            ['done', 'ready', 'later', 'next'].filter((name) => one.classList.contains(name)).join(),
          ]),
        ),
      );
  const list = await read('.path-list li[data-lesson]');
  expect(await read('.path-map .lesson-box')).toEqual(list);
  return list;
}

const doLesson = async (page: Page, id: string): Promise<void> => {
  await goto(page, `lessons/${id}/`);
  await page.getByLabel('I have done this lesson').check();
};

describe('a student on a phone', () => {
  it('follows the path, closes the browser half way, and continues from there', async () => {
    const profile = folder();
    let phone = await openPhone(profile);
    let page = await phone.newPage();
    const first = itemAt(order, 0);
    expect((await states(page))[first]).toBe('next');

    const walked: string[] = [];
    const walk = async (steps: number) => {
      for (let step = 0; step < steps; step++) {
        await goto(page, 'path/');
        const link = page.locator('path-view .progress-summary a');
        if ((await link.count()) === 0) break;
        await link.click();
        const id = decodeURIComponent(new URL(page.url()).pathname.slice(`${BASE}lessons/`.length).replace(/\/$/, ''));
        // What is next is always open: all it builds on is done.
        for (const needed of stepOf(course.path, id).needs) expect(walked).toContain(needed);
        await page.getByLabel('I have done this lesson').check();
        walked.push(id);
      }
    };
    await walk(cases(3, Math.floor(order.length / 2)));
    await page.getByLabel('I can play this').first().check();
    const half = await states(page);
    expect(Object.values(half).filter((state) => state === 'done')).toHaveLength(walked.length);
    await page.locator('.progress-summary').screenshot();
    await phone.close();

    phone = await openPhone(profile);
    page = await phone.newPage();
    expect(await states(page)).toEqual(half);
    await goto(page, '');
    await page.getByRole('link', { name: /^Continue with/ }).waitFor();
    await walk(cases(3, order.length));
    expect(new Set(walked).size).toBe(cases(6, order.length));
    await goto(page, 'path/');
    if (LONG)
      expect(await page.locator('path-view .progress-summary').textContent()).toContain(
        'You have finished the course.',
      );
    await phone.close();
  });

  it('sees at the end of a lesson what comes next, and reads the course’s own order without scripts', async () => {
    const phone = await openPhone(folder());
    const page = await phone.newPage();
    const [one, two] = order as [string, string];
    await doLesson(page, one);
    await page.locator('path-onward a', { hasText: titleOf(two) }).waitFor();
    // A fork: after it the branch that was begun is followed.
    const steps = order.map((id) => stepOf(course.path, id));
    const { lesson, opens: branches } = present(
      steps.find(({ opens }) => opens.length > 1),
      'a fork',
    );
    for (const id of order.slice(1, order.indexOf(lesson.id) + 1)) await doLesson(page, id);
    await page.waitForFunction(
      (titles) => titles.includes(document.querySelector('path-onward a')?.textContent ?? ''),
      branches.map(titleOf),
    );
    await phone.close();
  });

  it('loses nothing to a second tab', async () => {
    const phone = await openPhone(folder());
    const [one, other] = [await phone.newPage(), await phone.newPage()];
    const [a, b] = order as [string, string];
    await goto(one, `lessons/${a}/`);
    await goto(other, `lessons/${b}/`);
    await one.getByLabel('I have done this lesson').check();
    await other.getByLabel('I have done this lesson').check();
    await one.getByLabel('I can play this').first().check();
    const list = await states(await phone.newPage());
    expect([list[a], list[b]]).toEqual(['done', 'done']);
    // A tab that stays open follows.
    await goto(other, 'path/');
    await one.getByLabel('I have done this lesson').uncheck();
    await other.locator(`.path-list li[data-lesson="${a}"]:not(.done)`).waitFor();
    await phone.close();
  });

  it('saves progress to a file, and loads it on another device', async () => {
    const phone = await openPhone(folder());
    const page = await phone.newPage();
    await doLesson(page, itemAt(order, 0));
    await goto(page, 'path/');
    await page.getByText('Your progress').click();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save to a file' }).click();
    const file = join(folder(), 'progress.json');
    await (await download).saveAs(file);
    await phone.close();

    const tablet = await openPhone(folder());
    const there = await tablet.newPage();
    await doLesson(there, itemAt(order, 1));
    await goto(there, 'path/');
    await there.getByText('Your progress').click();
    await there.locator('progress-file input[type=file]').setInputFiles(file);
    await there.getByText('Loaded: 1 more lesson done.').waitFor();
    const list = await states(there);
    expect([list[itemAt(order, 0)], list[itemAt(order, 1)]]).toEqual(['done', 'done']);
    await there.getByText('Your progress').click();
    for (const [text, answer] of [
      ['no record', /not a progress file/],
      ['{"version":9}', /another version of this site/],
    ] as const) {
      writeFileSync(file, text);
      await there.locator('progress-file input[type=file]').setInputFiles(file);
      await there.getByText(answer).waitFor();
    }
    await tablet.close();
  });

  it('gets a message about a record that could not be read, and may save it or delete it', async () => {
    const phone = await openPhone(folder());
    const page = await phone.newPage();
    await goto(page, '');
    await page.evaluate(
      ([key, text]) => localStorage.setItem(key as string, text as string),
      [KEY, '{"version":1,"less'],
    );
    await goto(page, 'path/');
    await page.getByText('could not be read. A copy has been kept').waitFor();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the copy to a file' }).click();
    const file = join(folder(), 'aside.txt');
    await (await download).saveAs(file);
    expect(readFileSync(file, 'utf8')).toBe('{"version":1,"less');
    await doLesson(page, itemAt(order, 0));
    expect((await states(page))[itemAt(order, 0)]).toBe('done');
    await page.getByRole('button', { name: 'Delete the copy' }).click();
    await page.getByText('could not be read. A copy has been kept').waitFor({ state: 'detached' });
    await phone.close();
  });

  it('reaches every lesson of the map by the keyboard, in path order', async () => {
    const phone = await openPhone(folder());
    const page = await phone.newPage();
    await goto(page, 'path/');
    await page.locator('.path-map .lesson-box').first().focus();
    const reached: (string | undefined)[] = [];
    for (let step = 0; step < order.length; step++) {
      reached.push(await page.evaluate(() => document.activeElement?.getAttribute('data-lesson') ?? undefined));
      await page.keyboard.press('Tab');
    }
    expect(reached).toEqual(order);
    await phone.close();
  });

  it.each(alsoLong(['path/'], ['techniques/', 'techniques/draw-3-half-step/']))(
    'finds nothing in its way on /%s, by day or night',
    async (path) => {
      const phone = await openPhone(folder());
      const page = await phone.newPage();
      await goto(page, path);
      const sideways = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(sideways).toBe(0);
      expect(await violationsOn(page)).toEqual([]);
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await violationsOn(page, 'contrast')).toEqual([]);
      await phone.close();
    },
  );

  it('meets no error on the way', () => expect(complaints).toEqual([]));
});
