import { expect, test } from 'vitest';
import { withOverlay } from '../../../src/course/edits/overlay.ts';
import { filesInMemory } from '../files-in-memory.ts';

const files = filesInMemory({ 'course.yaml': 'title: A\n', 'lessons/a.mdx': 'a', 'lessons/c.mdx': 'c' });
const failed = (): void => {};

test('a file of the course is read otherwise, and others as they are', () => {
  const over = withOverlay(files, new Map([['lessons/a.mdx', Buffer.from('ä')]]));
  expect(over.list('lessons', failed)).toEqual(['lessons/a.mdx', 'lessons/c.mdx']);
  expect(over.read('lessons/a.mdx').toString()).toBe('ä');
  expect(over.size('lessons/a.mdx')).toBe(2);
  expect(over.read('lessons/c.mdx').toString()).toBe('c');
});

test('a file that is not there is listed at its place', () => {
  const over = withOverlay(files, new Map([['lessons/b.mdx', Buffer.from('b')]]));
  expect(over.list('lessons', failed)).toEqual(['lessons/a.mdx', 'lessons/b.mdx', 'lessons/c.mdx']);
  expect(over.list('media', failed)).toEqual([]);
});

test('a file that is gone is neither listed nor read', () => {
  const over = withOverlay(files, new Map([['lessons/a.mdx', null]]));
  expect(over.list('lessons', failed)).toEqual(['lessons/c.mdx']);
  expect(() => over.read('lessons/a.mdx')).toThrow(expect.objectContaining({ code: 'ENOENT' }));
  expect(() => over.size('lessons/a.mdx')).toThrow(expect.objectContaining({ code: 'ENOENT' }));
});
