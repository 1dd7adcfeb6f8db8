/** The ink of two lessons of the demo course on a phone; the long run measures all of it. */
import { describe, expect } from 'vitest';
import { valueAt } from '../../../src/values/checked.ts';
import { demoSite } from '../../browser/shared-site.ts';
import { withBrowser as test } from '../../browser/with-browser.ts';
import { LONG } from '../../setup/long.ts';
import { LIMITS } from './limits.ts';
import { measurePage } from './page.ts';
import { measureSite, openWindow, show } from './site.ts';
import { above, countsOf, PHONE, TWO_LESSONS } from './suites.ts';

test('two lessons have no more faults than they had', async ({ browser }) => {
  const { address, course, close } = await demoSite();
  const pages = TWO_LESSONS.map((id) => `lessons/${id}/`);
  const { found, blocks } = await measureSite(browser, { address, pages }, PHONE);
  close();
  expect(blocks).toBe(TWO_LESSONS.reduce((sum, id) => sum + valueAt(course.byId, id).blocks.length, 0));
  expect(above(countsOf(found, PHONE), LIMITS.twoLessons)).toEqual([]);
});

/** A page may be built in ways the small drawings of the other test are not. */
describe('what is planted in a published page', () => {
  const PLANTED: readonly (readonly [style: string, kind: string])[] = [
    ['use[href^="#g-e26"] { transform: translateX(9px) }', 'accidental × notehead'],
    ['path.v { transform: translateY(7px) }', 'curve × notehead'],
    ['use.m { transform-box: fill-box; transform-origin: center; transform: scale(1.6) }', 'role shape × role shape'],
    ['text.n { transform: translateY(14px) }', 'hole number × role label'],
    ['text.c { transform: translateY(40px) }', 'chord name × staff lines'],
    ['text.l { font-size: 7px !important }', 'small: role label'],
    ['.e:nth-of-type(2) { transform: translateX(9px) }', 'spacing: equal durations'],
    ['svg { overflow: hidden !important; height: 30px !important }', 'clipped: stem'],
  ];

  test.runIf(LONG)('is found, each of its own kind', async ({ browser }) => {
    const { address, close } = await demoSite();
    const page = await openWindow(browser, PHONE);
    await show(page, `${address}lessons/${TWO_LESSONS[1]}/`, PHONE);
    const before = new Set((await measurePage(page, '')).found.map(({ kind }) => kind));
    const missed: string[] = [];
    for (const [style, kind] of PLANTED) {
      await page.evaluate((css) => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(css);
        document.adoptedStyleSheets = [sheet];
      }, style);
      const { found } = await measurePage(page, '');
      if (!found.some((own) => own.kind === kind)) missed.push(kind);
    }
    close();
    expect(missed).toEqual([]);
    expect(PLANTED.filter(([, kind]) => before.has(kind))).toEqual([]);
  });
});
