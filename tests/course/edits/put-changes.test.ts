/** Changed and moved files on a disk: all of them or none, whatever happens on the way. */
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { NotChanged, putChanges, type WriteStep } from '../../../src/course/edits/put-changes.ts';
import { filesOnDisk } from '../../../src/course/files.ts';
import { fileChanges } from '../../../src/course/rename/plan.ts';
import { AWKWARD } from '../rename/awkward-course.ts';
import { loaded, planOf } from '../rename/renamed.ts';
import { folderOf } from '../some-course.ts';

const WALK = { kind: 'lesson', lesson: 'deep/walk' } as const;

/** A course on the disk, and the changes of a rename that moves a lesson to a folder of its own. */
function course() {
  const dir = folderOf(AWKWARD);
  const before = loaded(filesOnDisk(dir));
  const changes = fileChanges(before.files, planOf(before, WALK, 'new/folder/walk').changes);
  return { dir, changes, before: bytesIn(dir) };
}

/** Everything in a folder, by path. */
const bytesIn = (dir: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(dir, { recursive: true, withFileTypes: true }).map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return [path, entry.isDirectory() ? 'folder' : readFileSync(path, 'latin1')];
    }),
  );

describe('the files of a rename', () => {
  test('are all written, the lesson in its new folder, and nothing is left beside them', () => {
    const { dir, changes, before } = course();
    putChanges(dir, changes);
    for (const { file, to = file, after } of changes) expect(readFileSync(join(dir, to))).toEqual(after);
    expect(existsSync(join(dir, 'lessons/deep/walk.mdx'))).toBe(false);
    expect(Object.keys(bytesIn(dir)).filter((path) => path.endsWith('.partial'))).toEqual([]);
    // A byte order mark stays, and so does every other file.
    expect(readFileSync(join(dir, 'lessons/walk.mdx'), 'utf8')).toMatch(/^\ufeff/);
    expect(readFileSync(join(dir, 'course.yaml'), 'latin1')).toBe(before[join(dir, 'course.yaml')]);
  });

  test('keep their permissions, and a link stays a link', () => {
    const { dir, changes } = course();
    const real = join(dir, 'lessons/real.txt');
    const link = join(dir, 'lessons/walk-on.mdx');
    writeFileSync(real, readFileSync(link));
    chmodSync(real, 0o600);
    unlinkSync(link);
    symlinkSync(real, link);
    putChanges(dir, changes);
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(statSync(real).mode & 0o777).toBe(0o600);
    expect(readFileSync(real, 'utf8')).toContain('new/folder/walk');
  });

  test('leave no folder that they made empty', () => {
    const dir = folderOf({ ...AWKWARD, 'lessons/alone/one.mdx': '---\ntitle: One\n---\n' });
    const before = loaded(filesOnDisk(dir));
    putChanges(dir, fileChanges(before.files, planOf(before, { kind: 'lesson', lesson: 'alone/one' }, 'one').changes));
    expect(existsSync(join(dir, 'lessons/alone'))).toBe(false);
  });

  const STEPS = course().changes.length * 2 - 1;
  test.each(Array.from({ length: STEPS }, (_, index) => index))('are as they were when step %i fails', (index) => {
    const { dir, changes, before } = course();
    let at = 0;
    const failing: WriteStep = () => {
      if (at++ === index) throw Object.assign(new Error('no room'), { code: 'ENOSPC' });
    };
    expect(() => putChanges(dir, changes, failing)).toThrow(
      /cannot be written: the disk is full\. Nothing was changed\.$/,
    );
    expect(bytesIn(dir)).toEqual(before);
  });

  test('are not written over what was saved meanwhile, before or while they are prepared', () => {
    for (const when of ['before', 'prepared', 'written'] as const) {
      const { dir, changes } = course();
      const file = join(dir, 'lessons/walk-on.mdx');
      const save = () => writeFileSync(file, `${readFileSync(file, 'utf8')}\nMore.\n`);
      if (when === 'before') save();
      let saved: Record<string, string> | undefined = when === 'before' ? bytesIn(dir) : undefined;
      const original = bytesIn(dir);
      const step: WriteStep = (what, name) => {
        if (saved || what !== when || name === 'lessons/walk-on.mdx') return;
        save();
        saved = { ...original, [file]: readFileSync(file, 'latin1') };
      };
      expect(() => putChanges(dir, changes, step)).toThrow('lessons/walk-on.mdx has changed since it was read.');
      expect(bytesIn(dir)).toEqual(saved);
    }
  });

  test('are not written over a file that is protected', () => {
    const { dir, changes } = course();
    chmodSync(join(dir, 'lessons/walk-on.mdx'), 0o444);
    const before = bytesIn(dir);
    expect(() => putChanges(dir, changes)).toThrow('lessons/walk-on.mdx is protected against changes.');
    expect(bytesIn(dir)).toEqual(before);
  });

  test('are written once where two names lead to one file, and not at all where they differ', () => {
    const dir = folderOf({ 'lessons/a.mdx': 'A' });
    symlinkSync(join(dir, 'lessons/a.mdx'), join(dir, 'lessons/b.mdx'));
    const to = (file: string, text: string) => ({ file, before: Buffer.from('A'), after: Buffer.from(text) });
    expect(() => putChanges(dir, [to('lessons/a.mdx', 'B'), to('lessons/b.mdx', 'C')])).toThrow('are one file');
    expect(readFileSync(join(dir, 'lessons/a.mdx'), 'utf8')).toBe('A');
    putChanges(dir, [to('lessons/a.mdx', 'B'), to('lessons/b.mdx', 'B')]);
    expect(readdirSync(join(dir, 'lessons'))).toEqual(['a.mdx', 'b.mdx']);
    expect(readFileSync(join(dir, 'lessons/b.mdx'), 'utf8')).toBe('B');
  });

  test('are not written where a file has the new name', () => {
    const { dir, changes } = course();
    mkdirSync(join(dir, 'lessons/new/folder'), { recursive: true });
    writeFileSync(join(dir, 'lessons/new/folder/walk.mdx'), 'x');
    const before = bytesIn(dir);
    expect(() => putChanges(dir, changes)).toThrow(NotChanged);
    expect(bytesIn(dir)).toEqual(before);
  });
});
