import { describe, expect, test } from 'vitest';
import type { Terminal } from '../../../src/command/command.ts';
import { command } from '../../../src/command/course/overview.ts';
import { courseOf, folderOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const TUNE = '```tab\nid: tune\nslot: 1/4\n4 -4 5 =\n```\n';
const some = () =>
  folderOf({
    'course.yaml': 'title: A course\nstages:\n  - id: one\n    title: One\n  - id: two\n    title: Two\n',
    'lessons/a.mdx': lesson(
      `Two words.\n\n${TUNE}\n<Clip name="take" />\n`,
      'title: A\nsummary: All of it.\nstage: one\nminutes: 10\nteaches: [single-notes, breath-turns, first-position, lip-pursing, middle-holes]\nclips:\n  take:\n    src: media/take.mp3\n',
    ),
    'lessons/b-with-a-long-name-that-goes-on-and-on-and-on.mdx': lesson(
      `${TUNE}\n${TUNE.replace('tune', 'other').replace('slot', 'harp: low F\nslot')}`,
      'title: B\nstage: two\nminutes: 20\nrequires: a',
    ),
    'lessons/c.mdx': lesson(
      '',
      'title: C\nrequires: b-with-a-long-name-that-goes-on-and-on-and-on\ndraft: true\nstage: two',
    ),
    'media/take.mp3': '',
  });

async function inWindow(columns: number, dir: string): Promise<string> {
  let out = '';
  const terminal: Terminal = {
    cwd: dir,
    columns,
    out: (text) => {
      out += text;
    },
    err: () => {},
    progress: () => {},
  };
  await command.run({ arguments: [dir], options: {} }, terminal);
  return out;
}

describe('reedway overview', () => {
  test('shows what each lesson has, and says in words what it lacks', async () => {
    const { code, out } = await typed(['overview', some()]);
    expect(code).toBe(0);
    expect(`\n${out}`).toBe(`
     lesson                                min  words  blocks  clips  level  teaches  uses  harps

One
  1  a                                      10      2       1      1    0.3        5     5  C

Two
  2  b-with-a-long-name-that-goes-on-and-on-and-on
                                            20      0       2      0    0.3        0     5  C, low F
     - no summary, no text, teaches nothing
  3  c                                       –      0       0      0      –        0     0
     - draft, no summary, no minutes, no text, no block, teaches nothing

3 lessons (1 draft), 3 blocks, 1 clip, 2 words, 30 minutes. Of the lessons, 2 have no summary, 2
have no text, 2 teach nothing, 1 has no minutes, 1 has no block.
`);
  });

  test.each([60, 80, 100])('fits a window of %i columns', async (columns) => {
    for (const line of (await inWindow(columns, some())).split('\n'))
      expect(line.length, line).toBeLessThanOrEqual(Math.max(columns, 78));
  });

  test('prints the same as data', async () => {
    const { lessons, totals } = JSON.parse((await typed(['overview', some(), '--json'])).out);
    expect(totals).toEqual({ lessons: 3, drafts: 1, blocks: 3, clips: 1, words: 2, minutes: 30 });
    expect(lessons[1]).toEqual({
      id: 'b-with-a-long-name-that-goes-on-and-on-and-on',
      file: 'lessons/b-with-a-long-name-that-goes-on-and-on-and-on.mdx',
      title: 'B',
      stage: 'two',
      draft: false,
      summary: null,
      minutes: 20,
      words: 0,
      blocks: 2,
      clips: 0,
      teaches: [],
      uses: ['single-notes', 'lip-pursing', 'breath-turns', 'middle-holes', 'first-position'],
      harps: ['C', 'low F'],
      difficulty: 0.3,
      lacks: ['no summary', 'no text', 'teaches nothing'],
    });
    const help = (await typed(['overview', '--help'])).out;
    for (const key of [...Object.keys(lessons[0]), ...Object.keys(totals)]) expect(help).toContain(key);
  });

  test('lacks nothing where nothing is missing, and asks for no stage and no technique where the course has none', async () => {
    const dir = courseOf({ 'lessons/first.mdx': lesson(`Hello.\n\n${TUNE}`, 'title: A\nsummary: B\nminutes: 1') });
    expect((await typed(['overview', dir])).out).toMatch(
      /^1 lesson, 1 block, 0 clips, 1 word, 1 minute\. No lesson lacks anything\.\n$/m,
    );
  });

  test('shows a course with errors as far as it can be read, and ends with 1', async () => {
    const dir = courseOf({ 'lessons/first.mdx': lesson('```tab\n99\n```\n') });
    const { code, out, err } = await typed(['overview', dir], dir);
    expect(code).toBe(1);
    expect(out).toMatch(/^ {2}1 {2}first +– +0 +1 +0 +– +0 +0$/m);
    expect(err).toContain('lessons/first.mdx:6:1  no-hole');
    expect((await typed(['overview', folderOf({ 'course.yaml': 'title: A\n' })])).out).toBe(
      'This course has no lesson.\n',
    );
  });
});
