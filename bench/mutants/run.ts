/**
 * Mutation tests: makes small changes to a module, one at a time, and reports the changes that no test notices.
 *
 *     npm run mutants -- MODULE [--sample N] [--seed S] [--own] [--workers N]
 *
 * MODULE is a folder or a file of src: `harmony`, `schedule`, `score/grid.ts`. A module’s own tests are asked first, and
 * about what they do not notice the tests elsewhere that import it; `--own` leaves those out. Without `--workers` there are two,
 * or one where the machine is busy.
 */
import { loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import type { MutantResult } from '@stryker-mutator/api/core';
import { ROOT } from '../measure.ts';
import { choose, keyOf } from './choose.ts';
import { isLiving, report } from './report.ts';
import { filesOf, testsOf } from './tests.ts';
import { tryAll } from './try.ts';

/** As many mutants as one run takes without being asked. */
const MOST = 2000;

process.chdir(ROOT);
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: 'string', default: `${MOST}` },
    seed: { type: 'string', default: '1' },
    own: { type: 'boolean', default: false },
    workers: { type: 'string' },
  },
});
const [module] = positionals;
const [sample, seed] = [Number(values.sample), Number(values.seed)];
const workers = Number(values.workers ?? (Number(loadavg()[0]) > 2 ? 1 : 2));
if (module === undefined || positionals.length > 1 || ![sample, seed, workers].every(Number.isSafeInteger))
  fail('Use: npm run mutants -- MODULE [--sample N] [--seed S] [--own] [--workers N]');
const sources = filesOf(module);
if (sources.length === 0) fail(`There is no module src/${module}.`);
const tests = testsOf(module);
if (tests.own.length + tests.elsewhere.length === 0) fail(`No test imports src/${module}.`);

const from = performance.now();
const choice = await choose(sources, { sample, seed });
const found = new Map<string, MutantResult>();
for (const files of [tests.own, values.own ? [] : tests.elsewhere]) {
  const left = choice.chosen.filter((mutant) => isLiving(found.get(keyOf(mutant))));
  if (files.length === 0 || left.length === 0) continue;
  console.log(`${left.length} mutants with ${files.length} test files …`);
  for (const result of await tryAll(left, { sources, tests: files, workers })) {
    const before = found.get(keyOf(result));
    // A test elsewhere may pass by what a module's own tests run, and notice no more than they do.
    if (!(before?.status === 'Survived' && result.status === 'NoCoverage')) found.set(keyOf(result), result);
  }
}
report({
  module,
  choice,
  results: [...found.values()],
  again: `npm run mutants -- ${module} --sample ${sample} --seed ${seed}${values.own ? ' --own' : ''}`,
  minutes: (performance.now() - from) / 60_000,
  workers,
});

function fail(message: string): never {
  console.error(message);
  process.exit(2);
}
