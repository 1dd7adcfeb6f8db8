/** The path of a course: by the names of its lessons where nothing else decides, and for students without drafts. */
import { describe, expect, test } from 'vitest';
import { blockKeys } from '../../src/course/block-key.ts';
import { publishedPath } from '../../src/course/path.ts';
import { stepOf } from '../../src/curriculum/curriculum.ts';
import { itemAt } from '../../src/values/checked.ts';
import { courseInMemory } from './files-in-memory.ts';
import { lesson } from './some-course.ts';

const titled = (more = '') => lesson('', `title: A lesson${more}`);

describe('the path of a course', () => {
  const course = courseInMemory({
    'lessons/first.mdx': titled(),
    'lessons/Second.mdx': titled(),
    'lessons/a/third.mdx': titled('\nrequires: draft'),
    'lessons/draft.mdx': titled('\nrequires: first\ndraft: yes'),
  });
  test('is by the names of lessons where nothing else decides', () => {
    expect(course.path.order).toEqual(['Second', 'first', 'draft', 'a/third']);
  });
  test('is for students without drafts, and without what only drafts connect', () => {
    const published = publishedPath(course);
    expect(published.order).toEqual(['Second', 'a/third', 'first']);
    expect(stepOf(course.path, 'a/third').needs).toEqual(['draft']);
    expect(stepOf(published, 'a/third').needs).toEqual([]);
  });
  test('is the same for students where there are no drafts', () => {
    const whole = courseInMemory({ 'lessons/first.mdx': titled() });
    expect(publishedPath(whole)).toBe(whole.path);
  });
});

test('the key of a block depends on the very block it quotes', () => {
  const block = (id: string, music: string): string => `\`\`\`tab\nid: ${id}\nslot: 1/1\n${music}\n\`\`\`\n\n`;
  const keyOf = (one: string, other: string): string => {
    const course = courseInMemory({
      'lessons/first.mdx': lesson(block('one', one) + block('other', other)),
      'lessons/second.mdx': lesson(block('quoting', '<first/other>')),
    });
    const second = itemAt(
      course.lessons.filter(({ id }) => id === 'second'),
      0,
    );
    return blockKeys(course)(second, itemAt(second.blocks, 0));
  };
  expect(keyOf('4', '5')).toBe(keyOf('4', '5'));
  expect(keyOf('6', '5')).toBe(keyOf('4', '5'));
  expect(keyOf('4', '6')).not.toBe(keyOf('4', '5'));
});
