import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';
import { LONG } from './tests/setup/long.ts';

/** Files that open pages in Chromium end so. */
const PAGES = ['tests/**/*.page.test.ts'];
/** The page that has to keep time while it is busy, alone on the machine. */
const LIVE = ['tests/browser/sound/live.page.test.ts'];
/** Folders whose tests build whole sites. */
const SITES = ['tests/site/**/*.test.ts', 'tests/publish/**/*.test.ts'];

/** The long run has only the files in which it differs: those that ask for it, or import what does. */
function sameInTheLongRun(): string[] {
  if (!LONG) return [];
  const names = readdirSync('tests', { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.test.ts'));
  return names
    .map((name) => join('tests', name))
    .filter((file) => !/setup\/(?:long|random)\.ts'/.test(readFileSync(file, 'utf8')));
}

export default defineConfig({
  test: {
    reporters: ['default', './tests/setup/tally.ts'],
    globalSetup: './tests/setup/scratch.ts',
    testTimeout: LONG ? 600_000 : 120_000,
    hookTimeout: 120_000,
    // Waiting ends when what is waited for is there; a machine that is busy with other tests takes longer.
    expect: { poll: { timeout: 10_000 } },
    projects: [
      {
        extends: true,
        // Modules are loaded once for all files of a thread: no test changes what another reads.
        test: {
          name: 'pure',
          include: ['tests/**/*.test.ts'],
          exclude: [...PAGES, ...SITES, ...sameInTheLongRun()],
          pool: 'threads',
          isolate: false,
          maxWorkers: 2,
        },
      },
      {
        extends: true,
        test: { name: 'site', include: SITES, exclude: sameInTheLongRun(), maxWorkers: 2, sequence: { groupOrder: 1 } },
      },
      // Pages wait for music more than they compute, so three at once keep two cores busy.
      {
        extends: true,
        test: {
          name: 'page',
          include: PAGES,
          exclude: [...LIVE, ...sameInTheLongRun()],
          maxWorkers: 3,
          sequence: { groupOrder: 2 },
        },
      },
      {
        extends: true,
        test: {
          name: 'live',
          include: LIVE,
          exclude: sameInTheLongRun(),
          fileParallelism: false,
          sequence: { groupOrder: 3 },
        },
      },
    ],
  },
});
