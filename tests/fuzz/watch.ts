/**
 * A child that is watched: a case that takes too much processor time ends it, and the case is known. Processor time and
 * not the clock, because a busy machine makes every case slow.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { present } from '../../src/values/checked.ts';
import type { Answer, Asked } from './child.ts';

const CHILD = fileURLToPath(new URL('child.ts', import.meta.url));
const LOOK_EVERY = 500;
/** Seconds by the clock for a case that waits for something, as a hang of a server does. */
const LONGEST_WAIT = 300;

/** A case that did not come to an end, or that ended the process. */
export interface Lost {
  readonly kind: 'hang' | 'crash';
  readonly value: unknown;
  /** The place of the case in its seed. */
  readonly place: number;
  readonly detail: string;
}

export interface WatchedChild {
  /** Rejects nothing: the child's answers, and what was lost where it had to be ended. It is then no longer there. */
  ask(asked: Asked): Promise<{ readonly answers: readonly Answer[]; readonly lost?: Lost }>;
  stop(): void;
}

/** Starts a child for a target. `limit`: processor seconds after which a case counts as hanging. */
export async function startChild(target: string, limit: number): Promise<WatchedChild> {
  const folder = mkdtempSync(join(tmpdir(), 'reedway-fuzz-'));
  const journal = join(folder, 'case');
  writeFileSync(journal, '');
  const child = fork(CHILD, [target, journal], {
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    serialization: 'json',
    // A group of its own, so that a server that the child started ends with it.
    detached: true,
  });
  const end = (): void => {
    try {
      process.kill(-present(child.pid, 'a process'), 'SIGKILL');
    } catch {
      // It has ended already.
    }
  };
  process.once('exit', end);
  let errors = '';
  child.stderr?.setEncoding('utf8').on('data', (piece: string) => {
    errors = (errors + piece).slice(-4000);
  });
  await new Promise<void>((resolve, reject) => {
    child.once('message', () => resolve());
    child.once('exit', () => reject(new Error(`The process for ${target} did not start.\n${errors}`)));
  });
  child.once('exit', () => process.off('exit', end));
  child.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  return {
    ask: (asked) =>
      new Promise((resolve) => {
        const answers: Answer[] = [];
        const lose = (kind: Lost['kind'], detail: string): void => {
          finish({ kind, detail, ...caseIn(journal) });
          end();
        };
        const watch = setInterval(watcher(child, journal, limit, lose), LOOK_EVERY);
        const onMessage = (answer: Answer): void => {
          answers.push(answer);
          if (answer.kind === 'done' || 'one' in asked) finish();
        };
        const onExit = (code: number | null, signal: string | null): void => {
          lose('crash', `The process ended with ${code ?? signal}.\n${errors}`);
        };
        const finish = (lost?: Lost): void => {
          clearInterval(watch);
          child.off('message', onMessage);
          child.off('exit', onExit);
          resolve({ answers, ...(lost ? { lost } : {}) });
        };
        child.on('message', onMessage);
        child.prependOnceListener('exit', onExit);
        child.send(asked);
      }),
    stop: () => {
      if (child.connected) child.disconnect();
    },
  };
}

/** Looks whether the child is still at the same case, and what that has cost. */
function watcher(child: ChildProcess, journal: string, limit: number, lose: (kind: 'hang', detail: string) => void) {
  let at = { number: -1, cpu: 0, clock: 0 };
  return (): void => {
    const number = headOf(readFileSync(journal)).number;
    const cpu = processorSeconds(child.pid ?? 0);
    const clock = performance.now() / 1000;
    if (number !== at.number) at = { number, cpu: cpu ?? 0, clock };
    else if (cpu !== undefined && cpu - at.cpu > limit) lose('hang', `not done after ${limit} s of processor time`);
    else if (clock - at.clock > LONGEST_WAIT) lose('hang', `not done after ${LONGEST_WAIT} s`);
  };
}

/** User and system time of a process where the system tells it. */
function processorSeconds(pid: number): number | undefined {
  try {
    const [, ...fields] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ');
    const times = fields.join(') ').split(' ').slice(11, 13).map(Number);
    return times.reduce((sum, ticks) => sum + ticks, 0) / 100;
  } catch {
    return undefined;
  }
}

const HEAD = 46;

function headOf(bytes: Buffer): { number: number; place: number; length: number } {
  const head = bytes.subarray(0, HEAD).toString();
  const field = (index: number): number => Number(head.slice(15 * index, 15 * index + 15)) || 0;
  return { number: field(0), place: field(1), length: field(2) };
}

function caseIn(journal: string): { value: unknown; place: number } {
  const bytes = readFileSync(journal);
  const { place, length } = headOf(bytes);
  return { place, value: length === 0 ? undefined : JSON.parse(bytes.subarray(HEAD, HEAD + length).toString()) };
}
