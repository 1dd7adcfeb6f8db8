/** Requests of every kind to `reedway host` and `reedway serve`, as raw bytes: what a library would never send is sent too. */
import { connect } from 'node:net';
import { join } from 'node:path';
import fc from 'fast-check';
import { type Running, ran, SECRET, someCourse, started } from './process.ts';
import { demand, type Target } from './target.ts';

/** A request as it goes over the wire; characters are bytes. */
interface Case {
  readonly method: string;
  readonly path: string;
  readonly version: string;
  readonly headers: readonly string[];
}

const STEPS = [
  '', '.', '..', '%2e%2e', '%2E.', '..%2f', '..%5c', '..\\', '%00', '%', '%ff', '%c0%ae', 'lessons', 'first', 'media', 'a.svg', '.secret', 'secret.txt', 'course',
  'scores', 'first.json', 'index.html', '@fs', '@id', '@vite', 'client', 'src', 'node_modules', 'etc', 'passwd', 'proc', 'self', 'environ', '__open-in-editor', '__x', 'C:',
  'course.yaml', '.hidden', 'secret', 'licences.txt', '?', '?raw', '?url', '?import&raw', '#', '~', ' ', '%20', '%252e%252e', 'path', '404.html', '\u00e9', '\u0000', '.reedway-site', '.git',
]; // biome-ignore format: a list to read across

const path = fc.oneof(
  { weight: 9, arbitrary: fc.array(fc.constantFrom(...STEPS), { maxLength: 8 }).map((steps) => `/${steps.join('/')}`) },
  fc.array(fc.constantFrom(...STEPS), { maxLength: 6 }).map((steps) => steps.join('')),
  fc.constantFrom(
    '*',
    'http://evil.example/',
    'http://localhost/media/a.svg',
    '//evil.example/',
    '/'.repeat(3000),
    `/${'a'.repeat(9000)}`,
  ),
);
const header = fc.oneof(
  fc.constantFrom('Host: localhost', 'Host: evil.example', 'Host:', 'Host: [::1]', 'Host: localhost:99999', 'Origin: https://evil.example', 'Range: bytes=0-1', 'Range: bytes=5-2',
    'Range: bytes=-1', 'Range: bytes=0-0,1-1', 'Range: bytes=999999999999999999-', 'Range: x', 'If-None-Match: *', 'If-None-Match: "x"', 'If-Modified-Since: Thu, 01 Jan 2099 00:00:00 GMT',
    'If-Range: "x"', 'Connection: Upgrade', 'Upgrade: websocket', 'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==', 'Sec-WebSocket-Version: 13', 'Sec-WebSocket-Protocol: vite-hmr',
    'Content-Length: 5', 'Content-Length: -1', 'Transfer-Encoding: chunked', 'Expect: 100-continue', 'Accept: text/html', 'Accept-Encoding: gzip, br, x', 'Cookie: a=b', 'X: \u0000'),
  fc.string({ maxLength: 12 }).map((text) => `X-${text.replace(/[\r\n]/g, '')}`),
); // biome-ignore format: a list to read across

const cases: fc.Arbitrary<Case> = fc.record({
  method: fc.oneof(
    { weight: 9, arbitrary: fc.constant('GET') },
    fc.constantFrom('HEAD', 'POST', 'OPTIONS', 'PUT', 'DELETE', 'TRACE', 'CONNECT', 'get', 'X', ''),
  ),
  path,
  version: fc.oneof(
    { weight: 9, arbitrary: fc.constant('HTTP/1.1') },
    fc.constantFrom('HTTP/1.0', 'HTTP/2', 'HTTP/0.9', ''),
  ),
  headers: fc.oneof(
    { weight: 4, arbitrary: fc.array(header, { maxLength: 3 }).map((all) => ['Host: localhost', ...all]) },
    fc.array(header, { maxLength: 5 }),
  ),
});

/** What comes back until the server closes, or has been silent for a while. */
function answerTo(port: number, { method, path: target, version, headers }: Case): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, 'localhost');
    let text = '';
    const end = (): void => {
      socket.destroy();
      resolve(text);
    };
    // An answer that has begun ends soon; one that has not may wait for a page.
    let timer = setTimeout(end, 20_000);
    socket.on('connect', () =>
      socket.write(
        `${method} ${target} ${version}\r\n${[...headers, 'Connection: close'].join('\r\n')}\r\n\r\n`,
        'latin1',
      ),
    );
    socket.on('data', (data) => {
      text += data.toString('latin1');
      clearTimeout(timer);
      timer = setTimeout(end, 300);
    });
    socket.on('close', () => {
      clearTimeout(timer);
      resolve(text);
    });
    socket.on('error', (error) => ('code' in error && error.code === 'ECONNRESET' ? end() : reject(error)));
  });
}

const STATUSES = new Set([
  100, 101, 200, 204, 206, 301, 302, 304, 400, 403, 404, 405, 408, 412, 413, 414, 416, 417, 421, 426, 431, 501, 505,
]);

function server(name: string, start: (root: string, dir: string) => Promise<Running>): Target<Case> {
  let running: Running | undefined;
  return {
    name,
    limit: 20,
    batch: 100,
    pure: false,
    cases,
    async start() {
      const { root, dir } = someCourse();
      running = await start(root, dir);
    },
    async stop() {
      running?.stop();
    },
    async check(request) {
      demand(running !== undefined, 'the server is not started');
      const { port, child } = running;
      const answer = await answerTo(port, request);
      demand(child.exitCode === null && child.signalCode === null, 'the server ended');
      demand(!answer.includes(SECRET), 'a file outside of the site was sent');
      demand(!/^root:.*:0:0:/m.test(answer), 'a file of the system was sent');
      demand(!/\n\s+at .*\.(?:ts|js):\d+/.test(answer), 'a stack trace was sent');
      const status = /^HTTP\/1\.[01] (\d{3})/.exec(answer)?.[1];
      demand(status === undefined || STATUSES.has(Number(status)), `the status is ${status}`);
      const isPlain =
        request.method === 'GET' &&
        request.version === 'HTTP/1.1' &&
        request.headers.every((line) => /^(?:Host: localhost$|Accept|Range|If)/.test(line));
      demand(
        status !== undefined || !isPlain || /[^\x21-\x7e]/.test(request.path) || request.path === '',
        'a plain request has no answer',
      );
    },
  };
}

export const host = server('host', async (root, dir) => {
  const site = join(root, 'site');
  const code = await ran(['build', dir, '--out', site]);
  if (code !== 0) throw new Error(`the build ended with ${code}`);
  return started(['host', site], root);
});

export const serve = server('serve', (root, dir) => started(['serve', dir], root));
