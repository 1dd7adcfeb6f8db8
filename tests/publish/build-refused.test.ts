/** Builds that make no site: what is wrong with the course or with what was typed, and what they leave as it was. */
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { typed } from '../command/some-terminal.ts';
import { courseOf, folderOf, lesson, write } from '../course/some-course.ts';
import { LONG } from '../setup/long.ts';
import { filesBelow, reedway } from './some-site.ts';

describe('a course that is no longer right', () => {
  let dir: string;
  let before: ReadonlyMap<string, Buffer>;
  beforeAll(async () => {
    dir = courseOf({ 'lessons/first.mdx': lesson('```tab\n.8\n```\n') });
    expect((await reedway(['build'], dir)).code).toBe(0);
    before = filesBelow(join(dir, 'dist'));
  });

  test('leaves the last good site as it was, and shows every error', async () => {
    write(dir, 'lessons/first.mdx', lesson("```tab\n-2''' = = = 11 = = =\n```\n"));
    const ran = await reedway(['build', '.'], dir);
    expect(ran.code).toBe(1);
    expect(ran.out).toBe('');
    expect(ran.err).toMatch('lessons/first.mdx:6:1  bend-too-deep');
    expect(ran.err).toMatch('lessons/first.mdx:6:13  ');
    expect(ran.err).toMatch('Nothing was built.');
    expect(filesBelow(join(dir, 'dist'))).toEqual(before);
  });

  test('in a way that only making its page finds, says so with the file, and leaves the last good site', async () => {
    write(dir, 'lessons/first.mdx', lesson('{(() => { throw new Error("my own mistake"); })()}\n'));
    const ran = await reedway(['build', '.'], dir);
    expect([ran.code, ran.out]).toEqual([1, '']);
    expect(ran.err).toMatch('my own mistake');
    expect(ran.err).not.toMatch(/\n\s+at /);
    expect(filesBelow(join(dir, 'dist'))).toEqual(before);
  });

  test.runIf(LONG)('is built over the last good site once it is fixed', async () => {
    write(dir, 'lessons/first.mdx', lesson('Fixed.\n'));
    expect((await reedway(['build', '.'], dir)).code).toBe(0);
    expect(readFileSync(join(dir, 'dist/lessons/first/index.html'), 'utf8')).toMatch('Fixed.');
  });
});

test('a course without lessons is not built', async () => {
  const dir = folderOf({ 'course.yaml': 'title: Empty\n' });
  const ran = await typed(['build', '.'], dir);
  expect([ran.code, ran.out]).toEqual([1, '']);
  expect(ran.err).toMatch('no-lessons');
  expect(existsSync(join(dir, 'dist'))).toBe(false);
});

describe('what was typed', () => {
  test.each([
    [['--base', 'https://a.example/'], '--base is a path'],
    [['--base', '/a/../b'], '--base is a path'],
    [['--site', 'school'], '--site is a web address'],
    [['--outt', 'x'], 'There is no option --outt. Did you mean --out?'],
  ])('%j has a message of its own', async (options, message) => {
    const ran = await typed(['build', ...options], courseOf());
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(message);
  });

  test.each(['media', 'media/site', 'public', 'public/deep/site', 'lessons/site', 'link/site'])(
    '--out %s would publish old sites in new ones, and is refused',
    async (out) => {
      const dir = courseOf({ 'media/harp.svg': '<svg/>' });
      symlinkSync(join(dir, 'media'), join(dir, 'link'));
      const ran = await typed(['build', '.', '--out', out], dir);
      expect([ran.code, ran.out]).toEqual([1, '']);
      expect(ran.err).toMatch(
        /is in .*(?:media|public|lessons), whose files belong to the course\.\nName a folder outside/,
      );
      expect(readdirSync(join(dir, 'media'))).toEqual(['harp.svg']);
      expect(existsSync(join(dir, 'public'))).toBe(false);
    },
  );

  test('a folder of somebody else’s is refused and stays as it is', async () => {
    const dir = courseOf();
    mkdirSync(join(dir, 'home'));
    writeFileSync(join(dir, 'home/letter'), 'dear');
    const ran = await typed(['build', '.', '--out', 'home'], dir);
    expect([ran.code, ran.out]).toEqual([1, '']);
    expect(ran.err).toMatch('is not a site made by Reedway');
    expect([...filesBelow(join(dir, 'home')).keys()]).toEqual(['letter']);
    expect((await typed(['build', '.', '--out', '.'], dir)).code).toBe(1);
  });
});
