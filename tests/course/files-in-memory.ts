/** The files of a course as a table in memory, for tests that have nothing to do with a disk. */
import type { Course } from '../../src/course/course.ts';
import type { Files } from '../../src/course/files.ts';
import { loadFrom } from '../../src/course/load.ts';
import { lesson } from './some-course.ts';

export type FileTable = Readonly<Record<string, string | Uint8Array>>;

const failure = (code: string): Error => Object.assign(new Error(code), { code });

/** Behaves as {@link Files} of a disk does, which `files.test.ts` holds both to. */
export function filesInMemory(table: FileTable, dir = '/a-course'): Files {
  const contents = new Map(Object.entries(table).map(([path, content]) => [path, Buffer.from(content)]));
  const isFolder = (path: string): boolean => [...contents.keys()].some((file) => file.startsWith(`${path}/`));
  const read = (file: string): Buffer => {
    const content = contents.get(file);
    if (content) return content;
    throw failure(isFolder(file) ? 'EISDIR' : 'ENOENT');
  };
  return {
    dir,
    kind: () => 'folder',
    size: (file) => read(file).length,
    read,
    measure(file, reader) {
      try {
        const bytes = read(file);
        // As from a disk, what lies past the end is zeros.
        const part = (from: number, length: number): Buffer => {
          const found = Buffer.alloc(length);
          bytes.copy(found, 0, from, Math.min(bytes.length, from + length));
          return found.subarray(0, Math.max(0, Math.min(length, bytes.length - from)));
        };
        return reader({ size: bytes.length, read: part });
      } catch {
        return undefined;
      }
    },
    names: () => [...new Set([...contents.keys()].map((path) => path.split('/')[0] ?? ''))].sort(),
    list(folder, failed, all) {
      if (contents.has(folder)) failed(folder, failure('ENOTDIR'));
      const hidden = (path: string): boolean => path.split('/').some((name) => name.startsWith('.'));
      return [...contents.keys()].filter((path) => path.startsWith(`${folder}/`) && (all || !hidden(path))).sort();
    },
  };
}

/** A course that is right, with what is given over it. */
export const courseInMemory = (table: FileTable = {}): Course =>
  loadFrom(filesInMemory({ 'course.yaml': 'title: A course\n', 'lessons/first.mdx': lesson('Hello.\n'), ...table }));
