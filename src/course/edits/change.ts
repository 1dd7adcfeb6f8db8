/** Changes of a course's text files as data: what the course would be with them, how they are shown, and how they get onto the disk. */
import { readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createTwoFilesPatch, FILE_HEADERS_ONLY } from 'diff';
import { type Files, reasonOf } from '../files.ts';

/** A file of a course before and after it is edited. */
export interface FileChange {
  /** Relative to the course folder, with forward slashes. */
  readonly file: string;
  /** What it was read as: its bytes, whatever they are. */
  readonly before: Buffer;
  readonly after: Buffer;
}

/** The bytes of a text in place of others: a byte order mark stays. */
export function encodeLike(before: Buffer, text: string): Buffer {
  const mark = before.subarray(0, 3).equals(MARK) ? MARK : Buffer.alloc(0);
  return Buffer.concat([mark, Buffer.from(text)]);
}

const MARK = Buffer.from('\ufeff');

/** The files of a course as they would be after some changes. */
export function withChanges(files: Files, changes: readonly FileChange[]): Files {
  const after = new Map(changes.map((change) => [change.file, change.after]));
  return {
    ...files,
    size: (file) => after.get(file)?.length ?? files.size(file),
    read: (file) => after.get(file) ?? files.read(file),
  };
}

/** Changes as a unified diff, which people and programs can read: three lines of context, files named from the course. */
export const diffOf = (changes: readonly FileChange[]): string =>
  changes
    .map(({ file, before, after }) =>
      createTwoFilesPatch(`a/${file}`, `b/${file}`, before.toString(), after.toString(), undefined, undefined, {
        context: 3,
        headerOptions: FILE_HEADERS_ONLY,
      }),
    )
    .join('');

/** Why nothing was written, in words for the user. */
export class NotChanged extends Error {
  override readonly name = 'NotChanged';
}

/**
 * Writes the changes onto the disk, all of them or none: each is written under another name first, and takes the place of its
 * file when all are there. Throws {@link NotChanged} where a file is no longer what it was when it was read, or cannot be written.
 */
export function putChanges(dir: string, changes: readonly FileChange[]): void {
  const jobs = changes.map((change) => {
    const path = join(dir, change.file);
    return { ...change, path, partial: `${path}.${process.pid}.partial` };
  });
  const replaced: typeof jobs = [];
  let current = '';
  try {
    for (const { file, path, partial, after } of jobs) {
      current = file;
      writeFileSync(partial, after, { flag: 'wx', mode: statSync(path).mode });
    }
    for (const { file, path, before } of jobs) {
      current = file;
      if (!readFileSync(path).equals(before))
        throw new NotChanged(`${file} was changed meanwhile. Nothing was written.`);
    }
    for (const job of jobs) {
      current = job.file;
      renameSync(job.partial, job.path);
      replaced.push(job);
    }
  } catch (error) {
    for (const { path, before } of replaced) writeFileSync(path, before);
    for (const { partial } of jobs) rmSync(partial, { force: true });
    if (error instanceof NotChanged) throw error;
    throw new NotChanged(`${current} cannot be written: ${reasonOf(error)}. Nothing was written.`);
  }
}
