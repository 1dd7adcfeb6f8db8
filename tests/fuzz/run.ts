/**
 * Fuzzers: random cases until the time is up.
 *
 *     npm run fuzz -- [--minutes N] [--seed S] [--only NAME]
 *
 * A case that fails is made as short as it can be, and kept in `reproducers`, where a test tries it from then on. The same seed
 * tries the same cases. The targets share the time evenly; exit code 1 where a case failed or hung.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import fc from 'fast-check';
import { present } from '../../src/values/checked.ts';
import { TARGETS, type Target } from './target.ts';
import type { Job, Report } from './worker.ts';

const REPRODUCERS = fileURLToPath(new URL('reproducers', import.meta.url));

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '1' },
    seed: { type: 'string', default: `${Date.now() % 1_000_000_000}` },
    only: { type: 'string' },
  },
});
const [minutes, seed] = [Number(values.minutes), Number(values.seed)];
const names = Object.keys(TARGETS).filter((name) => values.only === undefined || values.only === name);
if (!(minutes > 0) || !Number.isSafeInteger(seed) || names.length === 0) {
  console.error(`Use: npm run fuzz -- [--minutes N] [--seed S] [--only ${Object.keys(TARGETS).join('|')}]`);
  process.exit(2);
}

let failures = 0;
for (const name of names) {
  const target = await present(TARGETS[name], name)();
  console.log(`${name}: seed ${seed}`);
  const from = performance.now();
  const tried = await fuzz(target, Date.now() + (minutes * 60_000) / names.length);
  const seconds = (performance.now() - from) / 1000;
  console.log(`${name}: ${tried} cases in ${seconds.toFixed(0)} s, ${Math.round(tried / seconds)} a second`);
}
process.exitCode = failures > 0 ? 1 : 0;

/** Runs a target in a thread; the number of cases it tried. */
function fuzz(target: Target, end: number): Promise<number> {
  const begun = new SharedArrayBuffer(12);
  const counter = new Int32Array(begun);
  const workerData: Job = { target: target.name, seed, end, begun };
  const worker = new Worker(new URL('worker.ts', import.meta.url), { workerData });
  return new Promise((resolve) => {
    let [last, since] = [-1, Date.now()];
    const watch = setInterval(() => {
      const now = Atomics.load(counter, 2);
      if (now !== last) [last, since] = [now, Date.now()];
      else if (now > 0 && Date.now() - since > target.patience * 1000) hung();
    }, 1000);
    const finish = (): void => {
      clearInterval(watch);
      void worker.terminate();
      resolve(Atomics.load(counter, 2));
    };
    function hung(): void {
      // The same seed makes the same cases again. What hung while it was made shorter is left as long as it was.
      const [place, batchSeed] = [Atomics.load(counter, 0), Atomics.load(counter, 1)];
      const cases = fc.sample(target.cases, { seed: batchSeed, numRuns: Math.min(place, target.batch) });
      keep(target, batchSeed, cases.at(-1), `did not end within ${target.patience} s`);
      finish();
    }
    worker.on('message', (report: Report) => {
      if (report.kind === 'failure') keep(target, report.seed, report.value, report.message);
      else if (report.kind === 'end') finish();
    });
    worker.on('error', (error) => {
      keep(target, Atomics.load(counter, 1), undefined, `the thread ended: ${error.stack}`);
      finish();
    });
  });
}

function keep({ name }: Target, batchSeed: number, value: unknown, message: string): void {
  failures++;
  console.error(`${name}: seed ${batchSeed} fails: ${message}`);
  if (value === undefined) return;
  const text = `${JSON.stringify(value, null, 2)}\n`;
  const folder = join(REPRODUCERS, name);
  const file = join(folder, `${createHash('sha256').update(text).digest('hex').slice(0, 12)}.json`);
  mkdirSync(folder, { recursive: true });
  writeFileSync(file, text);
  console.error(`${name}: ${JSON.stringify(value)}\nkept in ${file}`);
}
