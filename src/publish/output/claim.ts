/**
 * Puts a site in its folder whole or not at all. A build writes to a folder beside the target (same disk, so that a
 * rename is all it takes), and the two change places when it is done. Whatever happens on the way, the folder holds
 * either the last good site or the new one, and the next build removes what a crashed one left behind.
 */
import type { Stats } from 'node:fs';
import { lstat, mkdir, readdir, rm } from 'node:fs/promises';
import { basename, dirname, resolve } from 'node:path';
import { errorCode, isWithin } from '../../course/files.ts';
import { releaseLock, takeLock, UNKNOWN } from './lock.ts';
import { foreignFiles, LITTER, readManifest, writeManifest } from './manifest.ts';
import { finishSwap, isBesideOutput, placesOf, realFolder, swapIn } from './swap.ts';

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
 * Reserves the folder of a build, or says why it must not be written to. It is not to be in a folder `apart` from it: what is in
 * one of those may be part of the next site.
 */
export async function claimOutput(folder: string, apart: readonly string[] = []): Promise<Claim | Refusal> {
  let target: string;
  try {
    target = await realFolder(folder);
    for (const other of apart) {
      if (isWithin(await realFolder(other), target)) {
        return {
          refused: `${target} is in ${other}, whose files belong to the course.`,
          help: 'Name a folder outside of it with --out.',
        };
      }
    }
  } catch (error) {
    return unusable(resolve(folder), error);
  }
  const parent = dirname(target);
  if (basename(target) === '') return { refused: `${target} is the root of a disk, not a folder for a site.` };
  const places = placesOf(target);
  const { staging, lock } = places;
  if (isBesideOutput(target)) {
    return {
      refused: `${target} has a name that builds to another folder use, and would be removed by one.`,
      help: 'Give it another name with --out.',
    };
  }

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

  let publishing: Promise<unknown> | undefined;
  const release = async (): Promise<void> => {
    // A build that is stopped while the folders change places ends that first.
    await publishing;
    await rm(staging, { recursive: true, force: true }).catch(() => undefined);
    await releaseLock(lock);
  };
  const refuse = async (refusal: Refusal): Promise<Refusal> => {
    await release();
    return refusal;
  };

  try {
    await finishSwap(places);
    await rm(staging, { recursive: true, force: true });
    const foreign = await strangers(target);
    if (foreign !== undefined) return await refuse(foreign);
    await mkdir(staging);
  } catch (error) {
    return await refuse(unusable(target, error));
  }

  const swap = async (base: string): Promise<Refusal | undefined> => {
    try {
      await writeManifest(staging, base);
      // Somebody may have put a file there while the site was built.
      const foreign = await strangers(target);
      if (foreign === undefined) await swapIn(places);
      return foreign;
    } catch (error) {
      return unusable(target, error);
    }
  };
  return {
    staging,
    target,
    release,
    publish(base) {
      const swapped = swap(base);
      publishing = swapped;
      return swapped;
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
  if ((await readManifest(target)) === undefined) {
    return {
      refused: `${target} is not empty and is not a site made by Reedway, so it was left alone.`,
      help: 'Name a new or empty folder with --out.',
    };
  }
  const foreign = await foreignFiles(target);
  if (foreign.length === 0) return undefined;
  const few = foreign.slice(0, 3).join(', ');
  return {
    refused: `${target} holds files that Reedway did not put there (${few}${foreign.length > 3 ? `, and ${foreign.length - 3} more` : ''}), and a build would remove them.`,
    help: "Move them to the course's public folder, which is copied into every build, or take them away.",
  };
}
