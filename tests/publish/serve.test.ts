import { existsSync, renameSync, rmSync, symlinkSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeAll, describe, expect, test } from 'vitest';
import { courseOf, lesson, write } from '../course/some-course.ts';
import { alsoLong, LONG } from '../setup/long.ts';
import { NOT_LOCALHOST } from './not-localhost.ts';
import { started } from './some-site.ts';

const FIRST = lesson('Some words.\n\n```tab\nslot: 1/4\n-2 -3 -4 5\n```\n', 'title: First');
const SECOND = lesson('```tab\n<first/0>\n```\n', 'title: Second\nrequires: first');
const COURSE = 'title: The old name\n';

let dir: string;
let address: string;
beforeAll(async () => {
  const made = courseOf({
    'course.yaml': COURSE,
    'lessons/first.mdx': FIRST,
    // As some editors write it, with a byte order mark.
    'lessons/second.mdx': `\ufeff${SECOND}`,
    'media/clip.mp4': 'film',
    'public/robots.txt': 'User-agent: *\n',
    'public/index.html': 'no home page',
  });
  // Signs that mean something else in an address.
  dir = `${made} in C#, or in A?`;
  renameSync(made, dir);
  ({ address } = await started(['serve', dir, '--port', '4170']));
});
afterEach(() => {
  write(dir, 'course.yaml', COURSE);
  write(dir, 'lessons/first.mdx', FIRST);
});

const page = async (path: string): Promise<string> => (await fetch(address + path)).text();

/** The page once it has (or has no longer) what is looked for. */
async function pageWith(path: string, wanted: RegExp, there = true): Promise<string> {
  let text = '';
  for (let attempt = 0; attempt < 200; attempt++) {
    text = await page(path);
    if (wanted.test(text) === there) return text;
    await sleep(50);
  }
  throw new Error(
    `${path} ${there ? 'never had' : 'kept'} ${wanted}:\n${text.replace(/<svg.*?<\/svg>/gs, '').slice(0, 4000)}`,
  );
}

test('no other machine can reach the pages', async () => {
  const { hostname, port } = new URL(address);
  expect(hostname).toBe('localhost');
  await expect(fetch(`http://${NOT_LOCALHOST}:${port}/`)).rejects.toThrow();
});

describe('a change is seen', () => {
  test('of the words of a lesson', async () => {
    expect(await page('lessons/first/')).toMatch('Some words.');
    write(dir, 'lessons/first.mdx', FIRST.replace('Some words.', 'Other words.'));
    await pageWith('lessons/first/', /Other words\./);
  });

  test('of a block, and of what quotes it', async () => {
    write(dir, 'lessons/first.mdx', FIRST.replace('-4 5', '-4 6'));
    await pageWith('lessons/first/', /blow 6, one beat/);
    await pageWith('lessons/second/', /blow 6, one beat/);
  });

  test('of course.yaml, on every page', async () => {
    write(dir, 'course.yaml', 'title: A new name\n');
    await pageWith('lessons/second/', /A new name/);
  });

  test.runIf(LONG)('though it comes close upon another, as where an editor saves and then tidies', async () => {
    for (const gap of alsoLong([5, 45], [25, 50, 85, 40, 42, 44, 46, 47, 48, 49, 52, 55])) {
      write(dir, 'lessons/first.mdx', FIRST.replace('Some words.', `Saved once, ${gap}.`));
      await sleep(gap);
      write(dir, 'lessons/first.mdx', FIRST.replace('Some words.', `Saved twice, ${gap}.`));
      await pageWith('lessons/first/', new RegExp(`Saved twice, ${gap}\\.`));
    }
  });

  test.runIf(LONG)('when a lesson comes, changes and goes', async () => {
    write(dir, 'lessons/third.mdx', lesson('Here I am.\n', 'title: Third\nrequires: second'));
    await pageWith('', /Third/);
    await pageWith('lessons/third/', /Here I am\./);
    write(dir, 'lessons/third.mdx', lesson('Still here.\n', 'title: Third\nrequires: second'));
    await pageWith('lessons/third/', /Still here\./);
    rmSync(`${dir}/lessons/third.mdx`);
    await pageWith('', /Third/, false);
    expect((await fetch(`${address}lessons/third/`)).status).toBe(404);
  });
});

