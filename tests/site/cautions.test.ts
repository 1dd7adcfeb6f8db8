import { expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { cautionsOf, cautionsOfLesson } from '../../src/site/cautions.ts';
import { itemAt } from '../../src/values/checked.ts';
import { courseOf, lesson } from '../course/some-course.ts';

const block = (music: string): string => `\`\`\`tab\nslot: 1/4\n${music}\n\`\`\`\n`;
const cautionsIn = (text: string, frontMatter?: string): readonly string[] => {
  const course = loadCourse(courseOf({ 'lessons/first.mdx': lesson(text, frontMatter) }));
  return cautionsOfLesson(course, itemAt(course.lessons, 0));
};

test('a lesson carries the cautions of what its blocks use, taught or not', () => {
  expect(cautionsIn(block("-4' -4 . ."))).toEqual([expect.stringMatching(/^Stop when jaw/)]);
  expect(cautionsIn(block('-4[shake 5] . . .'))).toEqual([expect.stringMatching(/neck/)]);
  expect(cautionsIn(block('4 5 . .'))).toEqual([]);
});

test('what a lesson teaches comes first, and nothing is said twice', () => {
  const both = cautionsIn(block("-4' -4[shake 5] . ."), 'title: Shakes\nteaches: [shakes, bends]');
  expect(both).toEqual([expect.stringMatching(/neck/), expect.stringMatching(/^Stop when jaw/)]);
});

test('a course without cautions of its own has the usual ones, metal among them', () => {
  const usual = cautionsOf(loadCourse(courseOf()));
  expect(usual.join(' ')).toMatch(/light-headed.*neck hurt.*not been cleaned.*nickel.*headphones.*doctor/);
  expect(cautionsOf(loadCourse(courseOf({ 'course.yaml': 'title: A\ncautions: Breathe.\n' })))).toEqual(['Breathe.']);
});
