import { chmodSync, lstatSync, readdirSync, readFileSync, renameSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DEMO } from '../../../src/command/package.ts';
import { formatLesson } from '../../../src/lesson/format-lesson.ts';
import { courseOf, folderOf, lesson, write } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const MUSIC = '```tab\nslot: 1/4\n4   5 6  7|-4 =3\n```\n';
const CLEAN = '```tab\nslot: 1/4\n4 5 6 7 | -4 =3\n```\n';

const course = () =>
  courseOf({
    'lessons/first.mdx': lesson(MUSIC),
    'lessons/second.mdx': lesson(CLEAN),
    'lessons/third.mdx': lesson('```tab\nid: walk\nslot: 1/4\n4  5  6\n```\n'),
  });
const read = (dir: string, file: string): string => readFileSync(join(dir, 'lessons', file), 'utf8');

describe('reedway format', () => {
  test('writes the blocks of a course in their clean form, and names the files and what it left', async () => {
    const dir = course();
    chmodSync(join(dir, 'lessons/first.mdx'), 0o600);
    const ran = await typed(['format'], dir);
    expect(ran).toEqual({
      code: 0,
      out: 'lessons/first.mdx\n3 lessons: 1 changed.\n',
      err: 'lessons/third.mdx:5: the block walk was left as it is: it has 1 error.\n',
    });
    expect(read(dir, 'first.mdx')).toBe(lesson(CLEAN));
    expect(statSync(join(dir, 'lessons/first.mdx')).mode & 0o777).toBe(0o600);
    expect(read(dir, 'third.mdx')).toContain('4  5  6');
    expect(readdirSync(join(dir, 'lessons'))).toEqual(['first.mdx', 'second.mdx', 'third.mdx']);
    expect((await typed(['format'], dir)).out).toBe('3 lessons: nothing to change.\n');
  });
  test('with --check it writes nothing and ends with 1 where something would change', async () => {
    const dir = course();
    const { code, out } = await typed(['format', dir, '--check'], join(dir, 'lessons'));
    expect([code, out]).toEqual([1, 'first.mdx\n3 lessons: 1 would change.\n']);
    expect(read(dir, 'first.mdx')).toBe(lesson(MUSIC));
    await typed(['format', dir]);
    expect((await typed(['format', dir, '--check'])).code).toBe(0);
  });
  test('takes lessons by their files, with the errors that their course finds', async () => {
    const dir = course();
    const { code, out, err } = await typed(['format', 'third.mdx', './first.mdx', 'first.mdx'], join(dir, 'lessons'));
    expect([code, out]).toEqual([0, 'first.mdx\n2 lessons: 1 changed.\n']);
    expect(err).toBe('third.mdx:5: the block walk was left as it is: it has 1 error.\n');
  });
  test('takes a lesson outside of any course', async () => {
    const dir = folderOf({ 'alone.mdx': `\ufeff${lesson(MUSIC)}` });
    expect((await typed(['format', 'alone.mdx'], dir)).out).toBe('alone.mdx\n1 lesson: 1 changed.\n');
    expect(readFileSync(join(dir, 'alone.mdx'), 'utf8')).toBe(`\ufeff${lesson(CLEAN)}`);
  });
  test('writes what a link leads to, and the link stays', async () => {
    const dir = course();
    renameSync(join(dir, 'lessons/first.mdx'), join(dir, 'kept.mdx'));
    symlinkSync('../kept.mdx', join(dir, 'lessons/first.mdx'));
    expect((await typed(['format'], dir)).out).toBe('lessons/first.mdx\n3 lessons: 1 changed.\n');
    expect(lstatSync(join(dir, 'lessons/first.mdx')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(dir, 'kept.mdx'), 'utf8')).toBe(lesson(CLEAN));
  });
  test('leaves a file alone that is not UTF-8 text', async () => {
    const dir = course();
    write(dir, 'lessons/first.mdx', Buffer.from(lesson(`${MUSIC}\nd\xe9j\xe0`), 'latin1'));
    const { code, err } = await typed(['format', 'lessons/first.mdx'], dir);
    expect([code, err]).toEqual([1, 'lessons/first.mdx cannot be formatted: it is not UTF-8 text.\n']);
  });
  test.each([
    [['nowhere.mdx'], 'There is no file nowhere.mdx.'],
    [['course.yaml'], 'course.yaml is no lesson: a lesson is a file whose name ends in .mdx.'],
    [['lessons'], 'lessons is no course: it has no course.yaml. Name a course, or files of lessons.'],
    [['-', 'lessons/first.mdx'], '- stands for standard input, and goes with no other file.'],
  ])('ends with 2 and says why: %j', async (names, says) => {
    expect(await typed(['format', ...names], course())).toEqual({
      code: 2,
      out: '',
      err: `${says}\nreedway format --help shows what it takes.\n`,
    });
  });
});

describe('reedway format -', () => {
  const formatted = (input: string, ...options: readonly string[]) => typed(['format', '-', ...options], '/', input);
  test('prints a block', async () => {
    expect(await formatted('slot:1/4\r\n4   5 6 7')).toEqual({ code: 0, out: 'slot: 1/4\r\n4 5 6 7\r\n', err: '' });
  });
  test('prints a lesson where there is front matter or a fence', async () => {
    expect((await formatted(lesson(MUSIC))).out).toBe(lesson(CLEAN));
    expect((await formatted(`Words.  \n\n${MUSIC}`)).out).toBe(`Words.  \n\n${CLEAN}`);
    expect((await formatted('---\ntitle: x\n---\n4   5\n')).out).toBe('---\ntitle: x\n---\n4   5\n');
  });
  test('prints a block with errors as it came', async () => {
    expect(await formatted('4   5 x\n')).toEqual({
      code: 0,
      out: '4   5 x\n',
      err: 'standard input:1: this block was left as it is: it has 1 error.\n',
    });
  });
  test('with --check it only says whether it would change', async () => {
    expect(await formatted('4   5\n', '--check')).toEqual({ code: 1, out: 'Standard input would change.\n', err: '' });
    expect((await formatted('4 5\n', '--check')).code).toBe(0);
  });
});

// Its errors, of which there are none, are looked for elsewhere.
test.each(readdirSync(join(DEMO, 'lessons')))('the lesson %s of the demo course is in its clean form', (name) => {
  const source = readFileSync(join(DEMO, 'lessons', name), 'utf8');
  expect(formatLesson(source)).toEqual({ text: source, left: [] });
});
