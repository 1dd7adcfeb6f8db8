import { execFileSync } from 'node:child_process';
import fs, {
  mkdirSync,
  mkdtempSync,
  type ReadStream,
  readdirSync,
  renameSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { type Hosted, host } from '../../src/publish/host.ts';
import { claimOutput, isRefusal } from '../../src/publish/output/claim.ts';
import { writeManifest } from '../../src/publish/output/manifest.ts';
import { NOT_LOCALHOST } from './not-localhost.ts';

let folder: string;
let secrets: string;
let hosted: Hosted;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'reedway-host-'));
  mkdirSync(join(folder, 'lessons/first'), { recursive: true });
  writeFileSync(join(folder, 'index.html'), 'home');
  writeFileSync(join(folder, '404.html'), 'no such page');
  writeFileSync(join(folder, '.reedway-site'), 'a list');
  writeFileSync(join(folder, 'lessons/first/index.html'), 'the first lesson');
  writeFileSync(join(folder, 'clip.mp4'), '0123456789');
  writeFileSync(join(folder, 'note.txt'), 'a text');
  writeFileSync(join(folder, 'lessons/.hidden'), 'hidden');
  secrets = mkdtempSync(join(tmpdir(), 'reedway-secrets-'));
  writeFileSync(join(secrets, 'secret'), 'a secret');
  symlinkSync(secrets, join(folder, 'out'));
  symlinkSync(join(secrets, 'secret'), join(folder, 'secret.txt'));
  mkdirSync(join(folder, 'secret'));
  symlinkSync(join(secrets, 'secret'), join(folder, 'secret/index.html'));
  execFileSync('mkfifo', [join(folder, 'pipe')]);
  hosted = await host(folder, '/course', 0);
});
afterAll(() => {
  hosted.server.close();
  for (const made of [folder, secrets]) rmSync(made, { recursive: true, force: true });
});

const ask = (path: string, init: RequestInit = {}): Promise<Response> =>
  fetch(`http://localhost:${hosted.port}${path}`, { redirect: 'manual', ...init });

test('the address is the home page', async () => {
  expect(await (await fetch(hosted.address)).text()).toBe('home');
});

test('a folder without its slash leads to the one with it, and the root to the base', async () => {
  expect((await ask('/course/lessons/first')).headers.get('location')).toBe('/course/lessons/first/');
  expect((await ask('/')).headers.get('location')).toBe('/course/');
  expect(await (await ask('/course/lessons/first/?from=here')).text()).toBe('the first lesson');
  expect((await ask('/course/lessons/first?from=here')).headers.get('location')).toBe(
    '/course/lessons/first/?from=here',
  );
});

test('what is not there is answered with the page that says so', async () => {
  const answer = await ask('/course/lessons/second/');
  expect(answer.status).toBe(404);
  expect(await answer.text()).toBe('no such page');
  expect((await ask('/elsewhere/')).status).toBe(404);
  expect((await ask('/course/%')).status).toBe(404);
  expect((await ask('/course/.reedway-site')).status).toBe(404);
});

describe('parts of a file', () => {
  test.each([
    ['bytes=2-4', '234', 'bytes 2-4/10'],
    ['bytes=7-', '789', 'bytes 7-9/10'],
    ['bytes=-2', '89', 'bytes 8-9/10'],
    ['bytes=5-99', '56789', 'bytes 5-9/10'],
    ['bytes=-99', '0123456789', 'bytes 0-9/10'],
  ])('%s', async (range, text, contentRange) => {
    const answer = await ask('/course/clip.mp4', { headers: { range } });
    expect(answer.status).toBe(206);
    expect(answer.headers.get('content-range')).toBe(contentRange);
    expect(answer.headers.get('content-type')).toBe('video/mp4');
    expect(await answer.text()).toBe(text);
  });

  test('past its end are refused, and in forms we do not know are the whole of it', async () => {
    expect((await ask('/course/clip.mp4', { headers: { range: 'bytes=10-' } })).status).toBe(416);
    expect((await ask('/course/clip.mp4', { headers: { 'if-match': '"another"' } })).status).toBe(412);
    expect((await ask('/course/clip.mp4', { headers: { range: 'bytes=0-1,4-5' } })).status).toBe(200);
  });
});