test.runIf(LONG)('a lesson nested too deep for the compiler is reported, and the server continues', async () => {
  write(dir, 'lessons/first.mdx', `${FIRST}\n${'> '.repeat(12_000)}a\n`);
  await pageWith('lessons/first/', /quotations, lists or elements are in one another here/);
  write(dir, 'lessons/first.mdx', `${FIRST}\n${'<b>'.repeat(12_000)}\n`);
  await pageWith('lessons/first/', /tags are open here at once/);
  write(dir, 'lessons/first.mdx', FIRST);
  await pageWith('lessons/first/', /which no lesson needs/, false);
  expect(await page('lessons/first/')).toMatch('Some words.');
});

test('files of the media folder are there, and only they', async () => {
  const film = await fetch(`${address}media/clip.mp4`);
  expect([film.headers.get('content-type'), await film.text()]).toEqual(['video/mp4', 'film']);
  expect((await fetch(`${address}media/none.mp4`)).status).toBe(404);
  expect(await (await fetch(`${address}licences.txt`)).text()).toContain('SIL OPEN FONT LICENSE');
  expect(await page('media/..%2fcourse.yaml')).not.toMatch(/^title:/);
  expect(await page('robots.txt')).toBe('User-agent: *\n');
  expect(await page('')).toMatch('The old name');
});

describe('a request', () => {
  const raw = (path: string, headers: Record<string, string> = {}, method = 'GET') =>
    new Promise<{ status: number | undefined; location: string | undefined; body: string }>((resolve, reject) => {
      request(`${address}`, { path, headers, method }, (response) => {
        let body = '';
        response.on('data', (data) => {
          body += data;
        });
        response.on('end', () => resolve({ status: response.statusCode, location: response.headers.location, body }));
      })
        .on('error', reject)
        .end();
    });

  test.each([
    '/%',
    '//%252e%252e/',
    '/lessons//first/',
    '/lessons/%252e/first/',
    '/%ff',
    '/__open-in-editor?file=/etc/passwd',
    '/__open-in-editor',
    '/_image?href=https://example.org/x.png',
    '/__vite_ping',
    '/package.json',
    '/tests/publish/serve.test.ts',
    '/.env',
    '//example.org/path',
    '/nowhere',
    '/lessons/nowhere/',
    '/lessons/nowhere',
    '/course.yaml',
    '/media/..%2fcourse.yaml',
    '/@id/?import&raw',
    '/@fs/?import&raw',
    '/@fs/',
    '/src/?import&raw',
    '/@vite/client/nothing',
    '/src/site/site.ts?astro&type=style&index=0&lang.css',
  ])('for %s, which is no page, is answered with the page that says so', async (path) => {
    const { status, body } = await raw(path);
    expect(status).toBe(404);
    expect(body).not.toMatch(/^title:|"version"|^root:/m);
  });

  test.each(['/@fs/etc/passwd', '/@fs/etc/passwd?raw', '/@fs/etc/passwd?import'])(
    'for a file outside of the program, %s, is refused',
    async (path) => {
      expect((await raw(path)).status).toBe(404);
    },
  );

  test('for a file beside the course is refused, also after its address was asked for as that of a part of a page', async () => {
    write(dir, 'notes.txt', 'a secret');
    for (const query of ['?import', '?import', '?url&import', '', '?raw', '?import&raw']) {
      const { status, body } = await raw(`/@fs${dir.split('/').map(encodeURIComponent).join('/')}/notes.txt${query}`);
      expect([query, status]).toEqual([query, 404]);
      expect(body).not.toMatch('a secret');
    }
    const code = await raw(`/@fs${fileURLToPath(new URL('../../src/values/checked.ts', import.meta.url))}`);
    expect(code.status).toBe(200);
  });

  test.each([
    ['/lessons/first', '/lessons/first/'],
    ['/path?from=here', '/path/?from=here'],
    ['/harps', '/harps/'],
  ])('for the page %s without its slash leads to the page', async (path, location) => {
    const answer = await raw(path);
    expect([answer.status, answer.location]).toEqual([301, location]);
    expect((await raw(location)).status).toBe(200);
  });

  test('from a page of another site that has its name lead here is refused', async () => {
    expect((await raw('/', { host: 'example.org' })).status).toBe(421);
  });

  test('that would change something is refused', async () => {
    expect((await raw('/', {}, 'POST')).status).toBe(405);
  });
});

