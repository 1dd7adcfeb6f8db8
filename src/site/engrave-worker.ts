/** The thread of engrave-ahead.ts. */
import { enableCompileCache } from 'node:module';
import { workerData } from 'node:worker_threads';
import type { Done, Start } from './engrave-ahead.ts';
import { NO_PACK } from './pack.ts';

enableCompileCache();
const { pressWith } = await import('./engraving.ts');

const BATCH = 16;
const { jobs, port } = workerData as Start;
const press = pressWith(NO_PACK);
for (let from = 0; from < jobs.length; from += BATCH) {
  const batch: Done = jobs.slice(from, from + BATCH).map(({ key, score }) => [key, press.score(score)] as const);
  port.postMessage(batch);
}
