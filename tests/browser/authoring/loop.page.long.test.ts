/** Under `serve` a save replaces the part of a page that changed; everything else on it goes on. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { violationsOn } from '../axe.ts';
import { FIRST, isMarked, mark, SECOND, test } from './author.ts';

/** The names of elements without a mark. */
const fresh = (page: Page, within = 'body') =>
  page.evaluate(
    (selector) =>
      [...document.querySelectorAll(`${selector}, ${selector} *`)]
        .filter(
          (element) => !Reflect.get(element, 'marked') && !element.closest('svg') && element.localName !== 'style',
        )
        .map((element) => element.localName),
    within,
  );
const topOf = (page: Page, words: string) =>
  page.getByText(words, { exact: true }).evaluate((element) => element.getBoundingClientRect().top);

const WORDS = FIRST.replace('Between the blocks.', 'Between the two blocks.');
const LONGER = FIRST.replace('Paragraph 2 of', `${'Many more words. '.repeat(80)}\n\nParagraph 2 of`);
const TUNE = FIRST.replace('-4 5 -5 6', '-4 5 -5 -6');
const SHORTER = FIRST.replace(' | 6 -5 5 -4 | 5 -4 -3 -2', '');
const LADDER = FIRST.replace('<BendLadder hole={3} />', '<BendLadder hole={2} />');
const TITLED = FIRST.replace('title: First', 'title: The first');
const WRONG = FIRST.replace('-4 5 -5 6', '-4 5 -5 66');

describe('what changed is replaced, and the rest is the same', () => {
  test('words', async ({ author }) => {
    const page = await author.open('lessons/first/');
    await mark(page);
    await author.save(WORDS, 'first', page);
    await page.getByText('Between the two blocks.').waitFor();
    expect(await fresh(page)).toEqual([]);
  });

  test('a block', async ({ author }) => {
    const page = await author.open('lessons/first/');
    await mark(page);
    await author.save(TUNE, 'first', page);
    expect(await page.locator('#block-tune .tab-block').textContent()).toContain('draw 6');
    expect(await isMarked(page, '#block-tune')).toBe(true);
    expect(await isMarked(page, '#block-tune .tab-block')).toBe(false);
    expect(await isMarked(page, '#block-other .tab-block')).toBe(true);
    expect(await fresh(page, '.masthead')).toEqual([]);
  });

  test('a figure, whose notes sound again', async ({ author }) => {
    const page = await author.open('lessons/first/');
    await page.locator('.figure .tone').first().waitFor();
    await mark(page);
    await author.save(LADDER, 'first', page);
    await page.getByText('Hole 2,').waitFor();
    await page.locator('.figure .tone').first().waitFor();
    expect(await isMarked(page, '#block-tune .tab-block')).toBe(true);
  });

  test('a title, on its page and where others name it', async ({ author }) => {
    const [page, second] = [await author.open('lessons/first/'), await author.open('lessons/second/')];
    await mark(second);
    await author.save(TITLED, 'first', page, second);
    expect(await page.title()).toBe('The first · A course');
    expect(await page.locator('h1').textContent()).toBe('The first');
    await second.getByText('The first').first().waitFor();
    expect(await isMarked(second, '.lesson-text')).toBe(true);
    expect(await isMarked(second, '.lesson-text .tab-block')).toBe(true);
  });

  test('another lesson: nothing at all', async ({ author }) => {
    const [page, second] = [await author.open('lessons/first/'), await author.open('lessons/second/')];
    await mark(second);
    await second.evaluate(() => {
      const changes: string[] = [];
      Object.assign(window, { changes });
      new MutationObserver((all) => changes.push(...all.map(({ target }) => target.nodeName))).observe(document, {
        subtree: true,
        childList: true,
        attributes: true,
        characterData: true,
      });
    });
    await author.save(TUNE, 'first', page, second);
    expect(await second.evaluate(() => Reflect.get(window, 'changes'))).toEqual([]);
  });
});

