/** One process at a time writes to an output folder: the one that has made the lock file beside it. */
import { lstat, readFile, unlink, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import { errorCode } from '../../course/files.ts';
import { fieldOf } from '../../document/unknown.ts';

/** How often the lock is tried for: in all as long as a guard may be left, and more. */
const TRIES = 40;

/** Takes the lock, or says which process holds it. A lock whose process is gone is taken over. */
export async function takeLock(lock: string): Promise<number | undefined> {
  const mine = JSON.stringify({ pid: process.pid, host: hostname() });
  for (let attempt = 0; attempt < TRIES; attempt++) {
    if (await make(lock, mine)) {
      ours.add(lock);
      return undefined;
    }
    const state = await stateOf(lock);
    if (typeof state === 'object') return state.pid;
    if (state === 'new') await sleep(200);
    else await removeLeft(lock);
  }
  return (await readHolder(lock))?.pid ?? UNKNOWN;
}

/** Makes a file, unless there is one. */
async function make(file: string, text: string): Promise<boolean> {
  try {
    await writeFile(file, text, { flag: 'wx' });
    return true;
  } catch (error) {
    if (errorCode(error) === 'EEXIST') return false;
    // On a full disk there is a file now, with nothing in it.
    await unlink(file).catch(() => undefined);
    throw error;
  }
}

/** Milliseconds: a lock is empty for the moment between its making and its filling. */
const MOMENT = 2000;

/** Who holds a lock; `new` where that may not yet be written, and `left` where nobody does. */
async function stateOf(lock: string): Promise<Holder | 'new' | 'left'> {
  const holder = await readHolder(lock);
  if (holder === undefined) return (await ageOf(lock)) < MOMENT ? 'new' : 'left';
  return (isOther(holder) ? isRunning(holder) : ours.has(lock)) ? holder : 'left';
}

/**
 * Removes a lock that nobody holds. One process at a time does, and looks again before: another may have done so in the meantime
 * and hold the lock now.
 */
async function removeLeft(lock: string): Promise<void> {
  const guard = `${lock}-guard`;
  if (!(await make(guard, ''))) {
    // A process that was killed in here leaves its guard.
    if ((await ageOf(guard)) < MOMENT) await sleep(50 + Math.random() * 50);
    else await unlink(guard).catch(() => undefined);
    return;
  }
  try {
    if ((await stateOf(lock)) === 'left') await unlink(lock).catch(() => undefined);
  } finally {
    await unlink(guard).catch(() => undefined);
  }
}

/** The holder of a lock that says none. */
export const UNKNOWN = 0;

const ageOf = async (file: string): Promise<number> =>
  lstat(file).then(
    (stat) => Date.now() - stat.mtimeMs,
    () => Number.POSITIVE_INFINITY,
  );

interface Holder {
  readonly pid: number;
  readonly host: string;
}

async function readHolder(lock: string): Promise<Holder | undefined> {
  try {
    const value: unknown = JSON.parse(await readFile(lock, 'utf8'));
    const [pid, host] = [fieldOf(value, 'pid'), fieldOf(value, 'host')];
    return typeof pid === 'number' && typeof host === 'string' ? { pid, host } : undefined;
  } catch {
    return undefined;
  }
}

/** The locks this process holds. In a container, a build that crashed may have had our own process number. */
const ours = new Set<string>();

const isOther = ({ pid, host }: Holder): boolean => host !== hostname() || pid !== process.pid;

/** Gives back a lock that this process has taken. */
export async function releaseLock(lock: string): Promise<void> {
  await unlink(lock).catch(() => undefined);
  ours.delete(lock);
}

/** A process on another machine (a shared disk) cannot be asked, and counts as running. */
function isRunning({ pid, host }: Holder): boolean {
  if (host !== hostname()) return true;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return errorCode(error) === 'EPERM';
  }
}
