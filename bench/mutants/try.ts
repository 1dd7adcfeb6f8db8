/** Tries mutants: runs Stryker for those that are chosen, with some test files. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import type { MutantResult } from '@stryker-mutator/api/core';
import { Stryker } from '@stryker-mutator/core';
import { ROOT } from '../measure.ts';
import { keyOf, type Mutant } from './choose.ts';
import { CHOSEN_FILE } from './chosen.ts';
import { COST_FILE, STOPPED_FILE } from './kept-thread.ts';

export interface Settings {
  /** The files the mutants are of. */
  readonly sources: readonly string[];
  readonly tests: readonly string[];
  /** Processes at a time. */
  readonly workers: number;
}

/** Tries mutants with some tests. Where a test file does not load it is tried again: on a busy machine that may be an accident. */
export async function tryAll(mutants: readonly Mutant[], settings: Settings): Promise<readonly MutantResult[]> {
  const results = await tryOnce(mutants, settings);
  const unloaded = results.filter(({ status }) => status === 'RuntimeError');
  if (unloaded.length === 0) return results;
  console.log(`\n${unloaded.length} of them again …`);
  const again = new Map((await tryOnce(unloaded, settings)).map((result) => [keyOf(result), result]));
  return results.map((result) => again.get(keyOf(result)) ?? result);
}

async function tryOnce(
  mutants: readonly Mutant[],
  { sources, tests, workers }: Settings,
): Promise<readonly MutantResult[]> {
  const folder = mkdtempSync(join(tmpdir(), 'reedway-mutants-'));
  const chosen = mutants.map(keyOf);
  writeFileSync(join(folder, 'chosen.json'), JSON.stringify(chosen));
  writeFileSync(join(folder, 'stopped'), '');
  // The processes that check and run mutants are started with this environment.
  Object.assign(process.env, {
    [CHOSEN_FILE]: join(folder, 'chosen.json'),
    [COST_FILE]: join(folder, 'cost'),
    [STOPPED_FILE]: join(folder, 'stopped'),
    REEDWAY_TESTS: 'mutants',
    REEDWAY_MUTANTS_TESTS: JSON.stringify(tests),
    ASTRO_TELEMETRY_DISABLED: '1',
  });
  try {
    const results = await new Stryker({
      configFile: 'bench/mutants/stryker.json',
      mutate: sources.map((source) => relative(ROOT, source)),
      concurrency: workers,
    }).runMutationTest();
    const wanted = new Set(chosen);
    const stopped = new Set(readFileSync(join(folder, 'stopped'), 'utf8').split('\n'));
    return results
      .map(
        (result): MutantResult =>
          stopped.has(result.id) ? { ...fromZero(result), status: 'Timeout' } : fromZero(result),
      )
      .filter((mutant) => wanted.has(keyOf(mutant)));
  } finally {
    rmSync(folder, { recursive: true, force: true });
    rmSync(join(ROOT, '.mutants'), { recursive: true, force: true });
  }
}

/** Results count lines and columns from 1, and mutants from 0. */
const fromZero = (result: MutantResult): MutantResult => ({
  ...result,
  location: {
    start: { line: result.location.start.line - 1, column: result.location.start.column - 1 },
    end: { line: result.location.end.line - 1, column: result.location.end.column - 1 },
  },
});
