/** A thread of ahead.ts. */
import { enableCompileCache } from 'node:module';
import { workerData } from 'node:worker_threads';
import { type Done, ENDED, type Start } from './job.ts';

const { batches, port, state } = workerData as Start;
try {
  enableCompileCache();
  const { blockEngraver } = await import('./engrave.ts');
  for (const batch of batches) {
    const done: Done = batch.map((job) => [
      job.key,
      'score' in job ? blockEngraver.score(job.score) : blockEngraver.text(job.text),
    ]);
    port.postMessage(done);
    Atomics.add(state, 0, 1);
    Atomics.notify(state, 0);
  }
} finally {
  Atomics.store(state, 0, ENDED);
  Atomics.notify(state, 0);
}
