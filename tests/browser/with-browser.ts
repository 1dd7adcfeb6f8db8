/** Tests with a browser: one for a file, and pages in contexts of their own, closed when the test ends. */
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { test as base } from 'vitest';
import { openBrowser } from './sound/browser-sound.ts';

interface Fixtures {
  readonly browser: Browser;
  /** A blank page. A test in which a script of such a page throws fails. */
  readonly newPage: (options: BrowserContextOptions) => Promise<Page>;
}

export const withBrowser = base.extend<Fixtures>({
  browser: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads the fixtures that one needs from its first argument.
    async ({}, use) => {
      const browser = await openBrowser();
      await use(browser);
      await browser.close();
    },
    { scope: 'file' },
  ],
  newPage: async ({ browser }, use) => {
    const contexts: BrowserContext[] = [];
    const thrown: Error[] = [];
    await use(async (options) => {
      const context = await browser.newContext(options);
      contexts.push(context);
      const page = await context.newPage();
      page.on('pageerror', (error) => thrown.push(error));
      return page;
    });
    for (const context of contexts) await context.close();
    if (thrown[0]) throw thrown[0];
  },
});
