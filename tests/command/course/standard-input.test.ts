import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { courseOf, folderOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const TUNE = 'id: tune\nslot: 1/4\n4 -4 5 -5\n';
const fenced = (text: string): string => `\`\`\`tab\n${text}\`\`\`\n`;
const some = () =>
  courseOf({
    'course.yaml': 'title: A course\nharp: A\n',
    'lessons/first.mdx': lesson(fenced(`${TUNE}`), 'title: First\nharp: low F'),
    'lessons/second.mdx': lesson(fenced('<first/tune>\n'), 'title: Second\nrequires: first'),
  });

describe('the argument - of reedway check', () => {
  test('is a block where the text has no fence', async () => {
    expect(await typed(['check', '-'], some(), 'slot: 1/4\n4 99 4 4\n')).toEqual({
      code: 1,
      out: [
        '-:2:3  no-hole',
        '    2 | 4 99 4 4',
        '      |   ^^',
        '  There is no hole 99 on a harp of 10 holes.',
        '  Hole 9 twice is 9 9',
        '',
        '1 lesson, 1 block: 1 error.',
        '',
      ].join('\n'),
      err: '',
    });
    expect((await typed(['check', '-'], some(), '\ufeffslot: 1/4\r\n4 4 4 4')).out).toBe(
      '1 lesson, 1 block: nothing wrong.\n',
    );
  });

  test('is a lesson where the text begins with front matter or has a fence', async () => {
    const dir = some();
    expect((await typed(['check', '-'], dir, lesson('[x](frist)\n'))).out).toMatch(/^-:5:5 {2}link-unknown\n/);
    const { out } = await typed(['check', '-', '--json'], dir, `Hello.\n\n${fenced('slot: 1/4\n99 4 4 4\n')}`);
    expect(JSON.parse(out).map(({ file, line, code }: Record<string, unknown>) => [file, line, code])).toEqual([
      ['-', 1, 'front-matter-missing'],
      ['-', 5, 'no-hole'],
    ]);
  });

  test('is in the course that is named, or around the folder, or in none', async () => {
    const dir = some();
    const quoting = '<first/tune>\n';
    expect((await typed(['check', '-', '--course', dir], '/', quoting)).code).toBe(0);
    expect((await typed(['check', '-'], `${dir}/lessons`, quoting)).code).toBe(0);
    expect((await typed(['check', '-'], folderOf({}), quoting)).out).toContain('-:1:1  quote-unknown');
    expect((await typed(['show', '-'], folderOf({}), TUNE)).out).toContain('C harp, Richter');
  });

  test('stands for a lesson with --as, with all checks of the course', async () => {
    const dir = some();
    const text = lesson('[x](frist)\n', 'title: Second\nrequires: [first, second]');
    const { code, out } = await typed(['check', '-', '--as', 'lessons/second.mdx'], dir, text);
    expect(code).toBe(1);
    expect(out).toMatch(/^lessons\/second\.mdx:3:19 {2}requires-self\n.*\nlessons\/second\.mdx:6:5 {2}link-unknown\n/s);
    expect((await typed(['check', '-', '--as', 'third'], dir, lesson())).out).toContain('lesson-unreached');
    expect((await typed(['check', '-'], dir, lesson())).out).toBe('1 lesson, 0 blocks: nothing wrong.\n');
  });

  test('is a block of a lesson with --as, also of one that has it already', async () => {
    const dir = some();
    expect((await typed(['show', '-', '--as', 'first'], dir, TUNE)).out).toContain('low F harp');
    expect((await typed(['check', '-', '--as', 'first'], dir, TUNE)).code).toBe(0);
    expect((await typed(['check', '-', '--as', 'frist'], dir, TUNE)).err).toMatch(
      /^There is no lesson “frist” that this block could belong to\./,
    );
  });

  test('counts lines of its fixes as they were typed', async () => {
    const { out } = await typed(['check', '-', '--json'], some(), 'slto: 1/4\n4 4 4 4\n');
    const fixes = JSON.parse(out).flatMap(({ fix }: { fix?: { edits: { line: number }[] } }) => fix?.edits ?? []);
    for (const { line } of fixes) expect(line).toBe(1);
  });

  test('reads what is no text, and nothing at all', async () => {
    for (const input of ['', '\n', '---', '```', '\0', new Uint8Array([0xff, 0xfe])]) {
      const { out, err } = await typed(['check', '-'], some(), input);
      expect([err, out.split('\n').at(-2)]).toEqual(['', expect.stringMatching(/^1 lesson, /)]);
    }
  });

  test.each([
    [['check', '-', '--watch'], '--watch needs files, and - is none.'],
    [['check', '-', '--fix'], '--fix needs files, and - is none.'],
    [['check', '--as', 'first'], '--as goes with the argument -.'],
    [['check', '--course', '.'], '--course goes with the argument -.'],
    [['show', 'first', '--as', 'first'], '--as goes with the argument -.'],
    [['techniques', 'first', '--as', 'first'], '--as goes with the argument -.'],
    [['export', 'first', '-', '--to', 'abc'], '- is the only argument where it is one.'],
  ])('does not go together with everything: %j', async (line, why) => {
    const { code, err } = await typed(line, some(), TUNE);
    expect([code, err.split('\n')[0]]).toEqual([2, why]);
  });
});

test('show, techniques, export and explain take - as well', async () => {
  const dir = some();
  const { code, out } = await typed(['show', '-', '--json'], dir, TUNE);
  expect([code, JSON.parse(out)[0].block]).toEqual([0, 'tune']);
  expect((await typed(['techniques', '-'], dir, TUNE)).out).toMatch(/^standard-input\/tune \(block 0\): difficulty /);
  const out2 = folderOf({});
  expect(await typed(['export', '-', '--to', 'abc', '--out', 'x.abc', '--course', dir], out2, TUNE)).toEqual({
    code: 0,
    out: 'x.abc\n',
    err: '',
  });
  expect(readdirSync(out2)).toEqual(['x.abc']);
  const broken = await typed(['show', '-'], dir, '99\n');
  expect([broken.code, broken.out]).toEqual([1, 'standard-input/0\nThis block has an error.\n']);
  expect(broken.err).toContain('-:1:1  no-hole');
  expect(await typed(['explain', '-', '--harp', 'A'], '/', "-3' 4\n")).toEqual(
    await typed(['explain', "-3'", '4', '--harp', 'A']),
  );
});
