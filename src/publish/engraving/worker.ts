/** A thread of ahead.ts. */
import { enableCompileCache } from 'node:module';
import { workerData } from 'node:worker_threads';
import { type Done, ENDED, type Start } from './job.ts';

const { dir, batches, port, state } = workerData as Start;
try {
  enableCompileCache();
  const { blockEngraverWith } = await import('./engrave.ts');
  const { openCourseCache } = await import('./course-cache.ts');
  // The drawings of bars are kept from here, in a file of this thread's own; it may be stopped at any moment.
  const blockEngraver = blockEngraverWith(openCourseCache(dir));
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
