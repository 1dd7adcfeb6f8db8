/** One process at a time writes to an output folder: the one that has made the lock file beside it. */
import { lstat, readFile, unlink, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import { errorCode } from '../../course/files.ts';
import { fieldOf } from '../../document/unknown.ts';

/** Takes the lock, or says which process holds it. A lock whose process is gone is taken over. */
export async function takeLock(lock: string): Promise<number | undefined> {
  const mine = JSON.stringify({ pid: process.pid, host: hostname() });
  for (let attempt = 0; attempt < 20; attempt++) {
    try {
      await writeFile(lock, mine, { flag: 'wx' });
      ours.add(lock);
      return undefined;
    } catch (error) {
      if (errorCode(error) !== 'EEXIST') throw error;
    }
    const holder = await readHolder(lock);
    if (holder !== undefined && (isOther(holder) ? isRunning(holder) : ours.has(lock))) return holder.pid;
    // A lock is empty for the moment between its making and its filling.
    if (holder === undefined && (await ageOf(lock)) < 2000) await sleep(200);
    else await unlink(lock).catch(() => undefined);
  }
  return (await readHolder(lock))?.pid ?? UNKNOWN;
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
