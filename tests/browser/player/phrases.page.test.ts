/** The phrases that a block repeats: one is chosen, heard alone or left out, looped, and shown. */
import { describe, expect } from 'vitest';
import { LONG } from '../../setup/long.ts';
import { violationsOn } from '../axe.ts';
import { lessonPage } from '../sound/lesson-page.ts';
import { LOOP, level, nowBars, test as plainTest } from './visit.ts';

const RIFF = `harp: A
position: 2
tempo: 120
chords: I7 | I7 | I7 | I7 | I7

phrase wheel: -2 -3 -4 -3 -2 -3 -4 =
phrase turn: 4 5 4 5 4 5 4 =

<wheel> | <turn> | <wheel> | <turn> | -2 = = = = = = = |]
`;
const PLAIN = 'harp: C\ntempo: 150\nslot: 1/4\n4 5 6 7 | -4 -5 -6 -7\n';

const test = plainTest.extend({
  files: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads the fixtures that one needs from its first argument.
    async ({}, use) => {
      await use(await lessonPage([RIFF, PLAIN]));
    },
    { scope: 'file' },
  ],
});

describe('a phrase', () => {
  test.runIf(LONG)('is chosen, shown wherever it is, and looped one place after the other', async ({ visit }) => {
    const { page, block, control, hear, more } = await visit();
    await hear();
    await control('button', 'Stop').click();
    await more();
    const shown = () =>
      block
        .locator('[data-phrase].in-focus')
        .evaluateAll((all) => all.map((one) => one.closest<HTMLElement>('.tile')?.dataset['bar']));
    const picked = () =>
      block
        .locator('.bar-picks button.chosen')
        .evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset['loopBar']));
    expect(await shown()).toEqual([]);
    expect(await control('button', 'Loop it').isDisabled()).toBe(true);
    expect(await control('combobox', 'Hear').isDisabled()).toBe(true);
    await control('combobox', 'Phrase').selectOption('turn');
    expect(await shown()).toEqual(['1', '3']);
    const width = (phrase: number) =>
      block
        .locator(`[data-phrase="${phrase}"] > path`)
        .first()
        .evaluate((path) => Number.parseFloat(getComputedStyle(path).strokeWidth));
    expect(await width(1)).toBeGreaterThan(2 * (await width(0)));
    await control('button', 'Loop it').focus();
    for (const bar of ['1', '3', '1']) {
      await page.keyboard.press('Enter');
      expect(await picked()).toEqual([bar]);
    }
    expect(await control('button', LOOP).getAttribute('aria-pressed')).toBe('true');
    await expect.poll(() => block.locator('[aria-live]').textContent()).toBe('Loop: bar 2.');
    await control('combobox', 'Phrase').selectOption('none');
    expect(await shown()).toEqual([]);
    expect(await violationsOn(page)).toEqual([]);
  });

  test.runIf(LONG)('is heard alone, or left out while the cursor goes through it', async ({ visit }) => {
    const { page, block, control, hearAtOnce, more } = await visit();
    await hearAtOnce();
    await more();
    for (const part of ['bass', 'drums', 'chords']) await control('button', `Mute ${part}`).click();
    await control('combobox', 'Phrase').selectOption('wheel');
    await control('button', 'Loop it').click();
    const silent = () => expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    const sounds = () => expect.poll(() => level(page), { timeout: 4000 }).toBeGreaterThan(0.02);
    await control('combobox', 'Hear').selectOption('this phrase alone');
    await sounds();
    await control('combobox', 'Hear').selectOption('not');
    await silent();
    expect(await nowBars(page)).toEqual([0]);
    await control('combobox', 'Phrase').selectOption('turn');
    await sounds();
    await control('combobox', 'Hear').selectOption('alone');
    await silent();
    await control('combobox', 'Hear').selectOption('all');
    await sounds();
    expect(await block.locator('[data-phrase="1"].in-focus').count()).toBe(2);
  });

  test('is not asked for where a block repeats none', async ({ visit }) => {
    const { page } = await visit();
    const plain = page.locator('[data-block="1"]');
    await plain.getByRole('button', { name: 'Hear it' }).click();
    await plain.getByRole('button', { name: 'More' }).click();
    await plain.getByRole('slider', { name: 'Tempo' }).waitFor();
    expect(await plain.getByRole('group', { name: 'Phrases' }).count()).toBe(0);
    expect(await plain.locator('[data-phrase]').count()).toBe(0);
  });
});
