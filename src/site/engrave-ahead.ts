/**
 * Engraves the blocks of a course in a thread of its own while this one makes the pages. It begins at the end, where pages
 * come last, and the pages engrave for themselves what they need before it is there. Nothing depends on it but time.
 */
import { createRequire } from 'node:module';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';
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
  const thread = jobs.length < WORTH_IT ? undefined : startThread(course.dir, jobs);
  const done = new Map<string, Engraved>();
  // Pages are made one right after the other, with no moment in between for messages to arrive in: they are fetched.
  const fetch = (): void => {
    for (
      let met = thread && receiveMessageOnPort(thread.port);
      met;
      met = thread && receiveMessageOnPort(thread.port)
    ) {
      for (const [key, engraved] of met.message as Done) {
        done.set(key, engraved);
        keep(pack, key, engraved);
      }
    }
  };
  let press: Press | undefined;
  return {
    engraver: engraver({
      pack,
      ahead: {
        get(key) {
          if (!done.has(key)) fetch();
          return done.get(key);
        },
      },
      progress,
      press: () => {
        press ??= loadPress(pack);
        return press;
      },
    }),
    stop: async () => {
      fetch();
      await thread?.worker.terminate();
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

interface Thread {
  readonly worker: Worker;
  readonly port: MessagePort;
}

/** What a thread starts with. */
export interface Start {
  /** The course's folder. */
  readonly dir: string;
  readonly jobs: readonly Job[];
  readonly port: MessagePort;
}

function startThread(dir: string, jobs: readonly Job[]): Thread {
  const { port1, port2 } = new MessageChannel();
  const start: Start = { dir, jobs, port: port2 };
  const worker = new Worker(new URL(`./engrave-worker${extname(SELF)}`, import.meta.url), {
    workerData: start,
    transferList: [port2],
  });
  // Its failing costs time: whatever it has not done is done by the pages.
  worker.on('error', () => undefined);
  worker.unref();
  port1.unref();
  return { worker, port: port1 };
}

/** Pages are made without waiting for anything, so the engraver is loaded on the spot; mostly it is not needed at all. */
function loadPress(pack: Pack): Press {
  const load = createRequire(import.meta.url);
  const { pressWith } = load(`./engraving${extname(SELF)}`) as typeof import('./engraving.ts');
  return pressWith(pack);
}
