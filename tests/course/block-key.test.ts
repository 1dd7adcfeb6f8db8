import { describe, expect, test } from 'vitest';
import { blockKeys } from '../../src/course/block-key.ts';
import type { Course } from '../../src/course/course.ts';
import { loadCourse } from '../../src/course/load.ts';
import { itemAt } from '../../src/values/checked.ts';
import { courseOf, lesson } from './some-course.ts';

const block = (text: string): string => `\`\`\`tab\n${text}\n\`\`\`\n\n`;
const load = (files: Readonly<Record<string, string>>): Course => {
  const course = loadCourse(courseOf(files));
  expect(course.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return course;
};

describe('a block’s key', () => {
  const QUOTED = block('id: lick\nphrase riff: -2 3 -3 4\n<riff> <riff>');
  const FILES = {
    'lessons/first.mdx': lesson(QUOTED),
    'lessons/second.mdx': lesson(block('<first/lick:riff> <first/lick:riff>'), 'title: Second\nrequires: first'),
    'lessons/third.mdx': lesson(block('<second/0>'), 'title: Third\nrequires: second'),
    'lessons/other.mdx': lesson(block('slot: 1/4\n4 4 4 4'), 'title: Other\nrequires: third'),
  };
  const keysOf = (files: Readonly<Record<string, string>>): Record<string, string> => {
    const course = load(files);
    const key = blockKeys(course);
    return Object.fromEntries(course.lessons.map((one) => [one.id, key(one, itemAt(one.blocks, 0))]));
  };
  const changed = (files: Readonly<Record<string, string>>): string[] => {
    const [before, after] = [keysOf(FILES), keysOf({ ...FILES, ...files })];
    return Object.keys(before)
      .filter((id) => before[id] !== after[id])
      .sort();
  };

  test('changes with its text, and with that of whatever it quotes, at any remove', () => {
    expect(changed({ 'lessons/first.mdx': lesson(QUOTED.replace('-3 4', '-3 5')) })).toEqual([
      'first',
      'second',
      'third',
    ]);
    expect(
      changed({ 'lessons/other.mdx': lesson(block('slot: 1/4\n4 4 4 5'), 'title: Other\nrequires: third') }),
    ).toEqual(['other']);
  });

  test('changes with the settings it starts from', () => {
    expect(
      changed({ 'lessons/other.mdx': lesson(block('slot: 1/4\n4 4 4 4'), 'title: Other\nrequires: third\nharp: A') }),
    ).toEqual(['other']);
    expect(changed({ 'course.yaml': 'title: A course\nharp: A\n' })).toEqual(['first', 'other', 'second', 'third']);
    expect(changed({ 'course.yaml': 'title: A course\nforms:\n  mine: I7 | V7\n' })).toEqual([
      'first',
      'other',
      'second',
      'third',
    ]);
  });

  test('stays when nothing that it is made from changes', () => {
    expect(changed({ 'course.yaml': 'title: Another name\nteacher: Somebody\n' })).toEqual([]);
    expect(changed({ 'lessons/first.mdx': lesson(`Words.\n\n${QUOTED}`, 'title: Renamed') })).toEqual([]);
  });
});
