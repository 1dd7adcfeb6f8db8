/**
 * A thread for tests that is kept from one mutant to the next, since starting one takes longer than most modules’ tests. Vitest
 * ends its thread after every run: this one only says that it has, and tells the thread the settings of the next run. What
 * the thread has loaded of the project is loaded again for each mutant (seeded.ts).
 */
import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { type PoolOptions, type PoolWorker, ThreadsPoolWorker } from 'vitest/node';

type Listener = Parameters<PoolWorker['on']>[1];

let kept: ThreadsPoolWorker | undefined;

/** The variable that names the file with what all tests cost without a mutant, in milliseconds of processor time. */
export const COST_FILE = 'REEDWAY_MUTANTS_COST';

/** The variable that names the file with the ids of the mutants that were stopped, one a line. */
export const STOPPED_FILE = 'REEDWAY_MUTANTS_STOPPED';

/** Milliseconds between two looks at a run. */
const LOOK = 250;

/** How much processor time a run may take: a mutant that loops for ever ends here, on a busy machine as on a quiet one. */
const limitOf = (cost: number): number => 2000 + 1.5 * cost;

/** Milliseconds of all threads of this process. */
function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

export const KEPT = 'kept';

export function keptThread(options: PoolOptions): PoolWorker {
  const isNew = kept === undefined;
  kept ??= new ThreadsPoolWorker(options);
  const thread = kept;
  const listeners: [event: string, listener: Listener][] = [];
  let config: object = {};
  let wasAsked = false;
  const { mode, activeMutant } = options.project.getProvidedContext();
  const file = process.env[COST_FILE] ?? '';
  let timer: NodeJS.Timeout | undefined;
  let from = 0;

  function begin(): void {
    from = processorTime();
    if (mode === 'dry-run') return;
    const limit = limitOf(Number(readFileSync(file, 'utf8')));
    timer = setInterval(() => {
      if (processorTime() - from < limit) return;
      clearInterval(timer);
      // To Stryker a thread that ends has failed, whatever ended it.
      appendFileSync(process.env[STOPPED_FILE] ?? '', `${activeMutant}\n`);
      for (const [event, listener] of listeners) if (event === 'error') listener(new Error('The tests do not end.'));
    }, LOOK);
  }
  function end(): void {
    clearInterval(timer);
    if (mode === 'dry-run') writeFileSync(file, `${processorTime() - from}`);
  }

  function answer(type: string): void {
    for (const [event, listener] of listeners)
      if (event === 'message') queueMicrotask(() => listener({ type, __vitest_worker_response__: true }));
  }
  return {
    name: KEPT,
    on(event, listener) {
      listeners.push([event, listener]);
      thread.on(event, listener);
    },
    off(event, listener) {
      thread.off(event, listener);
    },
    deserialize(data) {
      if (typeof data === 'object' && data !== null && 'type' in data && data.type === 'testfileFinished') end();
      return data;
    },
    send(message) {
      const { type } = message;
      if (type === 'start') config = { config: message.context.config };
      if (type === 'stop') wasAsked = true;
      if (type === 'start' && !isNew) answer('started');
      else if (type === 'stop') answer('stopped');
      else if (type === 'run') {
        begin();
        thread.send({ ...message, context: { ...message.context, ...config } });
      } else thread.send(message);
    },
    async start() {
      if (isNew) await thread.start();
    },
    async stop() {
      clearInterval(timer);
      for (const [event, listener] of listeners) thread.off(event, listener);
      if (wasAsked) return;
      // Not asked but made to stop: it may be busy for ever.
      kept = undefined;
      await thread.stop();
    },
  };
}
