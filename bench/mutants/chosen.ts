/**
 * Lets the tool try the chosen mutants alone: a plugin that it loads in processes of its own. What is not chosen is reported
 * as one that does not compile, because a checker has no other way to pass over a mutant.
 */
import { readFileSync } from 'node:fs';
import { type Checker, type CheckResult, CheckStatus } from '@stryker-mutator/api/check';
import type { Mutant } from '@stryker-mutator/api/core';
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { keyOf } from './choose.ts';

/** The variable that names the file with the keys of the chosen mutants. */
export const CHOSEN_FILE = 'REEDWAY_MUTANTS_CHOSEN';

function chosenOnly(): Checker {
  const chosen = new Set<string>(JSON.parse(readFileSync(process.env[CHOSEN_FILE] ?? '', 'utf8')));
  const result = (mutant: Mutant): CheckResult =>
    chosen.has(keyOf(mutant))
      ? { status: CheckStatus.Passed }
      : { status: CheckStatus.CompileError, reason: 'not chosen' };
  return {
    init: async () => {},
    check: async (mutants) => Object.fromEntries(mutants.map((mutant) => [mutant.id, result(mutant)])),
    group: async (mutants) => [mutants.map(({ id }) => id)],
  };
}
chosenOnly.inject = [] as const;

export const strykerPlugins = [declareFactoryPlugin(PluginKind.Checker, 'chosen', chosenOnly)];