test('a question for the head gets no body, and other methods are refused', async () => {
  const answer = await ask('/course/clip.mp4', { method: 'HEAD' });
  expect(answer.headers.get('content-length')).toBe('10');
  expect(await answer.text()).toBe('');
  expect((await ask('/course/', { method: 'POST' })).status).toBe(405);
});

/** What is sent back to a request that no browser would make. */
const raw = (lines: string): Promise<string> =>
  new Promise((resolve) => {
    const socket = connect(hosted.port, 'localhost', () => socket.write(`${lines}\r\n\r\n`));
    let text = '';
    socket.on('data', (data) => {
      text += data;
    });
    socket.on('close', () => resolve(text));
  });

describe('no path leads out of the folder', () => {
  test.each([
    '../secret',
    '%2e%2e/secret',
    '..%2fsecret',
    '..%5csecret',
    'lessons/../../secret',
    'lessons/%2e%2e/%2e%2e/secret',
    '../../../../../../../../etc/passwd',
    '/etc/passwd',
    '%2fetc%2fpasswd',
    'index.html%00.txt',
    '.reedway-site',
    'lessons/.hidden',
    'out/secret',
    'secret.txt',
    'secret/',
    'pipe',
    '/lessons',
    '/example.org%2f..',
    'example.org%2f..',
    '%',
    '%ff',
  ])('%s', async (path) => {
    const answer = await raw(`GET /course/${path} HTTP/1.0`);
    expect(answer).toMatch(/^HTTP\/1\.1 404 /);
    expect(answer).toMatch('no such page');
  });
});

test('only a page that knows it as this machine is answered', async () => {
  const status = async (name: string) =>
    /^HTTP\/1\.1 (\d+)/.exec(await raw(`GET /course/ HTTP/1.0\r\nHost: ${name}`))?.[1];
  for (const name of ['localhost', `localhost:${hosted.port}`, '127.0.0.1:1', '[::1]:80', 'reedway.localhost'])
    expect(await status(name), name).toBe('200');
  for (const name of ['example.org', 'localhost.example.org', '127.0.0.1.example.org', 'evil', '192.168.0.1', ''])
    expect(await status(name), name).toBe('421');
});

test('no other machine can reach it', async () => {
  const bound = hosted.server.address();
  expect(typeof bound === 'object' && bound?.address).toMatch(/^(?:127\.0\.0\.1|::1)$/);
  await expect(fetch(`http://${NOT_LOCALHOST}:${hosted.port}/course/`)).rejects.toThrow();
});

describe('a file that the reader has already', () => {
  test.each([
    ['if-none-match', 'etag'],
    ['if-modified-since', 'last-modified'],
  ])('is not sent again: %s', async (condition, header) => {
    const first = await ask('/course/clip.mp4');
    const known = first.headers.get(header) ?? '';
    expect(known).not.toBe('');
    // As a browser asks: Node's own fetch adds that it wants the whole file all the same.
    const again = await raw(`GET /course/clip.mp4 HTTP/1.0\r\n${condition}: ${known}`);
    expect(again).toMatch(/^HTTP\/1\.1 304 /);
    expect(again).toMatch(/\r\n\r\n$/);
  });

  test('is sent when it has changed, whole where only a part was asked for', async () => {
    const before = (await ask('/course/note.txt')).headers.get('etag') ?? '';
    writeFileSync(join(folder, 'note.txt'), 'another text');
    const conditional = await raw(`GET /course/note.txt HTTP/1.0\r\nif-none-match: ${before}`);
    expect(conditional).toMatch(/^HTTP\/1\.1 200 [\s\S]*\r\nanother text$/);
    const part = await ask('/course/note.txt', { headers: { range: 'bytes=0-2', 'if-range': before } });
    expect([part.status, await part.text()]).toEqual([200, 'another text']);
  });
});

