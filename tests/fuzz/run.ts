/** One target for a while: seed after seed, each finding once, shrunk and kept. */
import fc from 'fast-check';
import { keepReproducer } from './reproducers.ts';
import type { AnyTarget } from './target.ts';
import { type Lost, startChild, type WatchedChild } from './watch.ts';

export interface RunSettings {
  readonly seconds: number;
  /** The most cases to try. */
  readonly cases: number;
  readonly seed: number;
  readonly say: (line: string) => void;
}

export interface RunResult {
  readonly target: string;
  readonly cases: number;
  readonly seconds: number;
  /** Processor seconds of the seeds that were done. */
  readonly cpu: number;
  /** The files of what was found. */
  readonly found: readonly string[];
}

/** A case that is this many times over its limit hangs. */
const HANG = 8;
/** What shrinking a case may take that ends its process, in milliseconds: each try starts a process. */
const SHRINKING = 180_000;
const SAY_EVERY = 30;

export async function run(target: AnyTarget, settings: RunSettings): Promise<RunResult> {
  const { say } = settings;
  const start = performance.now();
  const elapsed = (): number => (performance.now() - start) / 1000;
  const known = new Map<string, number>();
  const found: string[] = [];
  let child: WatchedChild | undefined;
  let cases = 0;
  let cpu = 0;
  let said = 0;

  function keep(finding: string, message: string, value: unknown, seed: number): void {
    known.set(finding, 0);
    const file = keepReproducer({ target: target.name, finding, value });
    found.push(file);
    say(`\n${target.name}, after ${cases} cases and ${elapsed().toFixed(0)} s: ${finding}\n${indented(message)}`);
    say(`  kept as tests/fuzz/reproducers/${file}`);
    say(`  again: npm run fuzz -- --only ${target.name} --seed ${seed} --cases ${target.batch}\n`);
  }

  for (let seed = settings.seed; elapsed() < settings.seconds && cases < settings.cases; seed++) {
    child ??= await startChild(target.name, target.limit * HANG);
    const { answers, lost } = await child.ask({ seed, count: target.batch, known: [...known.keys()] });
    for (const answer of answers) {
      if (answer.kind === 'found') keep(answer.finding, answer.message, answer.value, seed);
      if (answer.kind !== 'done') continue;
      cases += answer.cases;
      cpu += answer.cpu;
      for (const [finding, times] of Object.entries(answer.repeats)) {
        known.set(finding, (known.get(finding) ?? 0) + times);
      }
    }
    if (lost) {
      child = undefined;
      cases += lost.place + 1;
      // A hang is named by its target alone: what hangs where is for a person to see.
      if (!known.has(lost.kind)) {
        const { value, detail } = await shrinkLost(target, lost, seed);
        keep(lost.kind, detail, value, seed);
      }
    }
    if (elapsed() - said > SAY_EVERY) {
      said = elapsed();
      say(`${target.name}: ${cases} cases, ${(cases / said).toFixed(1)} a second`);
    }
  }
  child?.stop();
  for (const [finding, times] of known) if (times > 0) say(`${target.name}: ${times} times more: ${finding}`);
  return { target: target.name, cases, seconds: elapsed(), cpu, found };
}

/** Makes a case smaller that hangs or crashes, with a process for each try. */
async function shrinkLost(target: AnyTarget, lost: Lost, seed: number): Promise<Pick<Lost, 'value' | 'detail'>> {
  let best: Pick<Lost, 'value' | 'detail'> = lost;
  let child: WatchedChild | undefined;
  const property = fc.asyncProperty(target.cases, async (value) => {
    child ??= await startChild(target.name, target.limit * HANG);
    const { lost: again } = await child.ask({ one: value });
    if (!again) return;
    child = undefined;
    if (again.kind !== lost.kind) return;
    best = { value, detail: again.detail };
    throw new Error(again.detail);
  });
  await fc.check(property, {
    seed,
    path: `${lost.place}`,
    numRuns: 1,
    interruptAfterTimeLimit: SHRINKING,
  });
  child?.stop();
  return best;
}

const indented = (text: string): string =>
  text
    .split('\n')
    .slice(0, 14)
    .map((line) => `  ${line.slice(0, 300)}`)
    .join('\n');
