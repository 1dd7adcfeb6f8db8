/** The ink of the whole demo course, in every window, on paper and for other harps, and of random blocks. */
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { demoSite, type SharedSite, sharedSite } from '../../browser/shared-site.ts';
import { withBrowser as test } from '../../browser/with-browser.ts';
import { LIMITS, MOST_HEIGHT } from './limits.ts';
import { writeRandomCourse } from './random-course.ts';
import { measureSite, nameOfSetting, type Served, type Setting } from './site.ts';
import { above, countsOf, PHONE, RANDOM_BLOCKS, SUITES } from './suites.ts';

const lessonsOf = ({ address, course }: SharedSite): Served => ({
  address,
  pages: course.lessons.map(({ id }) => `lessons/${id}/`),
});
const named = (settings: readonly Setting[]) => settings.map((setting) => [nameOfSetting(setting), setting] as const);

describe('the demo course has no more faults than it had', () => {
  let site: SharedSite;
  beforeAll(async () => {
    site = await demoSite();
  });
  afterAll(() => site.close());

  for (const suite of ['screens', 'largeText', 'paper', 'harps', 'views'] as const) {
    test.for(named(SUITES[suite]))('%s', async ([, setting], { browser }) => {
      const { found, blocks, height } = await measureSite(browser, lessonsOf(site), setting);
      expect(blocks).toBeGreaterThan(100);
      expect(above(countsOf(found, setting), LIMITS[suite])).toEqual([]);
      if (suite === 'screens' && setting.width === 360) expect(height).toBeLessThanOrEqual(MOST_HEIGHT);
    });
  }

  test('the dark theme draws the same ink', async ({ browser }) => {
    const pages = lessonsOf(site).pages.slice(0, 5);
    const light = await measureSite(browser, { address: site.address, pages }, PHONE);
    const dark = await measureSite(browser, { address: site.address, pages }, { ...PHONE, theme: 'dark' });
    expect(dark).toEqual(light);
  });
});

describe('random blocks have no more faults than they had', () => {
  let site: SharedSite;
  beforeAll(async () => {
    site = await sharedSite('random-ink', '/', (folder) => writeRandomCourse(folder, RANDOM_BLOCKS));
  });
  afterAll(() => site.close());

  test.for(named(SUITES.random))('%s', async ([, setting], { browser }) => {
    const { found, blocks } = await measureSite(browser, lessonsOf(site), setting);
    expect(blocks).toBe(RANDOM_BLOCKS);
    expect(above(countsOf(found, setting), LIMITS.random)).toEqual([]);
  });
});
