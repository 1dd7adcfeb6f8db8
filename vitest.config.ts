import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';
import { LONG } from './tests/setup/long.ts';

/**
 * Which run has which files: `npm test` has all but those named `*.long.test.ts`, and `npm run test:long` has those and the files
 * that import tests/setup/long.ts, which try more cases in it or have tests of their own for it.
 */
const elsewhere = LONG
  ? readdirSync('tests', { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.test.ts') && !name.endsWith('.long.test.ts'))
      .map((name) => join('tests', name))
      .filter((file) => !/\/(?:long|pictures)\.ts'/.test(readFileSync(file, 'utf8')))
  : ['tests/**/*.long.test.ts'];

/** Files that open pages in Chromium are named so. */
const PAGES = ['tests/**/*.page.test.ts', 'tests/**/*.page.long.test.ts'];
/** Folders whose tests build whole sites. */
const SITES = ['tests/site/**/*.test.ts', 'tests/publish/**/*.test.ts'];
/** A page that has to keep time while it is busy: alone on the machine. */
const LIVE = ['tests/browser/sound/live.page.long.test.ts', 'tests/browser/engines/sound.page.long.test.ts'];

export default defineConfig({
  test: {
    reporters: ['default', './tests/setup/tally.ts'],
    globalSetup: './tests/setup/scratch.ts',
    testTimeout: LONG ? 600_000 : 120_000,
    hookTimeout: 120_000,
    // Waiting ends when what is waited for is there; a machine that is busy with other tests takes longer.
    expect: { poll: { timeout: 10_000 } },
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: 'pure',
          include: ['tests/**/*.test.ts'],
          exclude: [...PAGES, ...SITES, ...elsewhere],
          // Modules are loaded once for all files of a thread: no test changes what another reads.
          pool: 'threads',
          isolate: false,
        },
      },
      { extends: true, test: { name: 'site', include: SITES, exclude: elsewhere, sequence: { groupOrder: 1 } } },
      {
        extends: true,
        test: { name: 'page', include: PAGES, exclude: [...LIVE, ...elsewhere], sequence: { groupOrder: 2 } },
      },
      {
        extends: true,
        test: { name: 'live', include: LIVE, exclude: elsewhere, fileParallelism: false, sequence: { groupOrder: 3 } },
      },
    ],
  },
});
