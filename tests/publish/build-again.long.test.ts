/** Builds of one course again and at once: what they leave for the next, and for each other. */
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { courseOf, folderOf, lesson } from '../course/some-course.ts';
import { filesBelow, reedway } from './some-site.ts';

let dir: string;
beforeAll(() => {
  dir = courseOf({
    'course.yaml': 'title: A course\n',
    'lessons/first.mdx': lesson('Some words.\n\n```tab\nslot: 1/4\n-2 -3 -4 5\n```\n', 'title: First'),
    'lessons/second.mdx': lesson(
      '```tab\n<first/0>\n```\n\n<BendLadder hole="3" />\n',
      'title: Second\nrequires: first',
    ),
  });
});

test('adds nothing to what Node keeps of compiled code when it is built again', async () => {
  const folder = folderOf({});
  const filesKept = async (out: string): Promise<ReadonlySet<string>> => {
    const kept = { NODE_COMPILE_CACHE: join(folder, 'compiled'), NODE_DEBUG_NATIVE: 'COMPILE_CACHE' };
    const ran = await reedway(['build', dir, '--out', out], folder, kept);
    expect(ran.code).toBe(0);
    const names = [...ran.err.matchAll(/writing cache for \w+ (\S+)/g)].map(([, name = '']) => name);
    // Builds that run at once work in folders of different numbers.
    return new Set(names.map((name) => name.replace(/\/build-\d+\//, '/build/')));
  };
  const first = await filesKept('one');
  expect(first.size).toBeGreaterThan(100);
  expect([...(await filesKept('two'))].filter((name) => !first.has(name))).toEqual([]);
});

test('of which two builds at once write one cache is the same from both', async () => {
  const folder = folderOf({});
  const both = await Promise.all(['one', 'two'].map((name) => reedway(['build', dir, '--out', name], folder)));
  expect(both.map(({ code }) => code)).toEqual([0, 0]);
  expect(filesBelow(join(folder, 'one'))).toEqual(filesBelow(join(folder, 'two')));
});