describe('other files of the course', () => {
  test('its title is another on every page', async ({ author }) => {
    const pages = [await author.open('lessons/first/'), await author.open('path/'), await author.open('')] as const;
    for (const page of pages) await mark(page);
    await author.save('title: A new name\n', 'course.yaml', ...pages);
    for (const page of pages) {
      expect(await page.title()).toMatch(/A new name$/);
      expect(await page.locator('.course-name').textContent()).toBe('A new name');
    }
    expect(await isMarked(pages[0], 'main')).toBe(true);
    expect(await isMarked(pages[0], '.lesson-text')).toBe(true);
  });

  test('a picture is fetched again', async ({ author }) => {
    const page = await author.open('lessons/second/');
    const width = () =>
      page
        .getByAltText('A mark')
        .evaluate((image) => (image instanceof HTMLImageElement ? image.naturalWidth / image.naturalHeight : 0));
    await expect.poll(width).toBe(1);
    await mark(page);
    await author.save(
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 3"><rect width="9" height="3"/></svg>',
      'media/mark.svg',
      page,
    );
    await expect.poll(width).toBe(3);
    expect(await isMarked(page, 'img')).toBe(true);
  });

  test('what the whole page depends on has the page loaded again', async ({ author }) => {
    const page = await author.open('lessons/first/');
    await mark(page);
    await Promise.all([page.waitForEvent('load'), author.save('title: A course\nconcert-a: 442\n', 'course.yaml')]);
    expect(await page.locator('html').getAttribute('data-concert-a')).toBe('442');
  });

  test('a lesson that comes is on the path, where a student’s marks start again', async ({ author }) => {
    const page = await author.open('path/');
    await author.save(SECOND.replace('Second', 'Third'), 'third', page);
    await page.getByText('Third').first().waitFor();
    expect(await page.locator('.path-list .next').count()).toBe(1);
    rmSync(join(author.dir, 'lessons/third.mdx'));
    await expect.poll(() => page.getByText('Third').count()).toBe(0);
  });
});

describe('what a reader was doing stays', () => {
  test.for([
    ['words above', LONGER],
    ['a block', TUNE],
    ['a mistake', WRONG],
    ['a title', TITLED],
  ] as const)(
    'the place on the screen, an open fold and the focus, after a save of %s',
    async ([, text], { author }) => {
      const page = await author.open('lessons/first/');
      await page.getByText('More of it').click();
      await page
        .getByText('Paragraph 9 of some words.')
        .evaluate((element) => element.scrollIntoView({ block: 'start' }));
      const before = await topOf(page, 'Paragraph 9 of some words.');
      await page.locator('#block-other button').first().focus();
      await author.save(text, 'first', page);
      expect(await topOf(page, 'Paragraph 9 of some words.')).toBeCloseTo(before, 0);
      expect(await page.locator('.lesson-text > details').getAttribute('open')).toBe('');
      expect(await page.evaluate(() => document.activeElement?.closest('figure')?.id)).toBe('block-other');
    },
  );

  test('the chosen harp, also of a block that was changed', async ({ author }) => {
    const page = await author.open('lessons/first/?harp=F');
    const tune = page.locator('#block-tune .tab-block');
    await expect.poll(() => tune.getAttribute('aria-label')).toContain('F harp');
    await expect
      .poll(() => page.locator('harp-choice [role="status"]').textContent())
      .toContain('Showing the page for');
    await mark(page);
    await author.save(TUNE, 'first', page);
    await expect.poll(() => tune.getAttribute('aria-label')).toContain('F harp');
    await expect.poll(() => tune.textContent()).toContain('draw 6');
    expect(await isMarked(page, '#block-other .tab-block')).toBe(true);
    // And back to what is written now.
    await page.locator('select[name="key"]').selectOption('');
    await expect.poll(() => tune.getAttribute('aria-label')).toContain('C harp');
    expect(await tune.textContent()).toContain('draw 6');
  });
});

