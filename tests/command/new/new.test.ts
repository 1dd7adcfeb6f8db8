import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadCourse } from '../../../src/course/load.ts';
import { courseOf, folderOf, lesson, write } from '../../course/some-course.ts';
import { cases } from '../../setup/long.ts';
import { typed } from '../some-terminal.ts';

const SEE = 'reedway new --help shows what it takes.\n';
const lessonIn = (dir: string, name: string): string => readFileSync(join(dir, `lessons/${name}.mdx`), 'utf8');
const STAGED = 'title: A course\nstages:\n  - id: one\n    title: One\n  - id: two\n    title: Two\n';

describe('reedway new course', () => {
  test('makes a course without a problem, and prints what to do next', async () => {
    const folder = folderOf({});
    expect(await typed(['new', 'course', 'river-blues'], folder)).toEqual({
      code: 0,
      out: `river-blues is a course of one lesson now: course.yaml and lessons/first-notes.mdx.

  reedway serve river-blues                               show it while you write
  reedway new lesson "Second notes" --course river-blues  add a lesson
  reedway check river-blues                               list every problem
  reedway build river-blues                               make the site
`,
      err: '',
    });
    const { out } = await typed(['check', 'river-blues', '--strict'], folder);
    expect(out).toBe('1 lesson, 1 block: nothing wrong.\n');
    expect(loadCourse(join(folder, 'river-blues')).file.title).toBe('River blues');
  });

  test('makes one in an empty folder, with any title', async () => {
    const folder = folderOf({ '.git/HEAD': '' });
    const { code, out } = await typed(['new', 'course', '.', '--title', 'Bends: the "first" year # 1'], folder);
    expect([code, out.split('\n')[0]]).toEqual([
      0,
      'This folder is a course of one lesson now: course.yaml and lessons/first-notes.mdx.',
    ]);
    expect(loadCourse(folder)).toMatchObject({ problems: [], file: { title: 'Bends: the "first" year # 1' } });
  });

  test.each([
    ['is not empty: it holds a, b, c, d and 1 more. Name a new folder, or an empty one.', 'full'],
    ['is a file. Name a folder for the new course.', 'full/a'],
    ['is a course already. reedway new lesson TITLE adds a lesson to it.', 'course'],
  ])('refuses what %s', async (why, name) => {
    const files = Object.fromEntries(['a', 'b', 'c', 'd', 'e'].map((file) => [`full/${file}`, '']));
    const folder = folderOf({ ...files, 'course/course.yaml': 'title: A\n' });
    expect(await typed(['new', 'course', name], folder)).toEqual({ code: 2, out: '', err: `${name} ${why}\n${SEE}` });
    expect(readdirSync(join(folder, 'full'))).toEqual(['a', 'b', 'c', 'd', 'e']);
  });

  test('refuses a folder inside a course', async () => {
    const dir = courseOf();
    const { code, err } = await typed(['new', 'course', 'lessons/inner'], dir);
    expect([code, err]).toEqual([
      2,
      `lessons/inner is inside the course ${dir}. A course cannot be inside another one.\n${SEE}`,
    ]);
    expect(existsSync(join(dir, 'lessons/inner'))).toBe(false);
  });

  test('reports a folder that cannot be made', async () => {
    const folder = folderOf({ file: '' });
    const { code, err } = await typed(['new', 'course', 'file/course'], folder);
    expect(code).toBe(1);
    expect(err).toMatch(/cannot be written: .* Nothing was written\.\n$/);
  });
});

