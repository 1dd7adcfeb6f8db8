import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../src/command/commands.ts';
import { folderOf, lesson } from '../course/some-course.ts';
import { typed } from './some-terminal.ts';

describe('reedway', () => {
  test('lists every command in its help', async () => {
    const { code, out } = await typed(['--help']);
    expect(code).toBe(0);
    for (const { name, summary } of COMMANDS) expect(out).toMatch(new RegExp(`^  ${name} +${summary}$`, 'm'));
  });
  test('prints its version', async () => {
    expect((await typed(['--version'])).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
  test('shows its help, as a mistake, where nothing is asked of it', async () => {
    const { code, out } = await typed([]);
    expect(code).toBe(2);
    expect(out).toContain('reedway COMMAND');
  });
  test.each([
    [['chekc'], 'There is no command chekc. Did you mean check?\nreedway --help lists what there is.\n'],
    [['--versoin'], 'There is no option --versoin.\nreedway --help lists what there is.\n'],
    [
      ['check', '--jsno'],
      'There is no option --jsno. Did you mean --json?\nreedway check --help shows what it takes.\n',
    ],
    [['check', '-j'], 'There is no option -j.\nreedway check --help shows what it takes.\n'],
    [['check', '--json=yes'], '--json takes no value.\nreedway check --help shows what it takes.\n'],
    [['check', 'a', 'b'], '“b” is one argument too many.\nreedway check --help shows what it takes.\n'],
    [['show'], expect.stringMatching(/^LESSON\[\/BLOCK\] is missing: The name of a lesson/)],
    [['show', 'a', '--course'], '--course needs a value: --course DIR.\nreedway show --help shows what it takes.\n'],
    [
      ['show', '--course', '--json', 'a'],
      '--course needs a value: --course DIR.\nreedway show --help shows what it takes.\n',
    ],
    [
      ['messages', 'bar-to-long'],
      'There is no code bar-to-long. Did you mean bar-too-long?\nreedway messages --help shows what it takes.\n',
    ],
  ])('ends with 2 and says why: %j', async (line, says) => {
    expect(await typed(line)).toEqual({ code: 2, out: '', err: says });
  });
});

describe('arguments', () => {
  test('take -h for --help, alone and among others', async () => {
    const { out } = await typed(['--help']);
    expect(await typed(['-h'])).toEqual({ code: 0, out, err: '' });
    const check = (await typed(['check', '--help'])).out;
    expect(check).toMatch(/^ {2}--help, -h +Show this help\.$/m);
    expect((await typed(['check', '-h'])).out).toBe(check);
    expect((await typed(['check', 'somewhere', '--json', '-h'])).out).toBe(check);
    expect((await typed(['show', 'x', '--course', '-h'])).out).toBe('');
    expect((await typed(['explain', '-h'])).out).toMatch(/^reedway explain /);
  });
  test('after -- are taken as they are', async () => {
    const parent = folderOf({ '--json/course.yaml': 'title: A\n', '--json/lessons/a.mdx': lesson() });
    expect(await typed(['check', '--', '--json'], parent)).toEqual({
      code: 0,
      out: '1 lesson, 0 blocks: nothing wrong.\n',
      err: '',
    });
    expect((await typed(['explain', '--harp', 'A', '--', '-3', '4'])).out).toMatch(/^A harp, .*^-3 .*^4 /ms);
    expect((await typed(['check', '--', '-h'], parent)).out).toContain('There is no course folder');
  });
});

describe('the help of', () => {
  test.each(COMMANDS.map((row) => [row.name, row] as const))('%s names all it takes', async (name, row) => {
    const { command } = await row.load();
    const { code, out } = await typed([name, '--help']);
    expect(code).toBe(0);
    expect(out.startsWith(`reedway ${name}`)).toBe(true);
    for (const argument of command.arguments) expect(out).toContain(`  ${argument.name}`);
    for (const option of Object.keys(command.options)) expect(out).toContain(`  --${option}`);
    expect((await typed(['help', name])).out).toBe(out);
    for (const line of out.split('\n').slice(1)) expect(line.length).toBeLessThanOrEqual(92);
  });
});
