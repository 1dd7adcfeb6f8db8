/** Tries cases of a target in a thread of its own, so that a case that never ends can be seen from outside. */
import { parentPort, workerData } from 'node:worker_threads';
import fc from 'fast-check';
import { present } from '../../src/values/checked.ts';
import { TARGETS } from './target.ts';

/** What the thread is given. */
export interface Job {
  readonly target: string;
  readonly seed: number;
  /** Milliseconds since 1970 at which no further batch is begun. */
  readonly end: number;
  /** How many cases were begun, counted where the other thread can see it. */
  readonly begun: SharedArrayBuffer;
}

/** What the thread reports: cases that were tried, or the shortest one that failed. */
export type Report =
  | { readonly kind: 'batch'; readonly seed: number; readonly cases: number }
  | { readonly kind: 'failure'; readonly seed: number; readonly value: unknown; readonly message: string }
  | { readonly kind: 'end' };

const { target: name, seed: first, end, begun } = workerData as Job;
const port = present(parentPort, 'a thread');
const counter = new Int32Array(begun);
const target = await present(TARGETS[name], name)();
const send = (report: Report): void => port.postMessage(report);

await target.start?.();
for (let seed = first; Date.now() < end; seed++) {
  // The other thread knows by these two where a case hangs.
  Atomics.store(counter, 1, seed);
  Atomics.store(counter, 0, 0);
  const property = fc.asyncProperty(target.cases, async (value) => {
    Atomics.add(counter, 0, 1);
    Atomics.add(counter, 2, 1);
    await target.check(value);
  });
  const found = await fc.check(property, { seed, numRuns: target.batch, interruptAfterTimeLimit: 600_000 });
  if (found.failed && found.counterexample) {
    const error = found.errorInstance;
    const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
    send({ kind: 'failure', seed, value: found.counterexample[0], message });
    break;
  }
  send({ kind: 'batch', seed, cases: found.numRuns });
}
await target.stop?.();
send({ kind: 'end' });
