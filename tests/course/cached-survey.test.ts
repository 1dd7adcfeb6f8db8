import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { courseFiles } from '../../bench/course.ts';
import type { Keep } from '../../src/course/cached-survey.ts';
import type { Course } from '../../src/course/course.ts';
import { loadCourse } from '../../src/course/load.ts';
import { readSurvey, writeSurvey } from '../../src/curriculum/survey-text.ts';
import { courseOf, folderOf, lesson, write } from './some-course.ts';

const block = (text: string): string => `\`\`\`tab\n${text}\n\`\`\`\n\n`;
const FILES = {
  'course.yaml': 'title: A course\nslot: 1/4\n',
  'techniques.yaml':
    'techniques:\n  - { id: low, title: Low, about: Low., group: reach, find: { note: { hole: { most: 2 } } } }\n',
  'lessons/first.mdx': lesson(block("id: lick\n-2 3 -3' -3") + block('(1 4)[tongue] 4 -4 6')),
  'lessons/second.mdx': lesson(block('<first/lick> | 4 1 = ='), 'title: Second\nrequires: first'),
  'lessons/third.mdx': lesson('Words alone.\n', 'title: Third\nrequires: second'),
};

/** What is kept, and how often something was added to it. */
function keeping(): { keep: Keep; added(): number } {
  const texts = new Map<string, string>();
  let added = 0;
  return {
    keep: {
      get: (key) => texts.get(key),
      put(key, text) {
        texts.set(key, text);
        added++;
      },
    },
    added: () => added,
  };
}
const surveys = ({ path }: Course) => [...path.steps.values()].map(({ survey }) => survey);

describe('a survey as text', () => {
  const made = folderOf(Object.fromEntries(courseFiles({ lessons: 30, blocks: 4 })));
  test.each([
    ['the demo course', join(import.meta.dirname, '../../content')],
    ['a course with everything in it', made],
  ])('reads as what was written: %s', (_, dir) => {
    const course = loadCourse(dir);
    expect(surveys(course).flat().length).toBeGreaterThan(10);
    for (const survey of surveys(course)) {
      const again = readSurvey(writeSurvey(survey), course.repertoire);
      expect(again).toEqual(survey);
      for (const [index, own] of survey.entries()) {
        for (const [number, { technique }] of (own?.found ?? []).entries())
          expect(again[index]?.found[number]?.technique).toBe(technique);
      }
    }
  });

  test('leaves out a block that has an error', () => {
    const dir = courseOf({
      'lessons/first.mdx': lesson(block("slot: 1/4\n-2''' 4 4 4") + block('slot: 1/4\n4 4 4 4')),
    });
    const course = loadCourse(dir);
    const [survey = []] = surveys(course);
    expect(survey[0]).toBeUndefined();
    expect(readSurvey(writeSurvey(survey), course.repertoire)).toEqual(survey);
  });
});

describe('a course read with what was kept', () => {
  test('is what it is without, and nothing is surveyed twice', () => {
    const dir = folderOf(FILES);
    const { keep, added } = keeping();
    for (const _ of [1, 2]) {
      const course = loadCourse(dir, undefined, { keep });
      expect(course.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(surveys(course)).toEqual(surveys(loadCourse(dir)));
      expect(course.problems).toEqual(loadCourse(dir).problems);
      expect(added()).toBe(3);
    }
  });

  test.each([
    ['a block', { 'lessons/first.mdx': lesson(block("id: lick\n-2 3 -3'' -3") + block('(1 4)[tongue] 4 -4 6')) }, 2],
    ['a block that becomes wrong', { 'lessons/first.mdx': lesson(block('id: lick\n-2 3 -3 -3') + block('(1 4 4')) }, 2],
    ['what blocks start from', { 'course.yaml': 'title: A course\nslot: 1/4\ntempo: 200\n' }, 2],
    [
      'the settings of a lesson',
      { 'lessons/second.mdx': lesson(block('<first/lick> | 4 1 = ='), 'title: Second\nrequires: first\ntempo: 200') },
      1,
    ],
    ['a technique', { 'techniques.yaml': FILES['techniques.yaml'].replace('most: 2', 'most: 3') }, 3],
    ['the lack of one', { 'techniques.yaml': 'techniques: []\n' }, 3],
    ['words', { 'lessons/first.mdx': `${FILES['lessons/first.mdx']}More words.\n` }, 0],
  ])('follows a change of %s, and surveys no more than it has to', (_, change, again) => {
    const dir = folderOf(FILES);
    const { keep, added } = keeping();
    loadCourse(dir, undefined, { keep });
    const before = added();
    for (const [file, text] of Object.entries(change)) write(dir, file, text as string);
    expect(surveys(loadCourse(dir, undefined, { keep }))).toEqual(surveys(loadCourse(dir)));
    expect(added() - before).toBe(again);
  });
});
