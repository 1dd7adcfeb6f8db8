/** What a course asks of its files is answered alike by a disk and by a table in memory. */
import { execFileSync } from 'node:child_process';
import { symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { errorCode, type Files, filesOnDisk } from '../../src/course/files.ts';
import { loadCourse, loadFrom } from '../../src/course/load.ts';
import { type FileTable, filesInMemory } from './files-in-memory.ts';
import { courseOf, folderOf, lesson } from './some-course.ts';

const TABLE: FileTable = {
  'course.yaml': 'title: A course\n',
  'lessons/b.mdx': lesson('```tab\n.8\n```\n'),
  'lessons/a/c.mdx': lesson("```tab\n-2'''' =7\n```\n"),
  'lessons/.hidden.mdx': 'x',
  'lessons/.git/x.mdx': 'x',
  'lessons/notes.txt': 'x',
  'media/bytes.bin': Uint8Array.from([0, 255, 1, 2]),
  'public/.well-known/security.txt': 'Contact: mailto:someone@example.org\n',
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
  test('are listed with hidden ones where a server may need them', () => {
    const failed: string[] = [];
    expect(files.list('public', (file) => failed.push(file), 'hidden')).toEqual(['public/.well-known/security.txt']);
    expect(files.list('public', (file) => failed.push(file))).toEqual([]);
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

describe('on a disk', () => {
  const reasonsIn = (dir: string): string[] =>
    loadCourse(dir)
      .problems.filter(({ code }) => code === 'file-unreadable')
      .map(({ file, message }) => `${file}: ${message}`);

  test('a pipe is refused, not waited for', () => {
    const dir = courseOf();
    execFileSync('mkfifo', [join(dir, 'lessons/pipe.mdx'), join(dir, 'techniques.yaml')]);
    expect(reasonsIn(dir)).toEqual([
      'lessons/pipe.mdx: This cannot be read: it is neither a file nor a folder.',
      'techniques.yaml: This cannot be read: it is neither a file nor a folder.',
    ]);
  });

  test('a link out of the course is refused, and one within it is followed', () => {
    const dir = courseOf({ 'media/own.txt': 'own' });
    symlinkSync(courseOf(), join(dir, 'media/folder'));
    symlinkSync(join(courseOf(), 'course.yaml'), join(dir, 'media/file.yaml'));
    symlinkSync(join(dir, 'media/own.txt'), join(dir, 'media/link.txt'));
    expect(reasonsIn(dir)).toEqual([
      'media/file.yaml: This cannot be read: it is a link to something outside of the course.',
      'media/folder: This cannot be read: it is a link to something outside of the course.',
    ]);
    expect(loadCourse(dir).media).toEqual(['media/link.txt', 'media/own.txt']);
  });

  test('a name that cannot be shown is reported, without the characters a terminal would obey', () => {
    const dir = courseOf();
    writeFileSync(join(dir, 'lessons', 'red\u{1b}[31m.mdx'), lesson());
    writeFileSync(
      Buffer.concat([Buffer.from(join(dir, 'lessons/caf')), Buffer.from([0xe9]), Buffer.from('.mdx')]),
      lesson(),
    );
    expect(reasonsIn(dir)).toEqual([
      'lessons/caf\u{FFFD}.mdx: This cannot be read: its name is not UTF-8 text.',
      'lessons/red\u{FFFD}[31m.mdx: This cannot be read: its name has a control character.',
    ]);
  });
});
