import { posix, win32 } from 'node:path';
import { describe, expect, test } from 'vitest';
import { shownPath } from '../../../src/command/terminal/shown-path.ts';

describe('a path is shown with forward slashes, from where the command was typed', () => {
  test.each([
    ['C:\\course\\lessons\\walk.mdx', 'C:\\course', 'lessons/walk.mdx'],
    ['C:\\course\\lessons\\walk.mdx', 'c:\\Course\\lessons\\blues', '../walk.mdx'],
    ['C:\\course', 'C:\\course', '.'],
    ['D:\\course\\course.yaml', 'C:\\', 'D:/course/course.yaml'],
    ['\\\\server\\share\\course\\x', '\\\\server\\share', 'course/x'],
  ])('%s in %s on Windows', (path, cwd, shown) => {
    expect(shownPath(path, cwd, win32)).toBe(shown);
  });
  test.each([
    ['/course/lessons/walk.mdx', '/course', 'lessons/walk.mdx'],
    ['/course', '/course/', '.'],
    ['/a\\b', '/', 'a\\b'],
  ])('%s in %s elsewhere', (path, cwd, shown) => {
    expect(shownPath(path, cwd, posix)).toBe(shown);
  });
});
