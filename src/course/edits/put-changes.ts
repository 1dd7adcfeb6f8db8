/** Writes changes of files onto the disk: all of them, or none. */
import { randomBytes } from 'node:crypto';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { reasonOf } from '../files.ts';
import { LESSONS } from '../folder.ts';
import type { FileChange } from './change.ts';

/** Why nothing was written, in sentences. */
export class NotChanged extends Error {
  override readonly name = 'NotChanged';
}

interface Job {
  readonly change: FileChange;
  /** The file itself, where a link of that name leads. */
  readonly path: string;
  readonly partial: string;
}

/** Steps between which a test makes something fail. */
export type WriteStep = (what: 'prepared' | 'written' | 'moved', file: string) => void;

/**
 * Writes every changed file under another name first; then each takes its place, and a file that is moved gets its new name
 * last. Throws {@link NotChanged} where a file is no longer what was read or something fails, and then leaves every file as it was.
 */
export function putChanges(dir: string, changes: readonly FileChange[], step: WriteStep = () => {}): void {
  const undo: (() => void)[] = [];
  let current = '';
  try {
    const moves = changes.flatMap(({ file, to = file }) => (to === file ? [] : [{ file, to }]));
    for (const { file, to } of moves) checkMove(dir, file, to);
    const written = changes.filter(({ before, after }) => !before.equals(after));
    current = written[0]?.file ?? '';
    const jobs = once(dir, written).map((change) => {
      current = change.file;
      return prepare(dir, change, undo, step);
    });
    for (const job of jobs) {
      current = job.change.file;
      checkUnchanged(job);
      undo.push(() => replace(job.path, job.change.before));
      renameSync(job.partial, job.path);
      step('written', current);
    }
    for (const { file, to } of moves) {
      current = file;
      const [from, target] = [join(dir, file), join(dir, to)];
      const made = mkdirSync(dirname(target), { recursive: true });
      if (made !== undefined) undo.push(() => removeEmptyFolders(dir, dirname(to)));
      undo.push(() => {
        if (!existsSync(from)) renameSync(target, from);
      });
      renameSync(from, target);
      step('moved', file);
    }
    for (const { file } of moves) removeEmptyFolders(dir, dirname(file));
  } catch (error) {
    const left: string[] = [];
    for (const one of undo.reverse()) {
      try {
        one();
      } catch (second) {
        left.push(reasonOf(second));
      }
    }
    const after = left.length > 0 ? ` Not everything could be put back: ${left.join('; ')}.` : ' Nothing was changed.';
    const why = error instanceof NotChanged ? error.message : `${current} cannot be written: ${reasonOf(error)}.`;
    throw new NotChanged(`${why}${after}`);
  }
}

function prepare(dir: string, change: FileChange, undo: (() => void)[], step: WriteStep): Job {
  const path = realpathSync(join(dir, change.file));
  const job = { change, path, partial: partialOf(path) };
  checkUnchanged(job);
  // Where a file takes the place of another, the machine does not ask.
  if ((statSync(path).mode & 0o222) === 0) throw new NotChanged(`${change.file} is protected against changes.`);
  undo.push(() => rmSync(job.partial, { force: true }));
  writeFileSync(job.partial, change.after, { mode: statSync(path).mode });
  step('prepared', change.file);
  return job;
}

/** Without the second of two names of one file, of which one is a link. */
function once(dir: string, changes: readonly FileChange[]): FileChange[] {
  const byPath = new Map<string, FileChange>();
  for (const change of changes) {
    const path = realpathSync(join(dir, change.file));
    const first = byPath.get(path) ?? change;
    if (!first.after.equals(change.after))
      throw new NotChanged(`${first.file} and ${change.file} are one file, which cannot be both.`);
    byPath.set(path, first);
  }
  return [...byPath.values()];
}

const partialOf = (path: string): string => `${path}.${process.pid}-${randomBytes(4).toString('hex')}.partial`;

function checkUnchanged({ change: { file, before }, path }: Job): void {
  if (readFileSync(path).equals(before)) return;
  throw new NotChanged(`${file} has changed since it was read. Save your work there, and give the command again.`);
}

function replace(path: string, content: Buffer): void {
  const partial = partialOf(path);
  writeFileSync(partial, content, { mode: statSync(path).mode });
  renameSync(partial, path);
}

/** Throws where a file is in the way of the new name, or where moving what is there would break it. */
function checkMove(dir: string, file: string, to: string): void {
  const [from, target] = [join(dir, file), join(dir, to)];
  const there = lstatSync(target, { throwIfNoEntry: false });
  const own = lstatSync(from);
  // On a machine that ignores case, the file itself is there under its new name.
  if (there && there.ino !== own.ino) throw new NotChanged(`There is a file ${to} already.`);
  if (own.isSymbolicLink() && dirname(from) !== dirname(target))
    throw new NotChanged(`${file} is a link to another file, which would lead elsewhere from another folder.`);
}

/** The folders a lesson left behind empty. */
function removeEmptyFolders(dir: string, folder: string): void {
  for (let at = folder; at.startsWith(`${LESSONS}/`); at = dirname(at)) {
    try {
      rmdirSync(join(dir, at));
    } catch {
      return;
    }
  }
}
