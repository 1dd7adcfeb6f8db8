import { describe, expect, test } from 'vitest';
import { fixCourse } from '../../../src/course/edits/fix.ts';
import { type FileTable, filesInMemory } from '../files-in-memory.ts';
import { lesson } from '../some-course.ts';

const fixed = (table: FileTable) => {
  const { count, changes, after } = fixCourse(filesInMemory({ 'course.yaml': 'title: A course\n', ...table }));
  return {
    count,
    files: Object.fromEntries(changes.map((change) => [change.file, change.after.toString()])),
    left: after.problems.map(({ code }) => code),
  };
};

describe('the certain fixes of a course', () => {
  test('are applied, and nothing else is changed', () => {
    const text = lesson('#One\r\n\r\nText  \r\n\r\n##Two\r\n');
    expect(fixed({ 'lessons/first.mdx': `\ufeff${text}` })).toEqual({
      count: 2,
      files: { 'lessons/first.mdx': `\ufeff${text.replace('#One', '# One').replace('##Two', '## Two')}` },
      left: [],
    });
  });
  test('leave alone what only may be meant', () => {
    const front = '---\ntitle: A\nsumary: What it is.\n---\n\nHello.\n';
    expect(fixed({ 'lessons/first.mdx': front })).toEqual({ count: 0, files: {}, left: ['key-unknown'] });
  });
  test('leave alone a file that is no text', () => {
    const bytes = Buffer.concat([Buffer.from(lesson('#One\n\nCaf')), Buffer.from([0xe9, 0x0a])]);
    expect(fixed({ 'lessons/first.mdx': bytes }).files).toEqual({});
  });
});
