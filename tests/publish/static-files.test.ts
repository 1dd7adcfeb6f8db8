import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import {
  createServer,
  request as httpRequest,
  type IncomingHttpHeaders,
  type OutgoingHttpHeaders,
  type Server,
} from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type Answered, answerWithFile, isRefused, requestPath, typeOf } from '../../src/publish/static-files.ts';

test.each([
  ['index.html', 'text/html; charset=utf-8'],
  ['.html', 'text/html; charset=utf-8'],
  ['lessons.v2/first.json', 'application/json; charset=utf-8'],
  ['media/a.b.mp3', 'audio/mpeg'],
  ['media/talk.vtt', 'text/vtt; charset=utf-8'],
  ['style.css', 'text/css; charset=utf-8'],
  ['media/talk', 'application/octet-stream'],
  ['a.b/talk', 'application/octet-stream'],
  ['a.nothing-known', 'application/octet-stream'],
  ['LICENSE', 'application/octet-stream'],
])('%s is sent as %s', (file, type) => expect(typeOf(file)).toBe(type));

test.each([
  ['/', '/'],
  ['/a%20b', '/a b'],
  ['/a?b=c', '/a'],
  ['/a#b', '/a'],
  ['/a?b#c?d', '/a'],
  ['/a?b\n/c', '/a'],
  ['/%C3%A4', '/ä'],
  ['/%', undefined],
  ['/%ff', undefined],
])('the path of %j is %j', (url, path) => expect(requestPath(url)).toBe(path));

