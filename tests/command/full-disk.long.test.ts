/** What the commands leave behind on a disk that has no room left: a file system in memory, which only the started process sees. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { courseOf, folderOf, lesson } from '../course/some-course.ts';

const ENTRY = fileURLToPath(new URL('../../src/command/reedway.ts', import.meta.url));
const NAMESPACE = ['--mount', ...(process.getuid?.() === 0 ? [] : ['--map-root-user'])];
/** Not every container lets a process mount anything. */
const canMount = spawnSync('unshare', [...NAMESPACE, 'mount', '-t', 'tmpfs', 'tmpfs', folderOf({})]).status === 0;

const MISTAKE = lesson('#Riffs\n\n```tab\nslot: 1/4\n-2 -3 -4 5\n```\n');

/** Runs shell commands in the folder of a course, on a disk of its own that is full. What they print, with `code N` behind each. */
function onFullDisk(...commands: readonly string[]): string {
  const course = courseOf({ 'lessons/first.mdx': MISTAKE });
  const script = [
    'disk=$1; mount -t tmpfs -o size=400k tmpfs "$disk" && cp -r "$2"/. "$disk" && cd "$disk"',
    'head -c 1000000 /dev/zero > filled 2> /dev/null; find . | sort > /dev/shm/$$.before',
    ...commands.map((command) => `${command.replace(/^reedway/, '"$3" "$4"')} 2>&1; echo "code $?"`),
    'find . | sort | diff /dev/shm/$$.before - && echo "no other files"; rm /dev/shm/$$.before',
  ].join('\n');
  const { stdout } = spawnSync(
    'unshare',
    [...NAMESPACE, 'sh', '-c', script, 'sh', folderOf({}), course, process.execPath, ENTRY],
    { encoding: 'utf8' },
  );
  return stdout;
}

describe.runIf(canMount)('on a full disk', () => {
  test('a build says so and leaves nothing behind', () => {
    expect(onFullDisk('reedway build .')).toMatch(
      / cannot be written: the disk is full\.\nReedway builds beside the folder it publishes to, .*\ncode 1\nno other files\n$/,
    );
  });
  test('fixes say so, and the lesson stays as it was', () => {
    const printed = onFullDisk(
      'cp lessons/first.mdx /dev/shm/kept',
      'reedway check --fix .',
      'cmp lessons/first.mdx /dev/shm/kept',
    );
    expect(printed).toBe(
      'code 0\nlessons/first.mdx cannot be written: the disk is full. Nothing was changed.\ncode 1\ncode 0\nno other files\n',
    );
  });
  test('an export says so and leaves nothing behind', () => {
    expect(onFullDisk('reedway export first --to musicxml --out sheets')).toMatch(
      /cannot be written: the disk is full\. Nothing was written\.\ncode 1\nno other files\n$/,
    );
  });
});
