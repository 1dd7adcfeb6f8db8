import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { courseOf, lesson, write } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const wrong = () =>
  courseOf({
    'course.yaml': 'title: A course\nharp: C\nposition: 2\n',
    'lessons/first.mdx': lesson("- Bend it:\n\n  ```tab\n  slot: 1/4\n  -2 -2''' . .\n  ```\n"),
    'lessons/second.mdx': lesson('```Tab\n4\n```\n'),
  });

describe('reedway check', () => {
  test('shows each problem with its line, a caret and the fix, and counts them', async () => {
    const dir = wrong();
    const { code, out, err } = await typed(['check', 'course'], dir.replace(/[^/]*$/, '')).then(() =>
      typed(['check', dir], dir),
    );
    expect([code, err]).toEqual([1, '']);
    expect(out).toBe(
      [
        'lessons/first.mdx:9:6  bend-too-deep',
        "    9 |   -2 -2''' . .",
        '      |      ^^^^^',
        '  Hole 2 draw bends at most two half steps on a C harp (from G4 down to F4, just above its blow reed E4).',
        "  Did you mean “-2''”?",
        '',
        'lessons/second.mdx:5:1  warning fence-word',
        '    5 | ```Tab',
        '      | ^^^^^^',
        '  A fence marked “Tab” is shown as plain text.',
        '  A block begins with ```tab .',
        '',
        '2 lessons, 1 block: 1 error, 1 warning.',
        '',
      ].join('\n'),
    );
  });

  test('names files from where it was typed', async () => {
    const dir = wrong();
    expect((await typed(['check', '.'], dir)).out).toMatch(/^lessons\/first\.mdx:9:6 /);
    expect((await typed(['check', '..'], join(dir, 'lessons'))).out).toMatch(/^first\.mdx:9:6 /);
  });

  test('reads the course it is typed in where none is named', async () => {
    const { out } = await typed(['check'], wrong());
    expect(out).toMatch(/^lessons\/first\.mdx:9:6 .*2 lessons, 1 block: 1 error, 1 warning\.\n$/s);
  });

  test('prints one array of problems as data, files relative to the course', async () => {
    const { code, out } = await typed(['check', wrong(), '--json']);
    expect(code).toBe(1);
    expect(JSON.parse(out)).toEqual([
      {
        file: 'lessons/first.mdx',
        line: 9,
        column: 6,
        endLine: 9,
        endColumn: 11,
        severity: 'error',
        code: 'bend-too-deep',
        message:
          'Hole 2 draw bends at most two half steps on a C harp (from G4 down to F4, just above its blow reed E4).',
        help: "Did you mean “-2''”?",
      },
      {
        file: 'lessons/second.mdx',
        line: 5,
        column: 1,
        endLine: 5,
        endColumn: 7,
        severity: 'warning',
        code: 'fence-word',
        message: 'A fence marked “Tab” is shown as plain text.',
        help: 'A block begins with ```tab .',
        fix: { certain: true, edits: [{ line: 5, column: 4, endLine: 5, endColumn: 7, text: 'tab' }] },
      },
    ]);
  });

  test('ends with 0 where nothing is wrong, or nothing but findings', async () => {
    const dir = courseOf({});
    expect(await typed(['check', dir])).toEqual({ code: 0, out: '1 lesson, 0 blocks: nothing wrong.\n', err: '' });
    expect((await typed(['check', dir, '--json'])).out).toBe('[]\n');
    write(dir, 'lessons/first.mdx', lesson('```TAB\n4\n```\n'));
    expect((await typed(['check', dir])).code).toBe(0);
    expect((await typed(['check', dir, '--strict'])).code).toBe(1);
  });

  test('prints the problems in the format that is asked for', async () => {
    const dir = wrong();
    expect(await typed(['check', dir, '--format', 'json'])).toEqual(await typed(['check', dir, '--json']));
    expect(await typed(['check', dir, '--format', 'text'])).toEqual(await typed(['check', dir]));
    const { code, out, err } = await typed(['check', dir, '--format', 'sarif']);
    expect([code, err]).toEqual([1, '']);
    expect(JSON.parse(out).runs[0].results.map(({ ruleId }: { ruleId: string }) => ruleId)).toEqual([
      'bend-too-deep',
      'fence-word',
    ]);
    const see = '\nreedway check --help shows what it takes.\n';
    for (const [line, why] of [
      [['--format', 'sarf'], 'There is no format “sarf”. Did you mean sarif?'],
      [['--format', '1'], 'There is no format “1”. There are text, json, sarif.'],
      [['--format', 'sarif', '--json'], '--json and --format sarif do not go together.'],
      [['--format', 'sarif', '--watch'], '--watch and --format sarif do not go together.'],
      [['--fix', '--watch'], '--watch and --fix do not go together.'],
      [
        ['--format', 'sarif', '--fix', '--dry-run'],
        '--dry-run prints a diff, and --format sarif problems: choose one.',
      ],
    ] as const)
      expect(await typed(['check', dir, ...line])).toEqual({ code: 2, out: '', err: `${why}${see}` });
  });

  test('prints only problems where it is to be quiet', async () => {
    const dir = wrong();
    const { code, out } = await typed(['check', dir], dir);
    expect(await typed(['check', dir, '--quiet'], dir)).toEqual({
      code,
      out: out.replace('2 lessons, 1 block: 1 error, 1 warning.\n', ''),
      err: '',
    });
    expect(await typed(['check', courseOf(), '--quiet'])).toEqual({ code: 0, out: '', err: '' });
    const { err, ...rest } = await typed(['build', dir, '--quiet', '--out', join(dir, 'dist')], dir);
    expect(rest).toEqual({ code: 1, out: '' });
    expect(err).toMatch(/bend-too-deep.*\n\nNothing was built\.\n$/s);
  });

  test('says that there is no such course', async () => {
    const { code, out } = await typed(['check', 'nowhere'], '/');
    expect(code).toBe(1);
    expect(out).toContain('There is no course folder at /nowhere.');
  });
});
