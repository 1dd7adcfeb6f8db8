/**
 * Puts a finished site in the place of the one before it. No system call that Node offers exchanges two folders, so two renames do
 * it, with a journal beside them: a file that is there from before the first rename until after the second. Anyone who finds it later
 * knows that the new site is complete and takes the steps that are left.
 */
import { existsSync } from 'node:fs';
import { realpath, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { errorCode } from '../../course/files.ts';
import { releaseLock, takeLock } from './lock.ts';
import { foreignFiles, MANIFEST, readManifest } from './manifest.ts';

/** The output folder and what a build has beside it, on the same disk. */
export interface OutputPlaces {
  readonly target: string;
  /** Where a build writes. */
  readonly staging: string;
  /** Where the site before is while the new one takes its place. */
  readonly last: string;
  readonly journal: string;
  readonly lock: string;
}

/** The places of an output folder, given as an absolute path without links. */
export function placesOf(target: string): OutputPlaces {
  const beside = (ending: string): string => join(dirname(target), `.${basename(target)}.${ending}`);
  return {
    target,
    staging: beside('next'),
    last: beside('last'),
    journal: beside('journal'),
    lock: beside('lock'),
  };
}

/** Whether a path is one that a build has beside another output folder. */
export const isBesideOutput = (path: string): boolean =>
  /^\..+\.(?:next|last|journal|lock(?:-guard)?)$/.test(basename(path));

/** Publishes the site in `staging`, which has its manifest. The caller holds the lock. Rejects if the disk does; the old site is then back. */
export async function swapIn(places: OutputPlaces): Promise<void> {
  await writeFile(places.journal, '');
  await exchange(places);
}

/**
 * Ends a swap that was interrupted, and removes what is left of one. The caller holds the lock. A folder into which somebody put
 * files of their own in the meantime stays as it is.
 */
export async function finishSwap(places: OutputPlaces): Promise<void> {
  const { target, staging, last, journal } = places;
  const isComplete = existsSync(journal) && (await readManifest(staging)) !== undefined;
  if (isComplete && (await foreignFiles(target)).length === 0) {
    await exchange(places);
    return;
  }
  if (!existsSync(target) && (await readManifest(last))) await rename(last, target);
  await clear(places);
}

/** Ends an interrupted swap of a folder that nobody is writing to. */
export async function recoverOutput(folder: string): Promise<void> {
  const places = placesOf(await realFolder(folder));
  if (!existsSync(places.journal) && (existsSync(places.target) || !existsSync(places.last))) return;
  if ((await takeLock(places.lock)) !== undefined) return;
  try {
    await finishSwap(places);
  } finally {
    await releaseLock(places.lock);
  }
}

/** A folder by its absolute path without links, also where it is not there yet. */
export async function realFolder(folder: string): Promise<string> {
  const path = resolve(folder);
  try {
    return await realpath(path);
  } catch (error) {
    if (errorCode(error) !== 'ENOENT' || dirname(path) === path) throw error;
    return join(await realFolder(dirname(path)), basename(path));
  }
}

async function exchange(places: OutputPlaces): Promise<void> {
  const { target, staging, last } = places;
  if (existsSync(target)) {
    await rm(last, { recursive: true, force: true });
    await rename(target, last);
  }
  try {
    await rename(staging, target);
  } catch (error) {
    if (existsSync(last)) await rename(last, target);
    await clear(places);
    throw error;
  }
  await clear(places);
}

/** The journal and the manifest of the old site go first: a site that is half removed is never put back. */
async function clear({ last, journal }: OutputPlaces): Promise<void> {
  await rm(journal, { force: true });
  await rm(join(last, MANIFEST), { force: true });
  await rm(last, { recursive: true, force: true });
}
