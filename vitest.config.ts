import { defineConfig } from 'vitest/config';

/** Opens pages in Chromium: a file whose name ends so. */
const PAGES = 'tests/**/*.page.test.ts';
/** Build whole sites. */
const SITES = ['tests/site/**/*.test.ts', 'tests/publish/**/*.test.ts'];

export default defineConfig({
  test: {
    reporters: ['default', './tests/setup/tally.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    projects: [
      {
        extends: true,
        test: { name: 'pure', include: ['tests/**/*.test.ts'], exclude: [PAGES, ...SITES] },
      },
      {
        extends: true,
        test: { name: 'site', include: SITES, sequence: { groupOrder: 1 } },
      },
      // Pages wait for music more than they compute, so several at once keep a core busy.
      {
        extends: true,
        test: {
          name: 'page',
          include: [PAGES],
          globalSetup: './tests/setup/scratch.ts',
          maxWorkers: 3,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