test('the scores of a lesson are there as they are now', async () => {
  const scores = async () =>
    (await (await fetch(`${address}music/first.json`)).json()).scores['0'].score.bars[0].events.at(-1).notes[0].hole;
  expect(await scores()).toBe(5);
  write(dir, 'lessons/first.mdx', FIRST.replace('-4 5', '-4 6'));
  await pageWith('lessons/first/', /blow 6, one beat/);
  expect(await scores()).toBe(6);
  expect((await fetch(`${address}music/none.json`)).status).toBe(404);
});

test.runIf(LONG)('a course folder that was away for a moment is followed when it is back', async () => {
  for (const away of [20, 700]) {
    renameSync(dir, `${dir}-away`);
    await sleep(away);
    if (away > 500) await pageWith('', /course-missing/);
    renameSync(`${dir}-away`, dir);
    await pageWith('', /course-missing/, false);
    expect(await page('lessons/first/')).toMatch('Some words.');
    write(dir, 'lessons/first.mdx', FIRST.replace('Some words.', `Back after ${away}.`));
    await pageWith('lessons/first/', new RegExp(`Back after ${away}`));
    write(dir, 'course.yaml', `title: Back after ${away}\n`);
    await pageWith('lessons/first/', new RegExp(`Back after ${away}`));
    write(dir, 'lessons/first.mdx', FIRST);
    write(dir, 'course.yaml', COURSE);
    await pageWith('lessons/first/', /Back after/, false);
  }
});

/** The watcher tells of no second change within 50 ms of a first: many saves make it likely that the last is such a one. */
test.runIf(LONG)(
  'pages are whole, and soon there, while their author saves again and again, and then show the last save',
  async () => {
    for (const round of [1, 2, 3]) {
      let saving = true;
      const saves = (async () => {
        for (let save = 1; save <= 60; save++) {
          write(
            dir,
            'lessons/first.mdx',
            FIRST.replace('Some words.', `Save ${round}.${save}.${save % 7 ? '' : '\n\n```tab\n11\n```\n'}`),
          );
          await sleep(40);
        }
        saving = false;
      })();
      let pages = 0;
      while (saving) {
        for (const path of ['lessons/first/', 'lessons/second/', 'path/', '']) {
          const asked = Date.now();
          expect(await page(path), path).toMatch(/<\/html>/);
          expect(Date.now() - asked).toBeLessThan(10_000);
          pages++;
        }
      }
      await saves;
      expect(pages).toBeGreaterThan(3);
      await pageWith('lessons/first/', new RegExp(`Save ${round}\\.60\\.`));
    }
    write(dir, 'lessons/first.mdx', FIRST);
    await pageWith('lessons/first/', /Save \d/, false);
  },
);

