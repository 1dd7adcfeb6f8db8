/** The ink of two lessons of the demo course on a phone; the long run measures all of it. */
import { expect } from 'vitest';
import { valueAt } from '../../../src/values/checked.ts';
import { demoSite } from '../../browser/shared-site.ts';
import { withBrowser as test } from '../../browser/with-browser.ts';
import { LIMITS } from './limits.ts';
import { measureSite } from './site.ts';
import { above, countsOf, PHONE, TWO_LESSONS } from './suites.ts';

test('two lessons have no more faults than they had', async ({ browser }) => {
  const { address, course, close } = await demoSite();
  const pages = TWO_LESSONS.map((id) => `lessons/${id}/`);
  const { found, blocks } = await measureSite(browser, { address, pages }, PHONE);
  close();
  expect(blocks).toBe(TWO_LESSONS.reduce((sum, id) => sum + valueAt(course.byId, id).blocks.length, 0));
  expect(above(countsOf(found, PHONE), LIMITS.twoLessons)).toEqual([]);
});
