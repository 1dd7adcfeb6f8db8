/** The files of a course as something can list and read them: a folder on the disk, or a table in memory. */
import {
  closeSync,
  type Dirent,
  fstatSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  statSync,
} from 'node:fs';
import { isAbsolute, join, relative, sep } from 'node:path';
import type { Bytes } from './clips/recording.ts';

/** Paths are relative to the course folder, with forward slashes. */
export interface Files {
  /** Absolute path of the course folder. */
  readonly dir: string;
  kind(): 'folder' | 'file' | 'missing' | { readonly error: unknown };
  /** How many bytes a file has. Throws what `node:fs` throws, and for what is no regular file. */
  size(file: string): number;
  /** The bytes of a file. Throws as `size` does. */
  read(file: string): Buffer;
  /** What a reader of parts finds in a file; undefined where the file cannot be read or ends too early for it. */
  measure<Result>(file: string, reader: (bytes: Bytes) => Result): Result | undefined;
  /** The names of the files and folders directly in the course folder; none where it cannot be read. */
  names(): readonly string[];
  /**
   * The files below a folder of the course, in order, without hidden ones unless they are asked for. What cannot be read, lies outside of the course or has
   * a name that cannot be shown is reported to `failed`.
   */
  list(folder: string, failed: (file: string, error: unknown) => void, hidden?: 'hidden'): string[];
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
  size: (file) => sizeOf(join(dir, file)),
  read(file) {
    sizeOf(join(dir, file));
    return readFileSync(join(dir, file));
  },
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
  names() {
    try {
      return readdirSync(dir).sort();
    } catch {
      return [];
    }
  },
  list(top, failed, hidden) {
    const found: string[] = [];
    const waiting = [top];
    const seen = new Set<string>();
    for (let folder = waiting.pop(); folder !== undefined; folder = waiting.pop()) {
      try {
        // A link to a folder above would be followed for ever.
        const real = realpathSync(join(dir, folder));
        if (seen.has(real)) continue;
        seen.add(real);
        for (const entry of readdirSync(real, { withFileTypes: true, encoding: 'buffer' })) {
          const written = entry.name.toString('utf8');
          if (written.startsWith('.') && !hidden) continue;
          const name = `${folder}/${written.replace(CONTROL, '\u{FFFD}')}`;
          try {
            checkName(entry.name, written);
            const target = entry.isSymbolicLink() ? targetOf(join(dir, name), dir) : entry;
            if (target.isDirectory()) waiting.push(name);
            else if (target.isFile()) found.push(name);
            else throw new Error(NOT_A_FILE);
          } catch (error) {
            failed(name, error);
          }
        }
      } catch (error) {
        if (errorCode(error) !== 'ENOENT' || folder !== top) failed(folder, error);
      }
    }
    return found.sort();
  },
});

const NOT_A_FILE = 'it is neither a file nor a folder';

/** The size of a file. Reading a pipe or a device would never end, so what is no regular file throws. */
function sizeOf(path: string): number {
  const found = statSync(path);
  if (!found.isFile() && !found.isDirectory()) throw new Error(NOT_A_FILE);
  return found.size;
}

/** Characters that a terminal obeys instead of showing them. */
const CONTROL = /[\p{Cc}\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu;

/** Throws for a name that cannot be part of an address or of a message. */
function checkName(bytes: Buffer, name: string): void {
  if (!Buffer.from(name).equals(bytes)) throw new Error('its name is not UTF-8 text');
  if (name.search(CONTROL) >= 0) throw new Error('its name has a control character');
}

/** What a link leads to. Throws where it leads nowhere, or out of the course, which would publish what is not part of it. */
function targetOf(link: string, dir: string): Pick<Dirent, 'isDirectory' | 'isFile'> {
  const target = statSync(link);
  if (!isWithin(realpathSync(dir), realpathSync(link)))
    throw new Error('it is a link to something outside of the course');
  return target;
}

/** Whether a path is a folder or below it. Both are absolute, without links. */
export function isWithin(folder: string, path: string): boolean {
  const inside = relative(folder, path);
  return inside !== '..' && !inside.startsWith(`..${sep}`) && !isAbsolute(inside);
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
  ['ENOSPC', 'the disk is full'],
  ['EROFS', 'the disk is read-only'],
  ['ENAMETOOLONG', 'its name is too long'],
]);

/** Why a file cannot be read or written, in words that end a sentence. */
export const reasonOf = (error: unknown): string =>
  REASONS.get(errorCode(error) ?? '') ?? (error instanceof Error ? error.message : String(error));