const ATTACKS = alsoLong(
  ['<script>{`planted`}</script>', 'export const planted = process.exit()', '![a](https://example.org/planted.png)'],
  [
    '<img src="media/clip.mp4" alt="" onerror="planted" />',
    '<Fragment set:html="<script>planted</script>" />',
    "{globalThis.planted = 'planted'}",
    '<iframe src="https://example.org/planted" />',
    '[a](javascript:planted)',
    '[a](java&#x09;script:planted)',
    '<HarpMap onclick="planted" />',
    '{1 <!--globalThis["planted"]}',
    '<audio src={["https://example.org/planted.mp3"]} />',
    '<img src="/\\example.org/planted.png" alt="" />',
  ],
);
test.each(ATTACKS)('a lesson is not shown that holds a program or loads from another site: %s', async (attack) => {
  write(dir, 'lessons/first.mdx', FIRST.replace('Some words.', `Other words.\n\n${attack}\n`));
  const shown = (await pageWith('lessons/first/', /<pre data-code=/)).replace(/<pre data-code=.*?<\/pre>/gs, '');
  expect(shown).not.toMatch('planted');
  expect(shown).not.toMatch('Other words.');
  write(dir, 'lessons/first.mdx', FIRST);
  await pageWith('lessons/first/', /Some words\./);
});

describe('a program among the files of a course does not run', () => {
  const PROGRAM = (mark: string) =>
    `import { writeFileSync } from 'node:fs';\nwriteFileSync('${mark}', '');\nexport default {};\n`;
  test.each([
    ['as a picture', FIRST.replace('Some words.', 'Other words. ![a](planted.mjs)')],
    ['as a layout', FIRST.replace('Some words.', 'Other words.').replace('---', '---\nlayout: ./planted.mjs')],
    ['as a layout of front matter that is none', `\n---\nlayout: ./planted.mjs\n---\n\n${FIRST}`],
  ])('that a lesson names %s', async (_, text) => {
    const mark = join(dir, 'it-ran');
    write(dir, 'lessons/planted.mjs', PROGRAM(mark));
    write(dir, 'lessons/first.mdx', text);
    await pageWith('lessons/first/', /(?:media-outside|key-unknown|front-matter-missing)/);
    await pageWith('lessons/first/', /Some words\./, false);
    expect(existsSync(mark)).toBe(false);
  });

  test('that a link has made a lesson: its text is shown', async () => {
    const mark = join(dir, 'it-ran');
    write(dir, 'media/planted.mjs', PROGRAM(mark));
    symlinkSync('../media/planted.mjs', join(dir, 'lessons/linked.mdx'));
    await pageWith('lessons/linked/', /front-matter-missing/);
    write(dir, 'media/planted.mjs', '---\ntitle: A text\n---\n\nNo program.\n');
    await pageWith('lessons/linked/', /No program\./);
    expect(existsSync(mark)).toBe(false);
    rmSync(join(dir, 'lessons/linked.mdx'));
    await pageWith('', /A text/, false);
  });
});

describe('what is wrong is shown on the page, and gone when it is fixed', () => {
  test.each([
    ['a bend too deep', FIRST.replace('-3', "-3''''"), /lessons\/first\.mdx:9:4 {2}bend-too-deep/],
    [
      'a key that is none',
      FIRST.replace('title: First', 'title: First\nkeyy: C'),
      /lessons\/first\.mdx:3:1 {2}key-unknown/,
    ],
    ['Markdown that cannot be read', `${FIRST}\n<Unclosed\n`, /lessons\/first\.mdx:12:1 {2}mdx-syntax/],
    ['a link that leads nowhere', `${FIRST}\n[there](nowhere)\n`, /lessons\/first\.mdx:12:9 {2}link-unknown/],
  ])('%s', async (_, text, message) => {
    write(dir, 'lessons/first.mdx', text);
    const shown = await pageWith('lessons/first/', message);
    expect(shown).toMatch(/<pre[^>]*>[^<]*\n *\d+ \| [^<]*\n *\| *\^/);
    await pageWith('', message);
    write(dir, 'lessons/first.mdx', FIRST);
    expect(await pageWith('lessons/first/', message, false)).toMatch('blow 5, one beat');
  });

  test('a course.yaml that cannot be read', async () => {
    write(dir, 'course.yaml', 'title: "open\n');
    await pageWith('lessons/first/', /yaml-syntax/);
    write(dir, 'course.yaml', COURSE);
    await pageWith('lessons/first/', /yaml-syntax/, false);
  });
});
