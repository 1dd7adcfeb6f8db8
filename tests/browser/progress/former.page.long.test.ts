/** A student who comes back after things were renamed: old addresses lead to what is there now, and what was marked stays marked. */
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { readRecord } from '../../../src/browser/progress/record.ts';
import { typed } from '../../command/some-terminal.ts';
import { lesson, write } from '../../course/some-course.ts';
import { type SharedSite, sharedSite } from '../shared-site.ts';
import { withBrowser as test } from '../with-browser.ts';
import { entry } from './some-progress.ts';

const BASE = '/former/';
const block = (id: string) => `\`\`\`tab\nid: ${id}\nslot: 1/4\n4 -4 -4 4 |]\n\`\`\`\n`;

/** A course in which everything was renamed once. */
async function renamedCourse(folder: string): Promise<void> {
  const files = {
    'course.yaml': 'title: A course\nstages:\n  - { id: start, title: The start }\n',
    'techniques.yaml':
      'techniques:\n  - id: rock\n    title: Rock\n    about: So.\n    group: time\n    find: not-in-score\n',
    'lessons/first.mdx': lesson(
      `${'Words.\n\n'.repeat(60)}${block('riff')}`,
      'title: First\nstage: start\nteaches: rock',
    ),
    'lessons/second.mdx': lesson(block('other'), 'title: Second\nstage: start\nrequires: first'),
  };
  for (const [path, content] of Object.entries(files)) write(folder, path, content);
  for (const line of [
    ['first', 'deep/one'],
    ['deep/one/riff', 'lick'],
    ['start', 'beginning'],
    ['rock', 'sway'],
  ])
    expect(await typed(['rename', ...line, '--course', folder])).toMatchObject({ code: 0, err: '' });
}

let site: SharedSite;
beforeAll(async () => {
  site = await sharedSite('former', BASE, renamedCourse);
});
afterAll(() => site?.close());

const below = (url: string) => url.slice(url.indexOf(BASE) + BASE.length);

describe('after a rename', () => {
  test.for([
    ['lessons/first/', 'lessons/deep/one/'],
    ['lessons/first/#block-riff', 'lessons/deep/one/#block-riff'],
    ['lessons/first/?bars=1&tempo=60#block-riff', 'lessons/deep/one/?bars=1&tempo=60#block-riff'],
    ['techniques/rock/', 'techniques/sway/'],
  ])('the address %s leads to %s', async ([from = '', to = ''], { newPage }) => {
    const page = await newPage({});
    await page.goto(site.address + from);
    await expect.poll(() => below(page.url())).toBe(to);
    expect(await page.locator('h1').textContent()).toMatch(/First|Rock/);
  });

  test('an old address leads on without scripts as well, and is not for search engines', async ({ newPage }) => {
    const page = await newPage({ javaScriptEnabled: false });
    await page.goto(`${site.address}lessons/first/`);
    await expect.poll(() => below(page.url())).toBe('lessons/deep/one/');
    const answer = await page.request.get(`${site.address}lessons/first/`);
    const text = await answer.text();
    expect(text).toContain('<meta name="robots" content="noindex">');
    expect(text).toContain(`<link rel="canonical" href="${BASE}lessons/deep/one/">`);
    expect(text).toContain(`<a href="${BASE}lessons/deep/one/">First</a>`);
  });

  test('the anchor of an old block is at the block, and that of an old stage at the stage', async ({ newPage }) => {
    const page = await newPage({ viewport: { width: 800, height: 600 } });
    await page.goto(`${site.address}lessons/first/#block-riff`);
    await page.locator('#block-lick').waitFor();
    await expect
      .poll(() => page.locator('#block-lick').evaluate((one) => Math.abs(one.getBoundingClientRect().top)))
      .toBeLessThan(120);
    await page.goto(`${site.address}#stage-start`);
    expect(await page.locator('h2#stage-beginning #stage-start').count()).toBe(1);
  });

  test('what was marked under the old names is marked, and is kept under the new ones', async ({ newPage }) => {
    const page = await newPage({});
    await page.goto(`${site.address}path/`);
    const record = {
      version: 1,
      lessons: { first: { done: true, at: 5 } },
      blocks: { 'first/riff': { done: true, at: 6 } },
    };
    await page.evaluate(
      ([key = '', text = '']) => localStorage.setItem(key, text),
      [`reedway-progress:${BASE}`, JSON.stringify(record)],
    );
    await page.goto(`${site.address}lessons/first/`);
    await expect.poll(() => page.locator('lesson-mark input').isChecked()).toBe(true);
    expect(await page.locator('block-mark input').isChecked()).toBe(true);
    const kept = await page.evaluate((key) => localStorage.getItem(key), `reedway-progress:${BASE}`);
    const { progress } = readRecord(kept ?? '');
    expect(progress.get('lessons')).toEqual(new Map([['deep/one', entry(true, 0, '', 5)]]));
    expect(progress.get('blocks')).toEqual(new Map([['deep/one/lick', entry(true, 0, '', 6)]]));
    // Another lesson's page knows as well.
    await page.goto(`${site.address}lessons/second/`);
    await page.locator('lesson-mark input').check();
    expect(await page.evaluate((key) => localStorage.getItem(key), `reedway-progress:${BASE}`)).toContain('deep/one');
  });
});
