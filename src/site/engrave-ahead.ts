/**
 * Engraves the blocks of a course in a thread of its own while this one makes the pages. It begins at the end, where pages
 * come last, and the pages engrave for themselves what they need before it is there. Nothing depends on it but time.
 */
import { createRequire } from 'node:module';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { Course } from '../course/course.ts';
import type { Score } from '../score/score.ts';
import { blockKeys } from './block-key.ts';
import { type Engraved, type Engraver, engraver, keep, type Press } from './engraver.ts';
import type { Pack } from './pack.ts';

export interface EngraverAhead {
  readonly engraver: Engraver;
  stop(): Promise<void>;
}

export interface Job {
  readonly key: string;
  readonly score: Score;
}
export type Done = readonly (readonly [key: string, engraved: Engraved])[];

/** Fewer blocks than this are engraved sooner than a thread is started. */
const WORTH_IT = 60;

const SELF = fileURLToPath(import.meta.url);

export function engraverAhead(course: Course, pack: Pack, progress?: (blocks: number) => void): EngraverAhead {
  const jobs = jobsOf(course, pack);
  const done = new Map<string, Engraved>();
  const worker = jobs.length < WORTH_IT ? undefined : startWorker(jobs);
  worker?.on('message', (batch: Done) => {
    for (const [key, engraved] of batch) {
      done.set(key, engraved);
      keep(pack, key, engraved);
    }
  });
  let press: Press | undefined;
  return {
    engraver: engraver({
      pack,
      ahead: done,
      progress,
      press: () => {
        press ??= loadPress(pack);
        return press;
      },
    }),
    stop: async () => {
      await worker?.terminate();
    },
  };
}

/** What is not kept from before, the last blocks first, each music once. */
function jobsOf(course: Course, pack: Pack): Job[] {
  const keyOf = blockKeys(course);
  const jobs = new Map<string, Job>();
  for (const lesson of course.lessons) {
    for (const block of lesson.blocks) {
      const key = keyOf(lesson, block);
      if (block.score && !pack.has(key)) jobs.set(key, { key, score: block.score });
    }
  }
  return [...jobs.values()].reverse();
}

function startWorker(jobs: readonly Job[]): Worker {
  const worker = new Worker(new URL(`./engrave-worker${extname(SELF)}`, import.meta.url), { workerData: jobs });
  // Its failing costs time: whatever it has not done is done by the pages.
  worker.on('error', () => undefined);
  worker.unref();
  return worker;
}

/** Pages are made without waiting for anything, so the engraver is loaded on the spot; mostly it is not needed at all. */
function loadPress(pack: Pack): Press {
  const load = createRequire(import.meta.url);
  const { pressWith } = load(`./engraving${extname(SELF)}`) as typeof import('./engraving.ts');
  return pressWith(pack);
}
