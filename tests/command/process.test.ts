/** The command as a process of its own: from the clone, and compiled as an installed package has it. */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { PACKAGE } from '../../src/command/package.ts';
import { courseOf, folderOf, lesson, write } from '../course/some-course.ts';
import { alsoLong, LONG } from '../setup/long.ts';

const ENTRY = join(PACKAGE, 'src/command/reedway.ts');

const spawned = (program: string, args: readonly string[], cwd: string, env: NodeJS.ProcessEnv = process.env) => {
  const { status, stdout, stderr } = spawnSync(program, args, { cwd, env, encoding: 'utf8' });
  return { status, stdout, stderr };
};

describe('in the clone', () => {
  test('takes paths from where it was typed, under npm too', () => {
    const dir = courseOf();
    const closing = '1 lesson, 0 blocks: nothing wrong.\n';
    expect(spawned(process.execPath, [ENTRY, 'check', '.'], dir)).toEqual({ status: 0, stdout: closing, stderr: '' });
    const { INIT_CWD: _, ...env } = process.env;
    const under = spawned('npm', ['--prefix', PACKAGE, 'run', '-s', 'reedway', '--', 'check', '.'], dir, env);
    expect(under).toEqual({ status: 0, stdout: closing, stderr: '' });
  });

  test.runIf(LONG)('checks the demo course by its name, or at the root of the clone', () => {
    const wanted = spawned(process.execPath, [ENTRY, 'check', 'demo'], '/');
    expect(wanted.stdout).toContain(' lessons, ');
    expect(spawned(process.execPath, [ENTRY, 'check'], PACKAGE)).toEqual(wanted);
  });

  test('checks the course around the folder it is typed in', () => {
    const dir = courseOf({ 'lessons/folder/second.mdx': lesson() });
    const inside = spawned(process.execPath, [ENTRY, 'check'], join(dir, 'lessons/folder'));
    expect(inside).toEqual({ status: 0, stdout: '2 lessons, 0 blocks: nothing wrong.\n', stderr: '' });
  });

  test.each([
    ['is empty', {}, ''],
    [
      'has its file under another name',
      { 'course.yml': 'title: A course\n' },
      ' Its course.yml has to be called course.yaml.',
    ],
  ])('finds no course in a folder that %s, and builds none', (_, files, hint) => {
    const dir = folderOf({ 'a.txt': '', ...files });
    const message = `There is no course here: neither ${dir} nor a folder above it has a course.yaml.${hint} Name the folder of the course, as in: reedway check ~/my-course\n`;
    for (const command of alsoLong(['build'], ['check', 'serve', 'path'])) {
      const { status, stdout, stderr } = spawned(process.execPath, [ENTRY, command], dir);
      expect([status, stdout]).toEqual([2, '']);
      expect(stderr.replace(/\s+/g, ' ').trim()).toContain(message.replace(/\s+/g, ' ').trim());
    }
    expect(existsSync(join(dir, 'dist'))).toBe(false);
  });

  test('ends with 2 on what it does not know', () => {
    expect(spawned(process.execPath, [ENTRY, 'check', '--nothing'], '/').status).toBe(2);
  });

  test.runIf(LONG)('checks again after each change until it is stopped', async () => {
    const dir = courseOf();
    const child = spawn(process.execPath, [ENTRY, 'check', '--watch'], { cwd: dir, stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    child.stdout.on('data', (text) => {
      out += text;
    });
    const ended = new Promise((resolve) => child.on('close', (...how) => resolve(how)));
    await expect.poll(() => out).toContain('1 lesson, 0 blocks: nothing wrong.\n');
    for (let i = 0; i < 20; i++) write(dir, 'lessons/first.mdx', lesson('[x](nowhere)\n'.repeat(i + 1)));
    await expect.poll(() => out).toContain('1 lesson, 0 blocks: 20 errors.\n');
    expect(out).not.toContain('\x1b');
    child.kill('SIGINT');
    expect(await ended).toEqual([0, null]);
  });

  test('ends quietly when nobody reads on', async () => {
    const bad = '```tab\n99 98 97 96\n```\n\n';
    const dir = courseOf({ 'lessons/first.mdx': lesson(bad.repeat(3000)) });
    const child = spawn(process.execPath, [ENTRY, 'check', dir], { stdio: ['ignore', 'pipe', 'pipe'] });
    let err = '';
    child.stderr.on('data', (text) => {
      err += text;
    });
    child.stdout.once('data', () => child.stdout.destroy());
    const [code, signal] = await new Promise<[number | null, string | null]>((resolve) => {
      child.on('close', (...how) => resolve(how));
    });
    expect([err, signal]).toEqual(['', null]);
    expect(code).not.toBe(null);
  });
});

describe.runIf(LONG)('as an installed package', () => {
  let home = '';
  let launch = '';
  const old = (version: string): string =>
    `data:text/javascript,Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '${version}' } })`;

  beforeAll(() => {
    home = folderOf({ 'package.json': '{}' });
    const installed = join(home, 'node_modules/reedway');
    mkdirSync(installed, { recursive: true });
    cpSync(join(PACKAGE, 'package.json'), join(installed, 'package.json'));
    symlinkSync(join(PACKAGE, 'node_modules'), join(installed, 'node_modules'));
    const compiler = join(PACKAGE, 'node_modules/typescript/bin/tsc');
    execFileSync(process.execPath, [
      compiler,
      '-p',
      join(PACKAGE, 'src/command/compile.json'),
      '--outDir',
      join(installed, 'lib'),
      // Types are checked elsewhere.
      '--noCheck',
    ]);
    launch = join(installed, 'lib/command/launch.js');
  }, 120_000);

  test('checks a course that has no package of its own', () => {
    const dir = courseOf({ 'lessons/first.mdx': lesson('```tab\n11\n```\n') });
    const { status, stdout, stderr } = spawned(process.execPath, [launch, 'check', '.'], dir);
    expect([status, stderr]).toEqual([1, '']);
    expect(stdout).toContain('lessons/first.mdx:6:1  no-hole');
  });

  test('continues with the Node that lies beside it when started on one that is too old', () => {
    const { status, stdout, stderr } = spawned(
      process.execPath,
      ['--import', old('20.19.0'), launch, '--version'],
      home,
    );
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });

  test('says which Node it needs where none lies near', () => {
    const alone = folderOf({ 'package.json': '{"type": "module"}' });
    cpSync(launch, join(alone, 'launch.js'));
    const { status, stderr } = spawned(process.execPath, ['--import', old('22.11.0'), join(alone, 'launch.js')], alone);
    expect(status).toBe(1);
    expect(stderr).toMatch(/^Reedway needs Node 22\.12 or later, and this is 22\.11\.0\.\n/);
  });
});
