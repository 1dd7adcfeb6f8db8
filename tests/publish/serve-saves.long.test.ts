/** What editors and commands do to the files of a course while it is served. */
import { renameSync, truncateSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { courseOf, lesson, write } from '../course/some-course.ts';
import { reedway, started } from './some-site.ts';

const BLOCK = '```tab\nid: walk\nslot: 1/4\n-2 -3 -4 5\n```\n';
const FIRST = lesson(`Some words.\n\n${BLOCK}`, 'title: First');
const SECOND = lesson('```tab\n<first/walk>\n```\n\nMore words.\n', 'title: Second\nrequires: first');

let dir: string;
let address: string;
beforeAll(async () => {
  dir = courseOf({ 'course.yaml': 'title: A course\n', 'lessons/first.mdx': FIRST, 'lessons/second.mdx': SECOND });
  ({ address } = await started(['serve', dir, '--port', '4470']));
});
beforeEach(async () => {
  write(dir, 'lessons/first.mdx', FIRST);
  write(dir, 'lessons/second.mdx', SECOND);
  await hasSoon('lessons/first/', 'Some words.');
});

const page = async (path: string): Promise<string> => (await fetch(address + path)).text();
const hasSoon = (path: string, text: string) => expect.poll(() => page(path), { timeout: 20_000 }).toContain(text);
const file = (name: string): string => join(dir, 'lessons', name);

/** As many editors save: beside the file, and then in its place. */
function replace(name: string, content: string): void {
  writeFileSync(`${file(name)}.tmp`, content);
  renameSync(`${file(name)}.tmp`, file(name));
}

describe('under serve', () => {
  test('2,000 quick saves end in the last, however an editor saves', async () => {
    for (let save = 1; save <= 2000; save++) {
      const content = FIRST.replace('Some words.', `Saved ${save} times.`);
      if (save % 2) writeFileSync(file('first.mdx'), content);
      else replace('first.mdx', content);
      if (save % 10 === 0) await sleep(5);
    }
    await hasSoon('lessons/first/', 'Saved 2000 times.');
    expect(await page('lessons/second/')).toContain('More words.');
  });

  test('500 requests during 500 saves are all answered with a whole page', async () => {
    const saving = (async () => {
      for (let save = 1; save <= 500; save++) {
        writeFileSync(file('first.mdx'), FIRST.replace('Some words.', `Saved ${save} times.`));
        await sleep(10);
      }
    })();
    let incomplete = 0;
    for (let request = 0; request < 500; request += 5) {
      const pages = await Promise.all(Array.from({ length: 5 }, () => fetch(`${address}lessons/first/`)));
      for (const one of pages) if (one.status !== 200 || !(await one.text()).includes('</html>')) incomplete++;
    }
    await saving;
    expect(incomplete).toBe(0);
    await hasSoon('lessons/first/', 'Saved 500 times.');
  });

  test('a file that is saved half way is shown as it is, and whole when it is whole', async () => {
    const content = FIRST.replace('Some words.', 'Whole again.');
    for (const length of [0, 10, content.length - 20, content.length - 4]) {
      writeFileSync(file('first.mdx'), content);
      truncateSync(file('first.mdx'), length);
      await sleep(300);
      expect((await fetch(`${address}lessons/second/`)).status).toBeLessThan(500);
    }
    writeFileSync(file('first.mdx'), content);
    await hasSoon('lessons/first/', 'Whole again.');
    expect(await page('lessons/first/')).not.toContain('data-code=');
  });

  test('a lesson that is renamed is at its new address, and the old one leads there', async () => {
    expect((await reedway(['rename', 'first', 'blues/opening'], dir)).code).toBe(0);
    await hasSoon('lessons/blues/opening/', 'Some words.');
    await hasSoon('lessons/first/', '/lessons/blues/opening/');
    expect(await page('lessons/second/')).not.toContain('data-code=');
    expect((await reedway(['rename', 'blues/opening', 'first'], dir)).code).toBe(0);
    await hasSoon('lessons/first/', 'Some words.');
  });

  test('two editors at two lessons lose nothing, and a second server of the course sees both', async () => {
    const other = await started(['serve', dir, '--port', '4470']);
    expect(other.address).not.toBe(address);
    for (let save = 1; save <= 50; save++) {
      writeFileSync(file('first.mdx'), FIRST.replace('Some words.', `First ${save}.`));
      await sleep(7);
      replace('second.mdx', SECOND.replace('More words.', `Second ${save}.`));
      await sleep(13);
    }
    for (const at of [address, other.address]) {
      const text = async (path: string): Promise<string> => (await fetch(at + path)).text();
      await expect.poll(() => text('lessons/first/'), { timeout: 20_000 }).toContain('First 50.');
      await expect.poll(() => text('lessons/second/'), { timeout: 20_000 }).toContain('Second 50.');
    }
  });

  test('commands that change files go through while the course is served', async () => {
    write(dir, 'lessons/first.mdx', FIRST.replace('-2 -3 -4 5', '-2   -3 -4  5').replace('Some words.', '#Words'));
    expect((await reedway(['format'], dir)).code).toBe(0);
    expect((await reedway(['check', '--fix'], dir)).code).toBe(0);
    await hasSoon('lessons/first/', 'Words</h1>');
  });

  test('a course whose folder is gone is served again when it is back', async () => {
    renameSync(dir, `${dir}-away`);
    await sleep(500);
    renameSync(`${dir}-away`, dir);
    write(dir, 'lessons/first.mdx', FIRST.replace('Some words.', 'Back again.'));
    await hasSoon('lessons/first/', 'Back again.');
  });
});

test('a port that another program has gives way to the next', async () => {
  const taken = createServer().listen(4490, 'localhost');
  try {
    const { address: next } = await started(['serve', dir, '--port', '4490']);
    expect(Number(new URL(next).port)).toBeGreaterThan(4490);
    expect((await fetch(next)).status).toBe(200);
  } finally {
    taken.close();
  }
});