describe('reedway new lesson', () => {
  test('puts a lesson after the last one, in its stage, with its front matter filled in', async () => {
    const dir = courseOf({ 'course.yaml': STAGED, 'lessons/first.mdx': lesson('', 'title: First\nstage: one') });
    expect(await typed(['new', 'lesson', 'The', 'second', 'step'], dir)).toEqual({
      code: 0,
      out: 'lessons/the-second-step.mdx\nLesson 2 of 2, in the stage one, after first.\n',
      err: '',
    });
    expect(lessonIn(dir, 'the-second-step')).toBe(`---
title: The second step
# summary: One sentence, for lists and search engines.
stage: one
requires: first
# minutes: 15
---

{/* The lesson goes here: Markdown, with its music in tab blocks. */}
`);
    expect(loadCourse(dir).problems).toEqual([]);
  });

  test('puts it into a stage, or after a lesson', async () => {
    const dir = folderOf({
      'course.yaml': STAGED,
      'lessons/a.mdx': lesson('', 'title: A\nstage: one\norder: 1'),
      'lessons/b.mdx': lesson('', 'title: B\nstage: one\norder: 2\nrequires: a'),
      'lessons/c.mdx': lesson('', 'title: C\nstage: two\nrequires: b'),
    });
    const order = (): string[] => loadCourse(dir).lessons.map(({ id }) => id);
    await typed(['new', 'lesson', 'End of one', '--stage', 'one'], dir);
    expect(order()).toEqual(['a', 'b', 'end-of-one', 'c']);
    await typed(['new', 'lesson', 'Between', '--after', 'a'], dir);
    expect(lessonIn(dir, 'between')).toContain('requires: a\norder: 1.5\n');
    expect(order()).toEqual(['a', 'between', 'b', 'end-of-one', 'c']);
    await typed(['new', 'lesson', 'Last'], dir);
    expect(order().at(-1)).toBe('last');
    expect(loadCourse(dir, undefined, { strict: true }).problems).toEqual([]);
  });

  test('makes the first lesson of a course, and leaves lessons reached that were', async () => {
    const empty = folderOf({ 'course.yaml': 'title: A course\n' });
    expect((await typed(['new', 'lesson', 'First'], empty)).out).toBe('lessons/first.mdx\nLesson 1 of 1.\n');
    const loose = courseOf({ 'lessons/second.mdx': lesson(), 'lessons/third.mdx': lesson() });
    await typed(['new', 'lesson', 'Fourth'], loose);
    expect(loadCourse(loose).problems).toEqual([]);
  });

  test('makes a draft after a draft, and where one is asked for', async () => {
    const dir = courseOf({ 'lessons/soon.mdx': lesson('', 'title: Soon\ndraft: true\nrequires: first') });
    const { out } = await typed(['new', 'lesson', 'Later', '--after', 'soon'], dir);
    expect(out).toContain('after soon. It is a draft: remove draft: true to publish it.\n');
    await typed(['new', 'lesson', 'Other', '--draft', '--after', 'first'], dir);
    await typed(['new', 'lesson', 'Published'], dir);
    expect(lessonIn(dir, 'published')).toContain('requires: first\n');
    const drafts = loadCourse(dir).lessons.filter(({ frontMatter }) => frontMatter.draft);
    expect(drafts.map(({ id }) => id).sort()).toEqual(['later', 'other', 'soon']);
    expect(loadCourse(dir).problems).toEqual([]);
  });

  test('gives each lesson a name of its own, and replaces no file', async () => {
    const dir = courseOf({ 'lessons/Walk.mdx': lesson() });
    const namesOf = async (...line: string[]): Promise<string | undefined> =>
      (await typed(['new', 'lesson', ...line], dir)).out.split('\n')[0];
    expect(await namesOf('Walk')).toBe('lessons/walk-2.mdx');
    expect(await namesOf('Con')).toBe('lessons/con-lesson.mdx');
    expect(await namesOf('吹く', '--name', 'blues\\blow.mdx')).toBe('lessons/blues/blow.mdx');
    mkdirSync(join(dir, 'lessons/taken.mdx'));
    write(dir, 'lessons/taken.mdx/x', '');
    const { code, err } = await typed(['new', 'lesson', 'Taken'], dir);
    expect([code, err]).toEqual([1, `${join(dir, 'lessons/taken.mdx')} is there already. Nothing was written.\n`]);
    expect(readdirSync(join(dir, 'lessons')).filter((name) => name.includes('partial'))).toEqual([]);
  });

  test('any title makes a lesson without a problem', async () => {
    const dir = courseOf();
    await fc.assert(
      fc.asyncProperty(
        fc.string({ unit: 'binary' }).filter((title) => /[a-z]/i.test(title)),
        async (title) => {
          const { code, err } = await typed(['new', 'lesson', '--', title], dir);
          expect([title, code, err]).toEqual([title, 0, '']);
        },
      ),
      { numRuns: cases(4, 40) },
    );
    expect(loadCourse(dir).problems).toEqual([]);
  });

  test.each([
    [['lesson', '吹く'], 'No name for the file can be made from “吹く”. Name it yourself, as in: --name second-notes'],
    [['lesson', ' '], 'TITLE is empty: the title of the new lesson.'],
    [['lesson', 'A', '--stage', 'too'], 'There is no stage “too”. Did you mean two?'],
    [['lesson', 'A', '--after', 'frist'], 'There is no lesson “frist”. Did you mean first?'],
    [
      ['lesson', 'A', '--after', 'last', '--stage', 'one'],
      'The stage one comes before two, the stage of last. Leave --stage or --after out.',
    ],
    [['lesson', 'A', '--name', 'first'], 'There is a lesson “first” already. Give another --name.'],
    [
      ['lesson', 'A', '--name', 'a b'],
      '“a b” cannot be part of an address: letters, digits, hyphens and underscores only.',
    ],
    [
      ['lesson', 'A', '--name', 'x/nul'],
      '“nul” cannot be the name of a lesson: some machines have another use for it.',
    ],
    [['lesson', 'A', '--title', 'B'], '--title is not for a new lesson.'],
    [['course', 'x', '--draft'], '--draft is not for a new course.'],
    [['course', 'x', 'y'], '“y” is one argument too many.'],
    [['lessn', 'A'], 'There is no new lessn. Did you mean lesson?'],
    [['The second step', 'A'], 'WHAT is course or lesson, as in: reedway new lesson "The second step"'],
  ])('refuses %j', async (line, why) => {
    const dir = courseOf({
      'course.yaml': STAGED,
      'lessons/last.mdx': lesson('', 'title: Last\nstage: two\nrequires: first'),
    });
    expect(await typed(['new', ...line], dir)).toEqual({ code: 2, out: '', err: `${why}\n${SEE}` });
    expect(readdirSync(join(dir, 'lessons'))).toEqual(['first.mdx', 'last.mdx']);
  });

  test('needs a course', async () => {
    const folder = folderOf({});
    expect((await typed(['new', 'lesson', 'A'], folder)).err).toContain('There is no course here');
    expect((await typed(['new', 'lesson', 'A', '--course', '.'], folder)).err).toBe(
      `There is no course.yaml in ${folder}. reedway new course DIR makes a course.\n${SEE}`,
    );
  });
});
