/** A folder without course.yaml: one problem, however many lessons are in it. */
import { describe, expect, test } from 'vitest';
import { problemReport } from '../../../src/command/course/check.ts';
import { loadFrom } from '../../../src/course/load.ts';
import { filesInMemory } from '../../course/files-in-memory.ts';
import { lesson } from '../../course/some-course.ts';
import { typed } from './mistake.ts';

const LESSONS = {
  'lessons/first.mdx': lesson('Hello.\n', 'title: First\nstage: breath'),
  'lessons/second.mdx': lesson('Hello.\n', 'title: Second\nstage: blues\nrequires: first'),
};

const shown = (files: Readonly<Record<string, string>>): string => {
  const course = loadFrom(filesInMemory(files));
  return `${problemReport(course, course.dir).trimEnd()}\n`;
};

describe('a folder without course.yaml', () => {
  test('is reported once', () => {
    expect(shown(LESSONS)).toBe(typed`
      course.yaml:1:1  course-file-missing
        This folder has no course.yaml, so it is not yet a course.
        Write a file course.yaml with one line: title: …
    `);
  });
  test('with the file that has another name', () => {
    expect(shown({ ...LESSONS, 'course.yml': 'title: A course\n' })).toBe(typed`
      course.yaml:1:1  course-file-missing
        This folder has no course.yaml, so it is not yet a course.
        Rename course.yml to course.yaml.
    `);
  });
});

test('a folder of lessons with another name is named', () => {
  expect(shown({ 'course.yaml': 'title: A course\n', 'Lessons/first.mdx': lesson('Hello.\n') })).toBe(typed`
    lessons:1:1  no-lessons
      This course has no lesson.
      Lessons are files that end in .mdx, in a folder called lessons: rename Lessons.
  `);
});
