import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { AWKWARD } from '../../course/rename/awkward-course.ts';
import { courseOf, folderOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const RIFF = '```tab\nid: riff\nslot: 1/4\nphrase up: 4 -4\n<up> <up> |]\n```\n';
const course = (more: Readonly<Record<string, string>> = {}) =>
  courseOf({
    'course.yaml': 'title: A course\nstages:\n  - { id: first, title: First }\n',
    'lessons/first.mdx': lesson(`[here](#riff)\n\n${RIFF}`, 'title: First\nstage: first'),
    'lessons/second.mdx': lesson('[back](first#riff)\n', 'title: Second\nrequires: first'),
    ...more,
  });
const read = (dir: string, file: string) => readFileSync(join(dir, file), 'utf8');
const rename = (dir: string, ...line: string[]) => typed(['rename', ...line, '--course', dir]);

describe('reedway rename', () => {
  test('renames a block, and says in how many places', async () => {
    const dir = course();
    expect(await rename(dir, 'first/riff', 'lick')).toEqual({
      code: 0,
      out: 'The block first/riff is first/lick now: 4 edits in 2 files.\n',
      err: '',
    });
    expect(read(dir, 'lessons/second.mdx')).toContain('[back](first#lick)');
    expect(read(dir, 'lessons/first.mdx')).toContain('id: lick\nformerly: riff\n');
    expect(await typed(['check', dir])).toMatchObject({ code: 0 });
    expect(await rename(dir, 'first#lick', 'first/riff')).toMatchObject({ code: 0 });
    expect(read(dir, 'lessons/first.mdx')).toBe(lesson(`[here](#riff)\n\n${RIFF}`, 'title: First\nstage: first'));
  });

  test('prints each change with its place on a dry run, and writes nothing', async () => {
    const dir = course();
    const before = read(dir, 'lessons/second.mdx');
    const ran = await rename(dir, 'second', 'b/second', '--dry-run');
    expect(ran).toEqual(await rename(dir, 'second', 'b/second', '--dry-run'));
    expect(ran).toEqual({
      code: 0,
      err: '',
      out: `diff --git a/lessons/second.mdx b/lessons/b/second.mdx
rename from lessons/second.mdx
rename to lessons/b/second.mdx
--- a/lessons/second.mdx
+++ b/lessons/b/second.mdx
@@ -1,6 +1,7 @@ lessons/second.mdx:4:1
 ---
 title: Second
 requires: first
+formerly: second
 ---
 
 [back](first#riff)
`,
    });
    expect(read(dir, 'lessons/second.mdx')).toBe(before);
  });

  test.each([
    ['lesson', 'walk', 'other/walk'],
    ['block', 'walk/walk', 'stroll'],
    ['phrase', 'walk/walk:walk', 'stroll'],
    ['technique', 'walk', 'stroll'],
    ['stage', 'walk', 'stroll'],
  ])('the diff for a %s makes of the files what the command makes of them', async (kind, old, name) => {
    const [dry, wet] = [folderOf(AWKWARD), folderOf(AWKWARD)];
    const { out } = await rename(dry, old, name, '--as', kind, '--dry-run');
    execFileSync('git', ['apply', '--whitespace=nowarn', '-'], { cwd: dry, input: out });
    expect(await rename(wet, old, name, '--as', kind)).toMatchObject({ code: 0, err: '' });
    const diff = () => execFileSync('diff', ['-r', dry, wet], { encoding: 'utf8' });
    expect(diff()).toBe('');
  });

  test.each([
    [
      ['first', 'x'],
      '“first” names several things. Say which one you mean:\n  the lesson first: --as lesson\n  the stage first: --as stage',
    ],
    [['riff', 'x'], 'A block is named with its lesson, and a phrase with its block:\n  the block first/riff'],
    [['frist', 'x'], 'This course has no lesson, block, phrase, technique or stage “frist”. Did you mean first?'],
    [['first', 'x', '--as', 'bloc'], '--as takes one of lesson, block, phrase, technique, stage. Did you mean block?'],
    [['first', 'second', '--as', 'lesson'], 'There is a lesson “second” already.'],
    [['first', 'SECOND', '--as', 'lesson'], 'The lesson “second” differs from “SECOND” in capital letters only.'],
    [['first', 'first', '--as', 'lesson'], 'The lesson is called “first” already.'],
    [['second', 'blues/con'], '“blues/con” cannot be the name of a lesson: some machines have another use for it.'],
    [['second', 'a b'], '“a b” cannot be part of an address.'],
    [['first/riff', 'Lick'], '“Lick” cannot be the id of a block'],
    [['first/riff', 'second/riff'], 'A block keeps its lesson: write the new name alone, as in “riff”.'],
    [['first/riff:up', 'a b'], '“a b” cannot be the name of a phrase'],
    [['first/riff:up', 'second/riff:up'], 'A phrase keeps its block'],
    [['bends', 'curls'], '“bends” comes with Reedway, so a course cannot rename it.'],
    [['first', 'none', '--as', 'stage'], '“none” cannot be the id of a stage'],
    [['second/0', 'x'], '“second/0” is a block without a name.'],
  ])('refuses %j', async (line, message) => {
    const { code, err } = await rename(course(), ...line);
    expect(code).toBe(2);
    expect(err).toContain(message);
  });

  test('does not give a name that something else had', async () => {
    const dir = course({ 'lessons/third.mdx': lesson('', 'title: Third\nformerly: zero') });
    const { code, err } = await rename(dir, 'second', 'zero');
    expect([code, err.split('\n')[0]]).toEqual([
      2,
      '“zero” is a former name of the lesson “third”, to which old addresses lead.',
    ]);
  });

  test('changes nothing where an error may hide a name', async () => {
    const dir = course({ 'lessons/third.mdx': lesson('A {brace\n') });
    const { code, err } = await rename(dir, 'second', 'zero');
    expect(code).toBe(1);
    expect(err).toMatch(/^\S+lessons\/third\.mdx:5:3 {2}mdx-syntax\n/);
    expect(err).toMatch(
      /Errors such as these may hide names, which would not be rewritten\. Fix them first\. Nothing was changed\.\n$/,
    );
  });

  test('goes on where an error hides nothing, and says so', async () => {
    const dir = course({ 'lessons/third.mdx': lesson('[a](nowhere)\n') });
    const { code, out } = await rename(dir, 'second', 'zero');
    expect([code, out]).toEqual([
      0,
      'The lesson second is zero now: 1 edit in 1 file. The course has errors, as before.\n',
    ]);
  });

  test('changes nothing where a name is written in a way that cannot be edited', async () => {
    const dir = course({ 'lessons/third.mdx': lesson('<HarpMap block="first&#47;riff" />\n') });
    const { code, err } = await rename(dir, 'first/riff', 'lick');
    expect(code).toBe(1);
    expect(err).toContain('lessons/third.mdx:5:17  The name is written here with escapes');
  });

  test('changes nothing where a link would lead to another place under the new name', async () => {
    const dir = course({ 'lessons/third.mdx': lesson(`[a](#turn)\n\n## Turn\n\n${RIFF}`) });
    const { code, err } = await rename(dir, 'third/riff', 'turn');
    expect(code).toBe(1);
    expect(err).toContain('lessons/third.mdx:5:5  This link would lead somewhere else then');
  });

  test('goes on where a finding only goes from one lesson to another, because a name settles their order', async () => {
    const dir = courseOf({
      'lessons/first.mdx': lesson(),
      'lessons/second.mdx': lesson(),
      'lessons/third.mdx': lesson('', 'title: T\nrequires: first'),
      'lessons/fourth.mdx': lesson('', 'title: F\nrequires: second'),
    });
    const unreached = async () => (await typed(['check', dir])).out.match(/\S+ +warning lesson-unreached/g);
    expect(await unreached()).toEqual([expect.stringMatching(/second/)]);
    expect(await rename(dir, 'second', 'a')).toMatchObject({ code: 0, err: '' });
    expect(await unreached()).toEqual([expect.stringMatching(/first/)]);
  });

  test('rewrites a link whose name is written with escapes as a plain one', async () => {
    const dir = course({ 'lessons/third.mdx': lesson('[a](%66irst#ri%66f) [b](first\\#riff) [c](x/../first)\n') });
    expect(await rename(dir, 'first', 'one', '--as', 'lesson')).toMatchObject({ code: 0, err: '' });
    expect(read(dir, 'lessons/third.mdx')).toContain('[a](one#ri%66f) [b](one#riff) [c](one)\n');
  });
});
