/** A harp of another tuning in a real browser: the music finds other holes, and what is about one tuning stays on it. */
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { engraveBlock } from '../../../src/engrave/block.ts';
import { readHarp } from '../../../src/instrument/harp.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { relocate } from '../../../src/score/harp/relocate.ts';
import { blockParts } from '../../../src/site/addresses.ts';
import { present, valueAt } from '../../../src/values/checked.ts';
import { LONG } from '../../setup/long.ts';
import { violationsOn } from '../axe.ts';
import { type OpenSite, openSite } from './site.ts';

let site: OpenSite;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site?.close());

let page: Page;
afterEach(() => page.close());

const CHROMATIC = present(
  TUNINGS.find(({ id }) => id === 'solo-chromatic'),
  'the tuning',
);

async function open(path: string): Promise<void> {
  page = await site.browser.newPage({ viewport: { width: 360, height: 900 } });
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto(site.url + path);
}

/** Chooses a value where the choices are folded too, as on a phone. */
async function pick(name: string, value: string | { readonly label: string }): Promise<void> {
  const fold = page.locator('.choice-fold');
  if ((await fold.count()) > 0)
    await fold.evaluate((details: HTMLDetailsElement) => {
      details.open = true;
    });
  await page.selectOption(`select[name="${name}"]`, value);
}

const settled = () =>
  page.waitForFunction(() =>
    /Showing|could not/.test(document.querySelector('harp-choice [role="status"]')?.textContent ?? ''),
  );
const status = () => page.locator('harp-choice [role="status"]').textContent();
const label = (block: string) => page.locator(`#block-${block} .tab-block`).getAttribute('aria-label');

describe('a student who picks another tuning', () => {
  it('sees the same tune in other holes, and keeps the choice', async () => {
    await open('/lessons/one/');
    await pick('tuning', CHROMATIC.id);
    await settled();
    expect(await status()).toBe(
      'Showing the page for another harp (twelve-hole chromatic, solo tuned). The text is about the Richter tuning.',
    );
    const block = present(valueAt(site.course.byId, 'one').blocks[0], 'the block');
    const harp = present(readHarp('A', CHROMATIC), 'the harp');
    const { score, replaced } = relocate(present(block.score, 'its score'), harp);
    expect(replaced).toEqual([]);
    const { html } = engraveBlock(score, { id: blockParts(block.id) });
    const shown = await page.locator('#block-chorus-1 .tab-block').evaluate((element, markup) => {
      const template = document.createElement('template');
      template.innerHTML = markup;
      return element.isEqualNode(template.content.firstElementChild);
    }, html);
    expect(shown).toBe(true);
    expect(await label('chorus-1')).toContain('an A harp (twelve-hole chromatic, solo tuned)');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
    if (LONG) expect(await violationsOn(page)).toEqual([]);

    await page.reload();
    await settled();
    expect(new URL(page.url()).searchParams.get('tuning')).toBe(CHROMATIC.id);
    expect(await page.inputValue('select[name="tuning"]')).toBe(CHROMATIC.id);
    // Where the choices are folded, the fold says which harp the page is for.
    expect(await page.locator('.choice-fold > summary').textContent()).toContain('another harp (twelve-hole chromatic');
    await pick('tuning', '');
    await page.getByText('Showing the page as written.').waitFor();
    expect(await label('chorus-1')).toContain('an A harp, second position');
    expect(new URL(page.url()).search).toBe('');
  });

  it.runIf(LONG)(
    'sees which notes that harp has not got, and hears the block from the holes that it shows',
    async () => {
      await open('/lessons/one/?tuning=natural-minor&harp=C');
      await settled();
      const below = page.locator('.not-on-harp');
      expect(await below.count()).toBe(await page.locator('#block-chorus-1 .not-on-harp').count());
      await page.getByRole('button', { name: 'Hear it' }).first().click();
      await page.locator('#block-chorus-1 .tab-block .now').first().waitFor();
    },
  );

  it.runIf(LONG)('sees no tab as text and no difficulty of other holes than the staff has', async () => {
    await open('/lessons/one/?tuning=natural-minor');
    await settled();
    const folds = page.locator('#block-chorus-1 .block-foot details');
    const visible = () => folds.evaluateAll((all) => all.map((fold) => fold.checkVisibility()));
    expect(await visible()).toEqual([false, false]);
    await pick('tuning', '');
    await page.getByText('Showing the page as written.').waitFor();
    expect(await visible()).toEqual([true, true]);
    await pick('key', { label: 'F' });
    await settled();
    expect(await visible()).toEqual([true, true]);
  });

  it.runIf(LONG)('sees the whole page as written where a part of it cannot be drawn', async () => {
    page = await site.browser.newPage({ viewport: { width: 360, height: 900 } });
    await page.route(/draw-(common|rare)[^/]*\.js$/, (route) => route.abort());
    await page.goto(`${site.url}/lessons/one/?harp=F&tuning=natural-minor`);
    await settled();
    expect(await status()).toContain('It shows the harp it was written for');
    expect(await label('chorus-1')).toContain('an A harp, second position');
    expect(await page.locator('[data-retuned]').count()).toBe(0);
  });

  it.runIf(LONG)('finds lessons and pages about another tuning as they are', async () => {
    await open('/lessons/minor/?harp=A&tuning=solo-chromatic');
    await settled();
    expect(await label('riff')).toContain('an A harp (natural minor)');
    expect(await status()).toBe('Showing the page for an A harp. In second position the key is E minor.');
    expect(await page.locator('select[name="tuning"]').count()).toBe(0);
    await page.goto(`${site.url}/lessons/one/`);
    await pick('tuning', 'natural-minor');
    await page.goto(`${site.url}/harps/richter/`);
    expect(await page.locator('select[name="tuning"]').count()).toBe(0);
    await pick('key', { label: 'A' });
    await settled();
    expect(await status()).toBe('Showing the page for an A harp.');
    expect(await page.evaluate(() => localStorage.getItem('reedway-harp'))).toBe(
      '{"tuning":"natural-minor","harp":"A"}',
    );
  });
});
