import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fileIn, type Hosted, host } from '../../src/publish/host.ts';

let folder: string;
let hosted: Hosted;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'reedway-host-'));
  mkdirSync(join(folder, 'lessons/first'), { recursive: true });
  writeFileSync(join(folder, 'index.html'), 'home');
  writeFileSync(join(folder, '404.html'), 'no such page');
  writeFileSync(join(folder, '.reedway-site'), 'a list');
  writeFileSync(join(folder, 'lessons/first/index.html'), 'the first lesson');
  writeFileSync(join(folder, 'clip.mp4'), '0123456789');
  hosted = await host(folder, '/course', 0);
});
afterAll(() => {
  hosted.server.close();
  rmSync(folder, { recursive: true, force: true });
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
  ])('%s', async (range, text, contentRange) => {
    const answer = await ask('/course/clip.mp4', { headers: { range } });
    expect(answer.status).toBe(206);
    expect(answer.headers.get('content-range')).toBe(contentRange);
    expect(answer.headers.get('content-type')).toBe('video/mp4');
    expect(await answer.text()).toBe(text);
  });

  test('past its end are refused, and in forms we do not know are the whole of it', async () => {
    expect((await ask('/course/clip.mp4', { headers: { range: 'bytes=10-' } })).status).toBe(416);
    expect((await ask('/course/clip.mp4', { headers: { range: 'bytes=0-1,4-5' } })).status).toBe(200);
  });
});

test('a question for the head gets no body, and other methods are refused', async () => {
  const answer = await ask('/course/clip.mp4', { method: 'HEAD' });
  expect(answer.headers.get('content-length')).toBe('10');
  expect(await answer.text()).toBe('');
  expect((await ask('/course/', { method: 'POST' })).status).toBe(405);
});

describe('no path leads out of the folder', () => {
  test.each(['../secret', 'a/../../secret', '..\\secret', 'a/\0', '.git/config', 'a/.hidden'])('%j', (path) => {
    expect(fileIn('/srv/site', path)).toBeUndefined();
  });

  test('not even one that no browser would send', async () => {
    const answer = await new Promise<string>((resolve) => {
      const socket = connect(hosted.port, 'localhost', () =>
        socket.write('GET /course/../../../etc/passwd HTTP/1.0\r\n\r\n'),
      );
      let text = '';
      socket.on('data', (data) => {
        text += data;
      });
      socket.on('close', () => resolve(text));
    });
    expect(answer).toMatch(/^HTTP\/1\.1 404/);
  });
});

test('a port that is taken gives way to the next', async () => {
  const second = await host(folder, '/', hosted.port);
  expect(second.port).toBe(hosted.port + 1);
  expect(await (await fetch(second.address)).text()).toBe('home');
  second.server.close();
});
