import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { diffOf, type FileChange, NotChanged, putChanges } from '../../../src/course/edits/change.ts';
import { folderOf } from '../some-course.ts';

const change = (file: string, before: string, after: string): FileChange => ({
  file,
  before: Buffer.from(before),
  after: Buffer.from(after),
});

describe('changes of files', () => {
  test('are shown as a unified diff', () => {
    expect(diffOf([change('course.yaml', 'title: A\nstages: []\n', 'title: B\nstages: []\n')])).toBe(
      '--- a/course.yaml\n+++ b/course.yaml\n@@ -1,2 +1,2 @@\n-title: A\n+title: B\n stages: []\n',
    );
  });
  test('take the place of the files, which keep their mode', () => {
    const dir = folderOf({ 'course.yaml': 'title: A\n' });
    chmodSync(join(dir, 'course.yaml'), 0o600);
    putChanges(dir, [change('course.yaml', 'title: A\n', 'title: B\n')]);
    expect(readFileSync(join(dir, 'course.yaml'), 'utf8')).toBe('title: B\n');
    expect(statSync(join(dir, 'course.yaml')).mode & 0o777).toBe(0o600);
  });
  test('are all left out where one of the files is no longer what was read', () => {
    const dir = folderOf({ 'course.yaml': 'title: A\n', 'techniques.yaml': '' });
    writeFileSync(join(dir, 'techniques.yaml'), '# new\n');
    const before = readdirSync(dir);
    const changes = [change('course.yaml', 'title: A\n', 'title: B\n'), change('techniques.yaml', '', '# mine\n')];
    expect(() => putChanges(dir, changes)).toThrow(
      new NotChanged('techniques.yaml was changed meanwhile. Nothing was written.'),
    );
    expect(readFileSync(join(dir, 'course.yaml'), 'utf8')).toBe('title: A\n');
    expect(readdirSync(dir)).toEqual(before);
  });
});
