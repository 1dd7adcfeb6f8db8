/**
 * A thread for tests that is kept from one mutant to the next, since starting one takes longer than most modules’ tests. Vitest
 * ends its thread after every run: this one only says that it has, and tells the thread the settings of the next run. What
 * the thread has loaded of the project is loaded again for each mutant (seeded.ts).
 */
import { type PoolOptions, type PoolWorker, ThreadsPoolWorker } from 'vitest/node';

type Listener = Parameters<PoolWorker['on']>[1];

let kept: ThreadsPoolWorker | undefined;
/** How long the first run took, that of all tests without a mutant, in milliseconds. */
let whole: number | undefined;

/**
 * A mutant that loops for ever ends here, before Stryker starts a new process for it. On a busy machine the tests take several times
 * as long as they did at first, and the first run of a second process may be that of a mutant.
 */
const limit = (): number => 20_000 + 5 * (whole ?? Number.POSITIVE_INFINITY);

/** What Stryker says of a mutant whose thread reported an error: that it ended here. */
export const ENDLESS = 'Worker kept emitted error';

export const KEPT = 'kept';

export function keptThread(options: PoolOptions): PoolWorker {
  const isNew = kept === undefined;
  kept ??= new ThreadsPoolWorker(options);
  const thread = kept;
  const listeners: [event: string, listener: Listener][] = [];
  let config: object = {};
  let wasAsked = false;
  let timer: NodeJS.Timeout | undefined;
  let from = 0;

  function begin(): void {
    from = performance.now();
    if (whole === undefined) return;
    timer = setTimeout(() => {
      for (const [event, listener] of listeners) if (event === 'error') listener(new Error('The tests do not end.'));
    }, limit());
  }
  function end(): void {
    clearTimeout(timer);
    whole ??= performance.now() - from;
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
      clearTimeout(timer);
      for (const [event, listener] of listeners) thread.off(event, listener);
      if (wasAsked) return;
      // Not asked but made to stop: it may be busy for ever.
      kept = undefined;
      await thread.stop();
    },
  };
}
