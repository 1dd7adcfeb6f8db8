/** The files of a course as something can list and read them: a folder on the disk, or a table in memory. */
import { closeSync, fstatSync, openSync, readdirSync, readFileSync, readSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Bytes } from './clips/recording.ts';

/** Paths are relative to the course folder, with forward slashes. */
export interface Files {
  /** Absolute path of the course folder. */
  readonly dir: string;
  kind(): 'folder' | 'file' | 'missing' | { readonly error: unknown };
  /** The bytes of a file. Throws what `node:fs` throws. */
  read(file: string): Buffer;
  /** What a reader of parts finds in a file; undefined where the file cannot be read or ends too early for it. */
  measure<Result>(file: string, reader: (bytes: Bytes) => Result): Result | undefined;
  /** The files below a folder of the course, in order, without hidden ones. What cannot be read is reported to `failed`. */
  list(folder: string, failed: (file: string, error: unknown) => void): string[];
}

/** The files of a course folder on disk. */
export const filesOnDisk = (dir: string): Files => ({
  dir,
  kind() {
    try {
      return statSync(dir).isDirectory() ? 'folder' : 'file';
    } catch (error) {
      return errorCode(error) === 'ENOENT' ? 'missing' : { error };
    }
  },
  read: (file) => readFileSync(join(dir, file)),
  measure(file, reader) {
    try {
      const open = openSync(join(dir, file), 'r');
      try {
        const read = (from: number, length: number): Buffer => {
          const part = Buffer.alloc(length);
          return part.subarray(0, readSync(open, part, 0, length, from));
        };
        return reader({ size: fstatSync(open).size, read });
      } finally {
        closeSync(open);
      }
    } catch {
      // It is cut short, or cannot be read, which the build reports when it copies the file.
      return undefined;
    }
  },
  list(top, failed) {
    const found: string[] = [];
    const waiting = [top];
    const seen = new Set<string>();
    for (let folder = waiting.pop(); folder !== undefined; folder = waiting.pop()) {
      try {
        // A link to a folder above would be followed for ever.
        const real = realpathSync(join(dir, folder));
        if (seen.has(real)) continue;
        seen.add(real);
        for (const entry of readdirSync(real, { withFileTypes: true })) {
          if (entry.name.startsWith('.')) continue;
          const name = `${folder}/${entry.name}`;
          const target = entry.isSymbolicLink() ? targetOf(join(dir, name), (error) => failed(name, error)) : entry;
          if (target?.isDirectory()) waiting.push(name);
          else if (target) found.push(name);
        }
      } catch (error) {
        if (errorCode(error) !== 'ENOENT' || folder !== top) failed(folder, error);
      }
    }
    return found.sort();
  },
});

/** What a link leads to; undefined where it leads nowhere, which is reported. */
function targetOf(link: string, failed: (error: unknown) => void): { isDirectory(): boolean } | undefined {
  try {
    return statSync(link);
  } catch (error) {
    failed(error);
    return undefined;
  }
}

/** The code of an error of `node:fs`, such as `ENOENT`. */
export const errorCode = (error: unknown): string | undefined =>
  error instanceof Error && 'code' in error ? String(error.code) : undefined;

const REASONS: ReadonlyMap<string, string> = new Map([
  ['EACCES', 'its owner does not allow it'],
  ['EPERM', 'its owner does not allow it'],
  ['EISDIR', 'it is a folder'],
  ['ENOTDIR', 'it is no folder'],
  ['ELOOP', 'it is a link that leads back to itself'],
  ['ENOENT', 'it is a link to something that is not there'],
  ['EMFILE', 'too many files are open'],
  ['EIO', 'the disk reports an error'],
]);

/** Why a file cannot be read, in words that end a sentence. */
export const reasonOf = (error: unknown): string =>
  REASONS.get(errorCode(error) ?? '') ?? (error instanceof Error ? error.message : String(error));
