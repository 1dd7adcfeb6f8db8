/** How tests run for mutants: the files that are asked for, and no more after the first test that fails. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: JSON.parse(process.env['REEDWAY_MUTANTS_TESTS'] ?? '[]'),
    globalSetup: './tests/setup/scratch.ts',
    setupFiles: ['./bench/mutants/seeded.ts'],
    testTimeout: 60_000,
    pool: 'threads',
    isolate: false,
  },
});