describe('a player', () => {
  const hear = async (page: Page, block: string) => {
    const figure = page.locator(`#block-${block}`);
    await figure.getByRole('button', { name: 'Hear it' }).click();
    await figure.locator('.now').first().waitFor();
    return figure;
  };

  test('of the block that changed goes on with the new notes, in its loop and tempo', async ({ author }) => {
    const page = await author.open('lessons/first/');
    const figure = await hear(page, 'tune');
    await figure.getByRole('button', { name: 'Loop bar 2' }).click();
    await figure.getByRole('button', { name: 'More' }).click();
    await figure.getByLabel('quarters a minute', { exact: true }).fill('150');
    await figure.getByLabel('quarters a minute', { exact: true }).press('Tab');
    await author.save(TUNE, 'first', page);
    await expect.poll(() => figure.getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
    const pressed = await figure
      .locator('[data-loop-bar][aria-pressed="true"]')
      .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
    expect(pressed).toEqual(['Loop bar 2']);
    expect(await figure.getByLabel('quarters a minute', { exact: true }).inputValue()).toBe('150');
    // The last note of the bar is another one.
    await expect.poll(() => figure.locator('.tab-block .note.now, .tab-block .now').count()).toBeGreaterThan(0);
    await page.waitForTimeout(2500);
    // Between two notes nothing is lit for a moment.
    const bars = () =>
      figure
        .locator('[data-bar].now')
        .evaluateAll((all) => [...new Set(all.map((one) => one.getAttribute('data-bar')))]);
    await expect.poll(bars).toEqual(['1']);
  });

  test('loops what is left where the bars of its loop are gone', async ({ author }) => {
    const page = await author.open('lessons/first/');
    const figure = await hear(page, 'tune');
    await figure.getByRole('button', { name: 'Loop bar 2' }).click();
    await page.keyboard.press('Shift+ArrowRight');
    await author.save(SHORTER, 'first', page);
    const pressed = () =>
      figure
        .locator('[data-loop-bar][aria-pressed="true"]')
        .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
    await expect.poll(pressed).toEqual(['Loop bar 2']);
    expect(await figure.locator('[data-loop-bar]').count()).toBe(2);
    await figure.getByRole('button', { name: 'More' }).click();
    await figure.getByLabel('From', { exact: true }).waitFor();
    expect(await figure.getByLabel('to', { exact: true }).first().locator('option').count()).toBe(2);
    expect(await figure.getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
  });

  test('of another block is not touched, and one that is removed falls silent', async ({ author }) => {
    const page = await author.open('lessons/first/');
    const figure = await hear(page, 'other');
    await figure.getByRole('button', { name: 'Loop', exact: true }).click();
    await mark(page);
    await author.save(TUNE, 'first', page);
    expect(await isMarked(page, '#block-other .player')).toBe(true);
    expect(await figure.getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
    await author.save(FIRST.replace(/```tab\nid: other[^`]*```/, ''), 'first', page);
    expect(await page.locator('#block-other').count()).toBe(0);
    expect(await page.locator('.now').count()).toBe(0);
  });

  test('goes on where its block only got another number', async ({ author }) => {
    const page = await author.open('lessons/second/');
    const figure = await hear(page, '0');
    await page.locator('#block-0').getByRole('button', { name: 'Loop', exact: true }).click();
    await author.save(SECOND.replace('```tab', '```tab\nslot: 1/4\n7 7 7 7\n```\n\n```tab'), 'second', page);
    expect(await page.locator('figure[data-block]').count()).toBe(2);
    expect(await page.locator('#block-1').getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
    expect(await figure.getByRole('button', { name: 'Hear it' }).count()).toBe(1);
  });
});

describe('a mistake and its correction', () => {
  test('are shown in place: in the list, in the title and by the icon', async ({ author }) => {
    const page = await author.open('lessons/first/');
    const icon = () => page.locator('link[rel="icon"]').getAttribute('href');
    const usual = await icon();
    await mark(page);
    await author.save(WRONG, 'first', page);
    expect(await page.title()).toBe('1 error · First · A course');
    expect(await icon()).toMatch(/^data:/);
    expect(await page.locator('.problems summary').first().textContent()).toMatch(/1 error.* on this page/);
    expect(await page.locator('.problems [role="status"]').textContent()).toContain('1 error');
    await page.locator('.problems summary').first().click();
    await page.locator('.problems pre[data-code="no-hole"]').waitFor();
    expect(await page.getByText('This block cannot be read yet.').count()).toBe(1);
    expect(await violationsOn(page)).toEqual([]);
    // The list stays open while another mistake comes.
    await author.save(WRONG.replace('7 | 7', '77 | 7'), 'first', page);
    expect(await page.locator('.problems > details').getAttribute('open')).toBe('');
    expect(await page.locator('.problems pre[data-code="no-hole"]').count()).toBe(2);
    await page.keyboard.press('Escape');
    expect(await page.locator('.problems > details').getAttribute('open')).toBe(null);
    await author.save(FIRST, 'first', page);
    expect([await page.title(), await icon()]).toEqual(['First · A course', usual]);
    expect(await page.locator('#block-tune .tab-block').count()).toBe(1);
    await page.locator('#block-tune').getByRole('button', { name: 'Hear it' }).click();
    await page.locator('#block-tune .now').first().waitFor();
  });

  test('a lesson that cannot be compiled for a moment', async ({ author }) => {
    const page = await author.open('lessons/first/');
    await author.save(`${FIRST}\n<Unclosed\n`, 'first', page);
    expect(await page.locator('.lesson-text > *').count()).toBe(0);
    await author.save(FIRST, 'first', page);
    await page.getByText('The last words.').waitFor();
  });
});

test('200 quick saves end in the last, on a page that is alive', async ({ author }) => {
  const page = await author.open('lessons/first/');
  await page.locator('#block-other').getByRole('button', { name: 'Hear it' }).click();
  await page.locator('#block-other .now').first().waitFor();
  await page.locator('#block-other').getByRole('button', { name: 'Loop', exact: true }).click();
  await mark(page);
  for (let save = 1; save <= 200; save++) {
    void author.save(
      FIRST.replace('Between the blocks.', `Save ${save}.`).replace('-4 5 -5 6', `-4 5 -5 ${save % 2 ? 5 : 6}`),
      'first',
    );
    await page.waitForTimeout(save % 10 === 0 ? 300 : 20);
  }
  await page.getByText('Save 200.').waitFor();
  expect(await isMarked(page, 'main')).toBe(true);
  expect(await page.locator('#block-other').getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
  await page.locator('#block-tune').getByRole('button', { name: 'Hear it' }).click();
  await page.locator('#block-tune .now').first().waitFor();
});
