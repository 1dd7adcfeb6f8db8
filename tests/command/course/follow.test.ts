import { mkdirSync, renameSync, rmSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { Terminal } from '../../../src/command/command.ts';
import { watchCourse } from '../../../src/command/course/check.ts';
import { followCourse } from '../../../src/command/course/follow.ts';
import { courseOf, lesson, write } from '../../course/some-course.ts';
import { LONG } from '../../setup/long.ts';
import { typed } from '../some-terminal.ts';

/** What `check --watch` has printed so far. */
function watching(dir: string, options = {}, clear?: () => void): () => string {
  let out = '';
  const terminal: Terminal = {
    cwd: dir,
    clear,
    out: (text) => {
      out += text;
    },
    err: () => {},
    progress: () => {},
  };
  const stop = new AbortController();
  const ended = watchCourse(dir, options, terminal, stop.signal);
  onTestFinished(async () => {
    stop.abort();
    await ended;
  });
  return () => out;
}

const checks = (out: string): string[] => out.split(/Checked at \d\d:\d\d:\d\d\.\n\n/).slice(1);
const last = (out: string): string => checks(out).at(-1)?.trim() ?? '';

describe('reedway check --watch', () => {
  test('prints again after each change, under the time', async () => {
    const dir = courseOf();
    const out = watching(dir);
    expect(out()).toMatch(/^Checked at \d\d:\d\d:\d\d\.\n\n1 lesson, 0 blocks: nothing wrong\.\n\n$/);
    write(dir, 'lessons/first.mdx', lesson('[x](nowhere)\n'));
    await expect.poll(out).toMatch(/lessons\/first\.mdx:5:5 {2}link-unknown.*1 lesson, 0 blocks: 1 error\.\n\n$/s);
    write(dir, 'lessons/second.mdx', lesson());
    await expect.poll(() => last(out())).toContain('2 lessons, 0 blocks: 1 error.');
    rmSync(join(dir, 'lessons/second.mdx'));
    await expect.poll(() => last(out())).toContain('1 lesson, 0 blocks: 1 error.');
    write(dir, 'lessons/first.mdx', lesson());
    await expect.poll(() => last(out())).toBe('1 lesson, 0 blocks: nothing wrong.');
    expect(checks(out())).toHaveLength(5);
  });

  test.runIf(LONG)('goes on where course.yaml or the whole folder goes away and comes back', async () => {
    const dir = courseOf();
    const out = watching(dir);
    renameSync(join(dir, 'course.yaml'), join(dir, 'away'));
    await expect.poll(() => last(out())).toContain('course-file-missing');
    renameSync(join(dir, 'away'), join(dir, 'course.yaml'));
    await expect.poll(() => last(out())).toBe('1 lesson, 0 blocks: nothing wrong.');
    renameSync(dir, `${dir}-away`);
    await expect.poll(() => last(out())).toContain('course-missing');
    renameSync(`${dir}-away`, dir);
    await expect.poll(() => last(out())).toBe('1 lesson, 0 blocks: nothing wrong.');
  });

  test.runIf(LONG)('goes on after a file that was saved half way, and after one that is no text', async () => {
    const dir = courseOf();
    const out = watching(dir);
    write(dir, 'lessons/first.mdx', '---\ntit');
    await expect.poll(() => last(out())).toMatch(/1 lesson, 0 blocks: \d error/);
    write(dir, 'lessons/first.mdx', new Uint8Array([0xff, 0xfe, 0, 0xd8]));
    await expect.poll(() => checks(out()).length).toBe(3);
    rmSync(join(dir, 'lessons/first.mdx'));
    mkdirSync(join(dir, 'lessons/first.mdx'));
    await expect.poll(() => last(out())).toContain('no-lessons');
    rmSync(join(dir, 'lessons/first.mdx'), { recursive: true });
    write(dir, 'lessons/first.mdx', lesson());
    await expect.poll(() => last(out())).toBe('1 lesson, 0 blocks: nothing wrong.');
  });

  test('empties the window first, where the output is shown in one, and can be quiet', async () => {
    const cleared: string[] = [];
    const out = watching(courseOf(), { quiet: true }, () => cleared.push('cleared'));
    expect(cleared).toEqual(['cleared']);
    expect(out()).toMatch(/^Checked at .*\.\n\n$/);
  });

  test('prints no data', async () => {
    expect((await typed(['check', courseOf(), '--watch', '--json'])).err).toMatch(
      /^--watch and --json do not go together\./,
    );
  });
});

describe('following a course', () => {
  test('counts many changes at once as one, and a change of time alone as one too', async () => {
    const dir = courseOf();
    let changes = -1;
    const stop = new AbortController();
    const ended = followCourse(dir, () => changes++, stop.signal);
    for (let i = 0; i < 50; i++) write(dir, `lessons/l${i}.mdx`, lesson());
    await expect.poll(() => changes).toBe(1);
    utimesSync(join(dir, 'course.yaml'), 1, 1);
    await expect.poll(() => changes).toBe(2);
    stop.abort();
    await ended;
  });
});
