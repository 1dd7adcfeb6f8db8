/**
 * Puts a site in its folder whole or not at all. A build writes to a folder beside the target (same disk, so that a
 * rename is all it takes), and the two change places when it is done. Whatever happens on the way, the folder holds
 * either the last good site or the new one, and the next build clears up what a crashed one left behind.
 */
import { existsSync, type Stats } from 'node:fs';
import { lstat, mkdir, readdir, readFile, realpath, rename, rm, unlink, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { errorCode } from '../course/files.ts';
import { fieldOf } from '../document/unknown.ts';

/** Why a folder cannot be built to, in words for the author. */
export interface Refusal {
  readonly refused: string;
  readonly help?: string;
}

/** An output folder that a build has reserved. */
export interface Claim {
  /** Where the build writes: a new, empty folder. */
  readonly staging: string;
  readonly target: string;
  /** Makes what is in `staging` the site, to be under `base`. */
  publish(base: string): Promise<Refusal | undefined>;
  /** Gives the folder back, with the last good site as it was unless `publish` went before. */
  release(): Promise<void>;
}

/**
 * A file at the root of every site we make. It lists the site's files, so that no build removes what somebody else put
 * there.
 */
export const MANIFEST = '.reedway-site';

/** The list of published files, by which a later build knows what it may remove. */
export interface Manifest {
  readonly madeBy: 'Reedway';
  readonly base: string;
  readonly files: readonly string[];
}

/** The manifest of a site that Reedway built, or undefined for any other folder. */
export async function readManifest(folder: string): Promise<Manifest | undefined> {
  try {
    const value: unknown = JSON.parse(await readFile(join(folder, MANIFEST), 'utf8'));
    return isManifest(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

function isManifest(value: unknown): value is Manifest {
  const field = (key: keyof Manifest): unknown => fieldOf(value, key);
  return field('madeBy') === 'Reedway' && typeof field('base') === 'string' && Array.isArray(field('files'));
}

/** Files that file managers create in any folder they show. */
const LITTER: ReadonlySet<string> = new Set(['.DS_Store', 'Thumbs.db', 'desktop.ini']);

/** Reserves the folder of a build, or says why it must not be written to. */
export async function claimOutput(folder: string): Promise<Claim | Refusal> {
  let target = resolve(folder);
  try {
    target = await realpath(target);
  } catch (error) {
    if (errorCode(error) !== 'ENOENT') return unusable(target, error);
  }
  const parent = dirname(target);
  const name = basename(target);
  if (name === '') return { refused: `${target} is the root of a disk, not a folder for a site.` };
  const staging = join(parent, `.${name}.next`);
  const last = join(parent, `.${name}.last`);
  const lock = join(parent, `.${name}.lock`);

  try {
    await mkdir(parent, { recursive: true });
    const holder = await takeLock(lock);
    if (holder !== undefined) {
      return {
        refused: `Another build is writing to ${target}${holder === UNKNOWN ? '' : ` (process ${holder})`}.`,
        help: `Wait for it to finish, or give this one another folder with --out. If no build is running, remove ${lock}.`,
      };
    }
  } catch (error) {
    return unusable(
      parent,
      error,
      `Reedway builds beside the folder it publishes to, so it has to write in ${parent}.`,
    );
  }

  const release = async (): Promise<void> => {
    await rm(staging, { recursive: true, force: true }).catch(() => undefined);
    await unlink(lock).catch(() => undefined);
    ours.delete(lock);
  };
  const refuse = async (refusal: Refusal): Promise<Refusal> => {
    await release();
    return refusal;
  };

  try {
    // A build that died between the two renames of `publish` left the last good site under its spare name.
    if (existsSync(last)) {
      if (existsSync(target)) await rm(last, { recursive: true, force: true });
      else await rename(last, target);
    }
    await rm(staging, { recursive: true, force: true });
    const foreign = await strangers(target);
    if (foreign !== undefined) return await refuse(foreign);
    await mkdir(staging);
  } catch (error) {
    return await refuse(unusable(target, error));
  }

  return {
    staging,
    target,
    release,
    async publish(base) {
      try {
        const manifest: Manifest = { madeBy: 'Reedway', base, files: await filesOf(staging) };
        await writeFile(join(staging, MANIFEST), `${JSON.stringify(manifest, null, 1)}\n`);
        const before = existsSync(target);
        if (before) await rename(target, last);
        try {
          await rename(staging, target);
        } catch (error) {
          if (before) await rename(last, target);
          throw error;
        }
        await rm(last, { recursive: true, force: true });
        return undefined;
      } catch (error) {
        return unusable(target, error);
      }
    },
  };
}

/** Whether the output folder was refused. */
export const isRefusal = (value: Claim | Refusal): value is Refusal => 'refused' in value;

/** What a disk error (or its system code) means to somebody building a site. */
export function unusable(path: string, error: unknown, help?: string): Refusal {
  const because: Record<string, string> = {
    ENOSPC: 'the disk is full',
    EDQUOT: 'your share of the disk is used up',
    EROFS: 'the disk is read-only',
    EACCES: 'you may not write there',
    EPERM: 'you may not write there',
    ENOTDIR: 'part of the path is a file, not a folder',
    EEXIST: 'part of the path is a file, not a folder',
    EBUSY: 'another program has it open',
    EXDEV: 'it is the root of a disk of its own; build to a folder inside it',
    ENAMETOOLONG: 'the name is too long',
  };
  const code = typeof error === 'string' ? error : errorCode(error);
  const reason = (code !== undefined && because[code]) || (error instanceof Error ? error.message : String(error));
  return { refused: `${path} cannot be written: ${reason}.`, ...(help === undefined ? {} : { help }) };
}

/** Refuses a folder that holds files we did not put there: they would be lost in the swap. */
async function strangers(target: string): Promise<Refusal | undefined> {
  let stat: Stats;
  try {
    stat = await lstat(target);
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
  if (!stat.isDirectory()) return { refused: `${target} is a file, not a folder.` };
  const names = (await readdir(target)).filter((name) => !LITTER.has(name));
  if (names.length === 0) return undefined;
  const manifest = await readManifest(target);
  if (manifest === undefined) {
    return {
      refused: `${target} is not empty and is not a site made by Reedway, so it was left alone.`,
      help: 'Name a new or empty folder with --out.',
    };
  }
  const ours = new Set(manifest.files);
  const foreign = (await filesOf(target)).filter((file) => !ours.has(file));
  if (foreign.length === 0) return undefined;
  const few = foreign.slice(0, 3).join(', ');
  return {
    refused: `${target} holds files that Reedway did not put there (${few}${foreign.length > 3 ? `, and ${foreign.length - 3} more` : ''}), and a build would remove them.`,
    help: "Move them to the course's public folder, which is copied into every build, or take them away.",
  };
}

/** Every file below a folder, relative and with forward slashes, in a fixed order. */
async function filesOf(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory() && !LITTER.has(entry.name))
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((file) => file !== MANIFEST)
    .sort();
}

/** Takes the lock, or says which process holds it. A lock whose process is gone is taken over. */
async function takeLock(lock: string): Promise<number | undefined> {
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
const UNKNOWN = 0;

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
    if (typeof value !== 'object' || value === null || !('pid' in value) || !('host' in value)) return undefined;
    return typeof value.pid === 'number' && typeof value.host === 'string'
      ? { pid: value.pid, host: value.host }
      : undefined;
  } catch {
    return undefined;
  }
}

/** The locks this process holds. In a container, a build that crashed may have had our own process number. */
const ours = new Set<string>();

const isOther = ({ pid, host }: Holder): boolean => host !== hostname() || pid !== process.pid;

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
