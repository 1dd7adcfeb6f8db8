/** Where exported files go, and how they get there: all of them or none. */
import { mkdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { reasonOf } from '../../course/files.ts';
import { UsageError } from '../command.ts';

/** A file to write. */
export interface NewFile {
  /** Relative to the folder of the export, with forward slashes. */
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** A folder for files that have names already, or the one file to write. */
export type Destination = { readonly folder: string } | { readonly file: string };

/**
 * What `path` means for so many files: a file if it ends as files of the format do, else a folder. Throws a UsageError where
 * several files would have one name.
 */
export function destinationOf(path: string, extension: string, count: number, cwd: string): Destination {
  const whole = resolve(cwd, path);
  const isFile = path.toLowerCase().endsWith(extension) && !isFolder(whole);
  if (!isFile) return { folder: whole };
  if (count > 1) throw new UsageError(`--out names one file, but ${count} blocks are to be written. Name a folder.`);
  return { file: whole };
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}

/** Why nothing was written, in words for the user. */
export class CannotWrite extends Error {
  override readonly name = 'CannotWrite';
}

/**
 * Writes the files, each under another name first: when all are there, they take the place of what had their names. Throws
 * {@link CannotWrite} where that fails, and leaves the disk as it was. The paths that were written.
 */
export function putFiles(destination: Destination, files: readonly NewFile[]): string[] {
  const jobs = files.map(({ name, content }) => {
    const path = 'file' in destination ? destination.file : join(destination.folder, name);
    return { path, partial: `${path}.${process.pid}.partial`, content };
  });
  const made: string[] = [];
  let current = '';
  try {
    for (const { path, partial, content } of jobs) {
      current = path;
      const first = mkdirSync(dirname(path), { recursive: true });
      if (first !== undefined) made.unshift(first);
      if (isFolder(path)) throw new CannotWrite(`${path} cannot be written: it is a folder.`);
      made.unshift(partial);
      writeFileSync(partial, content);
    }
    for (const { path, partial } of jobs) {
      current = path;
      renameSync(partial, path);
    }
  } catch (error) {
    // What was made last goes first: a folder is empty by then, unless it was there before.
    for (const path of made) rmSync(path, { recursive: true, force: true });
    if (error instanceof CannotWrite) throw error;
    throw new CannotWrite(`${current} cannot be written: ${reasonOf(error)}.`);
  }
  return jobs.map(({ path }) => path);
}
