/** The thread of engrave-ahead.ts. */
import { enableCompileCache } from 'node:module';
import { workerData } from 'node:worker_threads';
import type { Done, Start } from './engrave-ahead.ts';

enableCompileCache();
const { pressWith } = await import('./engraving.ts');
const { openCourseCache } = await import('./course-cache.ts');

const BATCH = 16;
const { dir, jobs, port } = workerData as Start;
// The drawings of bars are kept from here, in a file of this thread's own; it may be stopped at any moment.
const press = pressWith(openCourseCache(dir));
for (let from = 0; from < jobs.length; from += BATCH) {
  const batch: Done = jobs.slice(from, from + BATCH).map(({ key, score }) => [key, press.score(score)] as const);
  port.postMessage(batch);
}
