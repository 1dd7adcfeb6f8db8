/**
 * Engraves the blocks of a course in threads of their own while this one prepares the pages, in the order in which pages ask
 * for them. A page that comes before its blocks waits: starting another engraver would take longer than waiting.
 */
import { createRequire } from 'node:module';
import { availableParallelism } from 'node:os';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';
import { blockKeys, exampleKey } from '../../course/block-key.ts';
import type { Course } from '../../course/course.ts';
import type { Engraved, Engraver } from '../../site/engraver.ts';
import { EXAMPLES, MARKED } from '../../site/examples.ts';
import { type BlockEngraver, engraver, storeEngraved } from './engraver.ts';
import { type Done, ENDED, type EngravingJob, type Start } from './job.ts';
import type { RecordStore } from './record-store.ts';

/** An engraver that has begun with the blocks of the course before they are asked for. */
export interface EngraverAhead {
  readonly engraver: Engraver;
  stop(): Promise<void>;
}

/** Fewer blocks than this are engraved faster than a thread starts. */
const WORTH_IT = 60;
/** Each has to warm up on its own, so more of them do not help in proportion. */
const MOST_THREADS = 3;
/** How many blocks a thread takes at a time. */
const BATCH = 4;
/** A thread that says nothing for so long is given up. In milliseconds. */
const PATIENCE = 10_000;

const SELF = fileURLToPath(import.meta.url);

/** An engraver that lets worker threads engrave the blocks of a course in advance. */
export function engraverAhead(course: Course, store: RecordStore, progress?: (blocks: number) => void): EngraverAhead {
  const jobs = jobsOf(course, store);
  const threads = jobs.length < WORTH_IT ? [] : startThreads(jobs);
  const done = new Map<string, Engraved>();
  // Pages are made one right after the other, with no moment in between for messages to arrive in: they are fetched.
  const fetch = ({ port }: Thread): void => {
    for (let met = receiveMessageOnPort(port); met; met = receiveMessageOnPort(port)) {
      for (const [key, engraved] of met.message as Done) {
        done.set(key, engraved);
        storeEngraved(store, key, engraved);
      }
    }
  };
  let blockEngraver: BlockEngraver | undefined;
  return {
    engraver: engraver({
      store,
      engravedAhead: {
        get(key) {
          const thread = threads.find(({ keys }) => keys.has(key));
          while (thread && !done.has(key)) {
            const state = Atomics.load(thread.state, 0);
            fetch(thread);
            if (done.has(key) || state === ENDED) break;
            // Its failing costs time: whatever it has not done is done by the pages.
            if (Atomics.wait(thread.state, 0, state, PATIENCE) === 'timed-out') Atomics.store(thread.state, 0, ENDED);
          }
          return done.get(key);
        },
      },
      progress,
      blockEngraver: () => {
        blockEngraver ??= loadBlockEngraver();
        return blockEngraver;
      },
    }),
    stop: async () => {
      for (const thread of threads) {
        Atomics.store(thread.state, 0, ENDED);
        fetch(thread);
      }
      await Promise.all(threads.map(({ worker }) => worker.terminate()));
    },
  };
}

/** What is not kept from before, in the order of the pages, each music once. */
function jobsOf(course: Course, store: RecordStore): EngravingJob[] {
  const keyOf = blockKeys(course);
  const jobs = new Map<string, EngravingJob>();
  const add = (job: EngravingJob): void => {
    if (!store.has(job.key)) jobs.set(job.key, job);
  };
  for (const text of [...Object.values(EXAMPLES), ...MARKED.map((mark) => mark.text)])
    add({ key: exampleKey(text), text });
  for (const lesson of course.lessons) {
    for (const block of lesson.blocks) if (block.score) add({ key: keyOf(lesson, block), score: block.score });
  }
  return [...jobs.values()];
}

interface Thread {
  readonly worker: Worker;
  readonly port: MessagePort;
  /** What it was given. */
  readonly keys: ReadonlySet<string>;
  readonly state: Int32Array;
}

/** Batches go round, so that the first pages find theirs first. */
function startThreads(jobs: readonly EngravingJob[]): Thread[] {
  const count = Math.max(1, Math.min(MOST_THREADS, availableParallelism() - 1));
  return Array.from({ length: count }, (_, number) => {
    const batches: EngravingJob[][] = [];
    for (let from = number * BATCH; from < jobs.length; from += count * BATCH)
      batches.push(jobs.slice(from, from + BATCH));
    return startThread(batches);
  });
}

function startThread(batches: readonly (readonly EngravingJob[])[]): Thread {
  const { port1, port2 } = new MessageChannel();
  const state = new Int32Array(new SharedArrayBuffer(4));
  const start: Start = { batches, port: port2, state };
  const worker = new Worker(new URL(`./worker${extname(SELF)}`, import.meta.url), {
    workerData: start,
    transferList: [port2],
  });
  worker.on('error', () => undefined);
  worker.unref();
  port1.unref();
  return { worker, port: port1, keys: new Set(batches.flat().map(({ key }) => key)), state };
}

/** Pages are made without waiting for anything, so the engraver is loaded on the spot; mostly it is not needed at all. */
function loadBlockEngraver(): BlockEngraver {
  const load = createRequire(import.meta.url);
  return (load(`./engrave${extname(SELF)}`) as typeof import('./engrave.ts')).blockEngraver;
}
