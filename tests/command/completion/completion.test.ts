import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../../src/command/commands.ts';
import { completedCommands } from '../../../src/command/completion/completion.ts';
import { courseOf, folderOf, lesson, write } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const scriptOf = async (shell: string): Promise<string> => (await typed(['completion', shell])).out;

/** What bash offers for command lines, the last word of each being the one that is typed. */
async function bash(cwd: string, lines: readonly (readonly string[])[]): Promise<string[][]> {
  const calls = lines.map(
    (words) =>
      `COMP_WORDS=(${words.map((word) => `'${word}'`).join(' ')}); COMP_CWORD=${words.length - 1}; _reedway; printf '%s\\n' "\${COMPREPLY[@]}" ---`,
  );
  const { stdout, stderr } = spawnSync('bash', ['--norc', '-c', `${await scriptOf('bash')}\n${calls.join('\n')}`], {
    cwd,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  return stdout
    .split('---\n')
    .slice(0, -1)
    .map((part) => part.split('\n').filter(Boolean));
}

const isThere = (program: string): boolean => spawnSync(program, ['--version']).status === 0;

describe('the script for bash', () => {
  test('completes commands, options, their values and lessons', async () => {
    const dir = courseOf({ 'lessons/blues/turn.mdx': lesson() });
    write(dir, 'media/x.svg', '');
    const lessons = ['blues/turn', 'first'];
    const cases: [string[], string[]][] = [
      [['ch'], ['check']],
      [['--v'], ['--version']],
      [['check', '--fo'], ['--format']],
      [
        ['check', '--format', ''],
        ['text', 'json', 'sarif'],
      ],
      [['check', '--format', '=', 'j'], ['json']],
      [
        ['check', '--format', '='],
        ['text', 'json', 'sarif'],
      ],
      [['check', 'm'], ['media']],
      [['check', '--strict', 'l'], ['lessons']],
      [['check', 'one', 'l'], []],
      [['show', ''], lessons],
      [['show', '--course', '.', 'f'], ['first']],
      [['export', 'first', '--to', 'midi', 'b'], ['blues/turn']],
      [['export', '--to', 'mu'], ['musicxml']],
      [
        ['new', ''],
        ['course', 'lesson'],
      ],
      [['new', 'lesson', 'f'], []],
      [['new', 'lesson', '--after', 'f'], ['first']],
      [['messages', 'bar-too-l', 'bar-too-s'], ['bar-too-short']],
      [['explain', '-3', '--form', 'sixt'], ['sixteen-bar']],
      [
        ['completion', ''],
        ['bash', 'zsh', 'fish'],
      ],
      [['help', 'ove'], ['overview']],
      [['nothing', ''], []],
      [['nothing', '--'], []],
    ];
    const found = await bash(
      dir,
      cases.map(([words]) => ['reedway', ...words]),
    );
    expect(found.map((offered, index) => [cases[index]?.[0], offered])).toEqual(cases);
    expect(await bash(join(dir, 'lessons/blues'), [['reedway', 'show', '']])).toEqual([lessons]);
    expect(await bash(folderOf({}), [['reedway', 'show', '']])).toEqual([[]]);
  });
});

describe('the scripts', () => {
  test.runIf(isThere('zsh'))('are read by zsh', async () => {
    const { status, stderr } = spawnSync('zsh', ['-n'], { input: await scriptOf('zsh'), encoding: 'utf8' });
    expect([status, stderr]).toEqual([0, '']);
  });

  test.runIf(isThere('fish'))('complete in fish', async () => {
    const ask = (line: string): string => `complete -C ${JSON.stringify(line)} | string replace -r '\\t.*' ''\n`;
    const { stdout } = spawnSync(
      'fish',
      [
        '--no-config',
        '-c',
        `${await scriptOf('fish')}\n${ask('reedway check --format ')}${ask('reedway show --course . f')}`,
      ],
      { cwd: courseOf(), encoding: 'utf8' },
    );
    expect(stdout.split('\n').filter(Boolean)).toEqual(['json', 'sarif', 'text', 'first']);
  });

  test('know every command, option and word that the commands declare', async () => {
    const commands = await completedCommands(COMMANDS);
    expect(commands.map(({ name }) => name)).toEqual([...COMMANDS.map(({ name }) => name), 'help']);
    for (const shell of ['bash', 'zsh', 'fish']) {
      const script = await scriptOf(shell);
      for (const { name, options, arguments: all } of commands) {
        expect(script).toContain(name);
        for (const option of options) expect(script).toContain(option.name.slice(2));
        for (const words of [...all, ...options.map(({ takes }) => takes)])
          if (typeof words === 'object') for (const word of words) expect(script).toContain(word);
      }
    }
  });

  test('words that are offered need no quotation marks', async () => {
    for (const { options, arguments: all } of await completedCommands(COMMANDS))
      for (const words of [...all, ...options.map(({ takes }) => takes)])
        if (typeof words === 'object') for (const word of words) expect(word).toMatch(/^[\w.-]+$/);
  });

  test('there is none for another shell', async () => {
    expect((await typed(['completion', 'fihs'])).err).toMatch(/^There is no script for fihs\. Did you mean fish\?\n/);
    expect((await typed(['completion', 'cmd'])).err).toMatch(
      /^There is no script for cmd\. There are bash, zsh, fish\.\n/,
    );
  });
});
