/** What a course asks of its files is answered alike by a disk and by a table in memory. */
import { describe, expect, test } from 'vitest';
import { errorCode, type Files, filesOnDisk } from '../../src/course/files.ts';
import { loadFrom } from '../../src/course/load.ts';
import { type FileTable, filesInMemory } from './files-in-memory.ts';
import { folderOf, lesson } from './some-course.ts';

const TABLE: FileTable = {
  'course.yaml': 'title: A course\n',
  'lessons/b.mdx': lesson('```tab\n.8\n```\n'),
  'lessons/a/c.mdx': lesson("```tab\n-2'''' =7\n```\n"),
  'lessons/.hidden.mdx': 'x',
  'lessons/.git/x.mdx': 'x',
  'lessons/notes.txt': 'x',
  'media/bytes.bin': Uint8Array.from([0, 255, 1, 2]),
  techniques: 'no folder',
};
const KINDS: readonly (readonly [string, (table: FileTable) => Files])[] = [
  ['a disk', (table) => filesOnDisk(folderOf(table))],
  ['memory', (table) => filesInMemory(table)],
];

const codeOf = (ask: () => unknown): string | undefined => {
  try {
    ask();
  } catch (error) {
    return errorCode(error);
  }
  return 'nothing thrown';
};

describe.each(KINDS)('files in %s', (_, filesOf) => {
  const files = filesOf(TABLE);
  test('are a folder', () => expect(files.kind()).toBe('folder'));
  test('are read as bytes', () => expect([...files.read('media/bytes.bin')]).toEqual([0, 255, 1, 2]));
  test('are missed and distinguished from folders', () => {
    expect([codeOf(() => files.read('gone')), codeOf(() => files.read('lessons'))]).toEqual(['ENOENT', 'EISDIR']);
  });
  test('are listed below a folder in order, without hidden ones', () => {
    const failed: string[] = [];
    expect(files.list('lessons', (file) => failed.push(file))).toEqual([
      'lessons/a/c.mdx',
      'lessons/b.mdx',
      'lessons/notes.txt',
    ]);
    expect(files.list('gone', (file) => failed.push(file))).toEqual([]);
    expect(failed).toEqual([]);
  });
  test('are reported where a file is in a folder’s place', () => {
    const failed: (string | undefined)[] = [];
    files.list('techniques', (file, error) => failed.push(file, errorCode(error)));
    expect(failed).toEqual(['techniques', 'ENOTDIR']);
  });
  test('are read in parts, and short where they end', () => {
    const parts = files.measure('media/bytes.bin', ({ size, read }) => [size, [...read(1, 2)], [...read(3, 9)]]);
    expect(parts).toEqual([4, [255, 1], [2]]);
    expect(files.measure('gone', () => 1)).toBeUndefined();
  });
});

test('a course is the same from both', () => {
  const [disk, memory] = KINDS.map(([, filesOf]) => loadFrom(filesOf(TABLE)));
  expect(memory?.problems).toEqual(disk?.problems);
  expect(memory?.problems.length).toBeGreaterThan(0);
  expect(memory?.lessons.map(({ id, source }) => [id, source])).toEqual(
    disk?.lessons.map(({ id, source }) => [id, source]),
  );
});
