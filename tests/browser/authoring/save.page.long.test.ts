/** Under `serve` a save replaces the part of a page that changed, and nothing else. */
import { expect } from 'vitest';
import { FIRST, isMarked, mark, test } from './author.ts';

test('a save replaces a block, while another block plays on and the rest of the page is the same', async ({
  author,
}) => {
  const page = await author.open('lessons/first/');
  const other = page.locator('#block-other');
  await other.getByRole('button', { name: 'Hear it' }).click();
  await other.getByRole('button', { name: 'Loop', exact: true }).click();
  await mark(page);
  await author.save(FIRST.replace('-4 5 -5 6', '-4 5 -5 -6'), 'first', page);
  expect(await page.locator('#block-tune .tab-block').textContent()).toContain('draw 6');
  const same = ['#block-tune .tab-block', '#block-tune', '#block-other .tab-block', '.lesson-text > p', '.masthead'];
  expect(await Promise.all(same.map((selector) => isMarked(page, selector)))).toEqual([false, true, true, true, true]);
  expect(await other.getByRole('button', { name: 'Pause', exact: true }).count()).toBe(1);
});