describe('a file that changes', () => {
  let file: string;
  beforeEach(() => {
    file = join(folder, 'changing.txt');
    writeFileSync(file, 'a long text of before');
  });
  afterEach(() => vi.restoreAllMocks());
  /** Does something to the file that is sent next, when its headers are made and it is not yet opened. */
  const asItIsOpened = (change: (stream: () => ReadStream) => ReadStream): void => {
    const open = fs.createReadStream;
    vi.spyOn(fs, 'createReadStream').mockImplementationOnce((...given) => change(() => open(...given)));
  };

  test('before it is opened is sent as it is then', async () => {
    asItIsOpened((open) => {
      writeFileSync(file, 'new');
      return open();
    });
    const answer = await ask('/course/changing.txt');
    expect([answer.headers.get('content-length'), await answer.text()]).toEqual(['3', 'new']);
    expect(answer.headers.get('etag')).toBe((await ask('/course/changing.txt')).headers.get('etag'));
  });

  test('and is gone before it is opened is a page that is not there, and nothing is said of the file', async () => {
    asItIsOpened((open) => {
      rmSync(file);
      return open();
    });
    const answer = await ask('/course/changing.txt', { headers: { range: 'bytes=0-3' } });
    expect([answer.status, await answer.text()]).toEqual([404, 'no such page']);
    for (const name of ['etag', 'last-modified', 'content-length', 'content-range'])
      expect(answer.headers.get(name), name).toBeNull();
  });

  test('and is cut while it is read is cut for the client, who takes no other answer for its end', async () => {
    writeFileSync(file, 'x'.repeat(2_000_000));
    asItIsOpened((open) => {
      const stream = open();
      stream.once('data', () => truncateSync(file, 100_000));
      return stream;
    });
    const answers = await raw(
      'GET /course/changing.txt HTTP/1.1\r\nHost: localhost\r\n\r\nGET /course/ HTTP/1.1\r\nHost: localhost',
    );
    expect(answers.match(/HTTP\/1\.1/g)).toHaveLength(1);
    expect(answers).toMatch(/x$/);
  });
});

describe('a build that puts a new site in place of the one that is served', () => {
  test('is seen, also where it was killed half way', async () => {
    rmSync(`${folder}-site`, { recursive: true, force: true });
    const site = join(`${folder}-site`, 'dist');
    mkdirSync(site, { recursive: true });
    writeFileSync(join(site, 'index.html'), 'old');
    await writeManifest(site, '/');
    const { server, address } = await host(site, '/', 0);
    try {
      const text = async () => (await fetch(address)).text();
      expect(await text()).toBe('old');
      // As after the first of two renames.
      renameSync(site, join(`${folder}-site`, '.dist.last'));
      mkdirSync(join(`${folder}-site`, '.dist.next'));
      writeFileSync(join(`${folder}-site`, '.dist.next/index.html'), 'new');
      await writeManifest(join(`${folder}-site`, '.dist.next'), '/');
      writeFileSync(join(`${folder}-site`, '.dist.journal'), '');
      expect(await text()).toBe('new');
      expect(readdirSync(`${folder}-site`)).toEqual(['dist']);
    } finally {
      server.close();
      rmSync(`${folder}-site`, { recursive: true, force: true });
    }
  });

  test('is seen whole, by everyone who asks meanwhile', async () => {
    const site = join(`${folder}-often`, 'dist');
    const publish = async (index: number): Promise<void> => {
      const claim = await claimOutput(site);
      if (isRefusal(claim)) throw new Error(claim.refused);
      writeFileSync(join(claim.staging, 'index.html'), `${index} `.repeat(index % 2 ? 10 : 2_000));
      expect(await claim.publish('/')).toBeUndefined();
      await claim.release();
    };
    await publish(0);
    const { server, address } = await host(site, '/', 0);
    let building = true;
    const client = async (): Promise<void> => {
      while (building) {
        const answer = await fetch(address);
        const text = await answer.text();
        expect([answer.status, text]).toEqual([200, expect.stringMatching(/^(\d+ )\1+$/)]);
        expect(text.split(' ').length).toBe(Number.parseInt(text, 10) % 2 ? 11 : 2_001);
      }
    };
    const clients = Promise.all(Array.from({ length: 6 }, client));
    for (let index = 1; index <= 12; index++) await publish(index);
    building = false;
    await clients;
    server.close();
    rmSync(`${folder}-often`, { recursive: true, force: true });
  });

  test('and a site that is gone for good is a page that is not there', async () => {
    const { server, address } = await host(join(folder, 'nowhere'), '/', 0);
    expect((await fetch(address)).status).toBe(404);
    server.close();
  });
});

test('a port that is taken gives way to the next', async () => {
  const second = await host(folder, '/', hosted.port);
  expect(second.port).toBe(hosted.port + 1);
  expect(await (await fetch(second.address)).text()).toBe('home');
  second.server.close();
});