describe('a server of files', () => {
  let root: string;
  let server: Server;
  let answers: Answered[];
  beforeAll(async () => {
    root = mkdtempSync(join(tmpdir(), 'reedway-files-'));
    const site = join(root, 'site');
    mkdirSync(join(site, 'lesson'), { recursive: true });
    mkdirSync(join(site, '.hidden'));
    writeFileSync(join(site, 'index.html'), 'home');
    writeFileSync(join(site, 'lesson/index.html'), 'lesson');
    writeFileSync(join(site, 'a b#c?.txt'), '0123456789');
    writeFileSync(join(site, '.hidden/file.txt'), 'hidden');
    writeFileSync(join(site, 'big.bin'), Buffer.alloc(8 * 1024 * 1024));
    writeFileSync(join(root, 'secret.txt'), 'secret');
    symlinkSync(join(root, 'secret.txt'), join(site, 'way-out.txt'));
    symlinkSync(join(site, 'index.html'), join(site, 'alias.html'));
    server = createServer((request, response) => {
      if (isRefused(request, response)) return;
      const path = requestPath(request.url ?? '') ?? '';
      void answerWithFile(site, path, request, response).then((answered) => {
        answers.push(answered);
        if (answered !== 'sent') response.writeHead(404).end(answered);
      });
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  });
  beforeEach(() => {
    answers = [];
  });
  afterAll(() => {
    server.closeAllConnections();
    server.close();
    rmSync(root, { recursive: true });
  });

  const ask = (path: string, headers: OutgoingHttpHeaders = {}, method = 'GET') =>
    new Promise<{ status: number | undefined; headers: IncomingHttpHeaders; text: string }>((resolve, reject) => {
      const { port } = server.address() as AddressInfo;
      const sent = httpRequest({ port, host: '127.0.0.1', path, method, headers }, (response) => {
        let text = '';
        response.on('data', (part: Buffer) => {
          text += part.toString();
        });
        response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, text }));
      });
      sent.on('error', reject).end();
    });

  test('sends a file with its type, to be asked for again each time', async () => {
    const { status, headers, text } = await ask('/a%20b%23c%3F.txt');
    expect([status, text]).toEqual([200, '0123456789']);
    expect(headers).toMatchObject({
      'content-type': 'text/plain; charset=utf-8',
      'content-length': '10',
      'cache-control': 'no-cache',
    });
    expect(answers).toEqual(['sent']);
    const head = await ask('/index.html', {}, 'HEAD');
    expect([head.status, head.text, head.headers['content-length']]).toEqual([200, '', '4']);
  });
  test('sends the index of a folder whose path ends with a slash, and says which is asked for without', async () => {
    expect((await ask('/')).text).toBe('home');
    expect((await ask('/lesson/')).text).toBe('lesson');
    expect(await ask('/lesson')).toMatchObject({ status: 404, text: 'folder' });
  });
  test('sends nothing of what is not there, is hidden, or is outside of the folder', async () => {
    for (const path of ['/none', '/lesson/none', '/index.html/', '/.hidden/file.txt', '/way-out.txt'])
      expect(await ask(path), path).toMatchObject({ status: 404, text: 'missing' });
    for (const path of ['/../secret.txt', '/%2e%2e/secret.txt', '/lesson/../../secret.txt', '/..%2fsecret.txt', '/%00'])
      expect((await ask(path)).text, path).not.toContain('secret');
    expect((await ask('/alias.html')).text).toBe('home');
  });
  test('sends a part, and refuses one that the file does not have', async () => {
    const part = await ask('/a%20b%23c%3F.txt', { range: 'bytes=2-4' });
    expect(part).toMatchObject({ status: 206, text: '234' });
    expect(part.headers['content-range']).toBe('bytes 2-4/10');
    const none = await ask('/a%20b%23c%3F.txt', { range: 'bytes=20-30' });
    expect(none).toMatchObject({ status: 416, text: '' });
    expect(none.headers['content-length'] ?? '0').toBe('0');
    expect(none.headers['content-range']).toBe('bytes */10');
    expect(answers).toEqual(['sent', 'sent']);
  });
  test('says that a file has not changed, or is not the version that is asked for', async () => {
    const { etag } = (await ask('/index.html')).headers;
    expect(await ask('/index.html', { 'if-none-match': etag })).toMatchObject({ status: 304, text: '' });
    expect(await ask('/index.html', { 'if-match': '"another"' })).toMatchObject({ status: 412, text: '' });
    expect(answers).toEqual(['sent', 'sent', 'sent']);
  });
  test('has done with a file when its reader leaves', async () => {
    const { port } = server.address() as AddressInfo;
    await new Promise<void>((resolve) => {
      const sent = httpRequest({ port, host: '127.0.0.1', path: '/big.bin' }, (response) => {
        response.once('data', () => sent.destroy());
      });
      sent
        .on('error', () => undefined)
        .on('close', resolve)
        .end();
    });
    await expect.poll(() => answers).toEqual(['sent']);
  });

  test.each([
    'localhost',
    'localhost:4000',
    'LOCALHOST:1',
    'a.localhost',
    'my-site.test_1.localhost:80',
    '127.0.0.1',
    '127.0.0.1:4000',
    '[::1]',
    '[::1]:4000',
  ])('answers to %s', async (host) => {
    expect((await ask('/index.html', { host })).status).toBe(200);
  });
  test.each([
    'school.example',
    'localhost.example',
    'notlocalhost',
    '.localhost',
    'localhost:',
    'localhost:80x',
    'xlocalhost:80',
    '127.0.0.10',
    '127a0b0c1',
    '1127.0.0.1',
    '[::1]:80.example',
    '::1',
  ])('does not answer to %s', async (host) => {
    const { status, text, headers } = await ask('/index.html', { host });
    expect([status, text]).toEqual([421, 'This server answers only to localhost.\n']);
    expect(headers['content-type']).toBe('text/plain; charset=utf-8');
  });
  test('answers to a program that names no host', async () => {
    const { port } = server.address() as AddressInfo;
    const text = await new Promise<string>((resolve, reject) => {
      let answer = '';
      connect(port, '127.0.0.1')
        .on('data', (part: Buffer) => {
          answer += part.toString();
        })
        .on('close', () => resolve(answer))
        .on('error', reject)
        .write('GET /index.html HTTP/1.0\r\n\r\n');
    });
    expect(text).toMatch(/^HTTP\/1.1 200 OK\r\n.*\r\n\r\nhome$/s);
  });
  test.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('changes nothing: %s', async (method) => {
    const { status, text, headers } = await ask('/index.html', {}, method);
    expect([status, text, headers.allow]).toEqual([405, 'This server only sends files.\n', 'GET, HEAD']);
    expect(answers).toEqual([]);
  });
});
