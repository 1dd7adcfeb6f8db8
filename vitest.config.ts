import { defineConfig } from 'vitest/config';

const include = (...folders: string[]) => folders.map((folder) => `tests/${folder}/**/*.test.ts`);

export default defineConfig({
  test: {
    reporters: ['default', './tests/setup/tally.ts'],
    projects: [
      {
        test: {
          name: 'pure',
          include: ['tests/**/*.test.ts'],
          exclude: include('site', 'browser'),
          testTimeout: 120_000,
        },
      },
      // These build whole sites, in processes of their own.
      { test: { name: 'site', include: include('site'), testTimeout: 120_000, hookTimeout: 120_000 } },
      // These share one machine's sound, windows and cores.
      {
        test: {
          name: 'browser',
          include: include('browser'),
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
