/** Which requests the authoring server answers itself, and what it passes on to the bundler's. */
import { EventEmitter } from 'node:events';
import { createServer, request as httpRequest, type IncomingHttpHeaders, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import type { Connect, Plugin, ViteDevServer } from 'vite';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { engraverWith } from '../../src/publish/engraving/engrave.ts';
import { NO_RECORD_STORE } from '../../src/publish/engraving/record-store.ts';
import { licencesText } from '../../src/publish/licences.ts';
import { courseRequests, type PagesInProgress } from '../../src/publish/requests.ts';
import { holdSite, type Site, theSite } from '../../src/site/site.ts';
import { siteOf } from '../../src/site/site-of-course.ts';
import { courseOf, lesson } from '../course/some-course.ts';

const BUNDLER = "the bundler's";
let server: Server;
let site: Site;
const pages: PagesInProgress = new Set();
/** What the bundler's server was asked for. */
let passed: { url: string | undefined; pages: number; site: boolean }[];
/** Lets the bundler's server end an answer that it has begun. */
let finish: (() => void) | undefined;
let waits: boolean;

/** The handler that the plugin puts before all others of a server. */
function handlerOf(plugin: Plugin): Connect.NextHandleFunction {
  const httpServer = new EventEmitter();
  const stack: { route: string; handle: Connect.NextHandleFunction }[] = [
    { route: '', handle: (_request, response) => response.end('another') },
  ];
  const { configureServer } = plugin;
  if (typeof configureServer !== 'function') throw new Error('no plugin of a server');
  Reflect.apply(configureServer, undefined, [{ middlewares: { stack }, httpServer } as unknown as ViteDevServer]);
  expect(stack).toHaveLength(1);
  httpServer.emit('listening');
  expect(stack.map(({ route }) => route)).toEqual(['', '']);
  httpServer.emit('listening');
  expect(stack).toHaveLength(2);
  return (request, response, next) => stack[0]?.handle(request, response, next);
}

beforeAll(async () => {
  const dir = courseOf({
    'lessons/first.mdx': lesson('Hello.\n\n```tab\n4 =7\n```\n'),
    'lessons/a.b/two.mdx': lesson('Hello.\n', 'title: Two'),
    'media/clip.mp4': 'film',
    'media/lessons': 'no page',
    'public/robots.txt': 'User-agent: *\n',
    'public/path': 'a file of the name of a page',
    'public/index.html': 'no home page',
    'public/clip.mp4': 'not this one',
    'secret.yaml': 'secret',
  });
  const course = loadCourse(dir);
  site = siteOf(course, engraverWith(NO_RECORD_STORE), { base: '/', origin: undefined, authoring: true });
  const handle = handlerOf(courseRequests(dir, pages));
  server = createServer((request, response) => {
    handle(request, response, async (error?: unknown) => {
      if (error) {
        response.writeHead(500).end(String(error));
        return;
      }
      passed.push({ url: request.url, pages: pages.size, site: (await theSite()) === site });
      if (waits) await new Promise<void>((resolve) => (finish = resolve));
      response.end(BUNDLER);
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
});
beforeEach(() => {
  holdSite(Promise.resolve(site));
  passed = [];
  waits = false;
});
afterAll(() => server.close());

const ask = (path: string, method = 'GET', host = 'localhost') =>
  new Promise<{ status: number | undefined; headers: IncomingHttpHeaders; text: string }>((resolve, reject) => {
    const { port } = server.address() as AddressInfo;
    httpRequest({ port, host: '127.0.0.1', path, method, headers: { host } }, (response) => {
      let text = '';
      response.on('data', (part: Buffer) => {
        text += part.toString();
      });
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, text }));
    })
      .on('error', reject)
      .end();
  });
/** What the bundler's server is asked for where a page asks for something. */
const passedOn = async (path: string): Promise<string | undefined> => {
  passed = [];
  const { text } = await ask(path);
  expect(text).toBe(BUNDLER);
  return passed[0]?.url;
};

describe('a file of the course', () => {
  test.each([
    ['/media/clip.mp4', 'film', 'video/mp4'],
    ['/robots.txt', 'User-agent: *\n', 'text/plain; charset=utf-8'],
    ['/clip.mp4', 'not this one', 'video/mp4'],
    ['/media/lessons', 'no page', 'application/octet-stream'],
    ['/path', 'a file of the name of a page', 'application/octet-stream'],
    ['/index.html', 'no home page', 'text/html; charset=utf-8'],
  ])('is sent from its folder: %s', async (path, text, type) => {
    const answer = await ask(path);
    expect([answer.status, answer.text]).toEqual([200, text]);
    expect(answer.headers['content-type'] ?? 'application/octet-stream').toBe(type);
    expect(passed).toEqual([]);
  });
  test.each([
    '/secret.yaml',
    '/media/../secret.yaml',
    '/course.yaml',
    '/media/none.mp4',
    '/mediaclip.mp4',
    '/lessons/first.mdx',
  ])('that is not to be published is not sent: %s', async (path) => {
    const { text } = await ask(path);
    expect(text).toBe(BUNDLER);
  });
  test('does not take the place of a page', async () => {
    expect(await passedOn('/')).toBe('/');
    expect(await passedOn('/path/')).toBe('/path/');
  });
});

describe('what a build makes beside the pages', () => {
  test('are the licences', async () => {
    const { status, text, headers } = await ask('/licences.txt');
    expect([status, text, headers['content-type']]).toEqual([200, licencesText(), 'text/plain; charset=utf-8']);
  });
  test('are the scores of the lessons', async () => {
    const { status, text, headers } = await ask('/music/first.json');
    expect([status, headers['content-type']]).toEqual([200, 'application/json; charset=utf-8']);
    const { scores, head, said } = JSON.parse(text);
    expect([scores, head, said].map((part) => Object.keys(part).length)).toEqual([1, 2, 0]);
    expect(await passedOn('/music/none.json')).toBe('/no-such-page/');
    expect(await passedOn('/music/first')).toBe('/no-such-page/');
  });
});

describe('a page', () => {
  test.each([
    '/',
    '/?a=b',
    '/path/',
    '/path/?from=here',
    '/lessons/first/',
    '/techniques/bend/',
    '/harps/',
    '/harps/c/',
    '/guide/',
  ])('is made by the bundler’s server: %s', async (path) => expect(await passedOn(path)).toBe(path));
  test.each([
    ['/harps', '/harps/'],
    ['/guide?from=here', '/guide/?from=here'],
    ['/techniques/bend', '/techniques/bend/'],
    ['/lessons/first', '/lessons/first/'],
    ['/lessons/a.b/two?x', '/lessons/a.b/two/?x'],
    ['/techniques/t%C3%B6ne', '/techniques/t%C3%B6ne/'],
  ])('%s without its slash leads to it', async (path, location) => {
    const { status, headers, text } = await ask(path);
    expect([status, headers.location, text]).toEqual([301, location, '']);
    expect(passed).toEqual([]);
  });
  test.each(['/lessons/none', '/lessons/none.json', '/techniques/file.css'])('%s is none', async (path) => {
    expect(await passedOn(path)).toBe(path);
  });
  test('is of the site as it was when it was asked for, and is known while it is being made', async () => {
    waits = true;
    const answer = ask('/harps/');
    await expect.poll(() => finish).toBeDefined();
    expect(passed).toEqual([{ url: '/harps/', pages: 1, site: true }]);
    const [made] = pages;
    finish?.();
    await answer;
    await made;
    expect(pages.size).toBe(0);
    finish = undefined;
  });
  test('that finds no course is an error', async () => {
    const missing = Promise.reject(new Error('no course'));
    missing.catch(() => undefined);
    holdSite(missing);
    expect(await ask('/harps/')).toMatchObject({ status: 500, text: 'Error: no course' });
  });
});

describe('code of pages', () => {
  const own = `/@fs${fileURLToPath(new URL('../../src/publish/requests.ts', import.meta.url))}`;
  test.each(['/@vite/client', '/@id/a', `${own}?raw`, '/src/a.ts', '/components/A.astro', '/node_modules/a/b.js'])(
    'is passed on, and is no page: %s',
    async (path) => {
      expect(await passedOn(path)).toBe(path);
      expect(passed[0]?.pages).toBe(0);
    },
  );
  test('is none of a file of the disk that is no code of the program', async () => {
    for (const path of ['/@fs/a/b.ts?raw', `/@fs${fileURLToPath(import.meta.url)}/../../../../a`])
      expect(await passedOn(path)).not.toBe(path);
  });
  test('is asked for by a name', async () => {
    for (const path of ['/@vite/', '/src/', '/src', '/@fs/a/']) expect(await passedOn(path)).toBe('/no-such-page/');
  });
});

describe('anything else', () => {
  test.each([
    '/none',
    '/none/',
    '/__open-in-editor?file=a',
    '/_image?href=a',
    '/Path/',
    '/lessonsx/first/',
    '//path/',
    '/path//',
    '/path/../src/a.ts',
    '/path/./',
    '/src/%2e%2e/a.ts',
    '/src/%252e/a.ts',
    '/path/%25',
    '/%',
    '/..',
  ])('is nowhere: %s', async (path) => {
    expect(await passedOn(path)).toBe('/no-such-page/');
  });
  test('that would change something, or comes from another site, is refused', async () => {
    expect((await ask('/', 'POST')).status).toBe(405);
    expect((await ask('/', 'GET', 'school.example')).status).toBe(421);
    expect(passed).toEqual([]);
  });
});
