/** How tests run for mutants: the files that are asked for, and no more after the first test that fails. */
import { defineConfig } from 'vitest/config';
import { KEPT, keptThread } from './kept-thread.ts';

export default defineConfig({
  test: {
    include: JSON.parse(process.env['REEDWAY_MUTANTS_TESTS'] ?? '[]'),
    globalSetup: './tests/setup/scratch.ts',
    setupFiles: ['./bench/mutants/seeded.ts'],
    testTimeout: 60_000,
    isolate: false,
  },
  plugins: [
    {
      name: 'kept-thread',
      // Stryker sets the pool itself, after this file is read.
      configureVitest({ project }) {
        Object.assign(project.config, { pool: KEPT, poolRunner: { name: KEPT, createPoolWorker: keptThread } });
      },
    },
  ],
});
