/** Answers requests with files of a folder: types, parts, conditional requests, and no way out of the folder. */
import { fstatSync, type ReadStream, type Stats } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { basename, join } from 'node:path';
import { contentType } from 'mime-types';
import send from 'send';
import { isWithin } from '../course/files.ts';

/** The media type of a file by its name’s ending, such as `text/html; charset=utf-8`. */
export const typeOf = (file: string): string => contentType(basename(file)) || 'application/octet-stream';

/** Names of this machine. A page of another site can have its own name lead here, and would then read the answers. */
const OWN_NAMES = /^(?:(?:[\w-]+\.)*localhost|127\.0\.0\.1|\[::1\])(?::\d+)?$/i;

/** Answers a request that is not for this machine, or that would change something, and says whether it was one. */
export function isRefused({ method, headers: { host } }: IncomingMessage, response: ServerResponse): boolean {
  const plain = (status: number, text: string, headers: Readonly<Record<string, string>> = {}): true => {
    response.writeHead(status, { 'content-type': typeOf('.txt'), ...headers }).end(`${text}\n`);
    return true;
  };
  if (host !== undefined && !OWN_NAMES.test(host)) return plain(421, 'This server answers only to localhost.');
  if (method === 'GET' || method === 'HEAD') return false;
  return plain(405, 'This server only sends files.', { allow: 'GET, HEAD' });
}

/** The decoded path of a request, or undefined where it cannot be decoded. */
export function requestPath(url: string): string | undefined {
  try {
    return decodeURIComponent(url.replace(/[?#].*/s, ''));
  } catch {
    return undefined;
  }
}

/** Where a page of a decoded path without its last slash is, for a client that asked for `url`. */
export const withSlash = (path: string, url: string): string =>
  `${path.split('/').map(encodeURIComponent).join('/')}/${url.slice(url.search(/[?#]|$/))}`;

/** What came of a request: an answer was sent, there is no such file, or it is a folder asked for without its slash. */
export type Answered = 'sent' | 'missing' | 'folder';

/** How often a file that is replaced as it is opened is asked for. */
const TRIES = 5;

/** Answers with the file at a decoded path below a folder, or with the `index.html` of a folder whose path ends with a slash. */
export async function answerWithFile(
  folder: string,
  path: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<Answered> {
  const before = new Set(response.getHeaderNames());
  for (let attempt = 0; attempt < TRIES; attempt++) {
    if (!(await isFileInside(folder, path))) return 'missing';
    const answered = await sendFile(folder, path, request, response);
    if (answered === 'sent' || answered === 'folder') return answered;
    // What was said of a file that is not sent is not true of the answer that is.
    for (const name of response.getHeaderNames()) if (!before.has(name)) response.removeHeader(name);
    response.statusCode = 200;
    if (answered === 'missing') return answered;
  }
  return 'missing';
}

function sendFile(
  folder: string,
  path: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<Answered | 'changed'> {
  return new Promise((resolve) => {
    let described: Stats | undefined;
    send(request, path.split('/').map(encodeURIComponent).join('/'), {
      root: folder,
      dotfiles: 'ignore',
    })
      .on('file', (_path: string, { size }: Stats) => {
        // Of a file that is shorter than the last part that was asked for, that is the whole of it.
        const last = /^bytes=-(\d+)$/.exec(request.headers.range ?? '')?.[1];
        if (last !== undefined && Number(last) > size) request.headers.range = 'bytes=0-';
      })
      .on('headers', (_response: ServerResponse, _path: string, stats: Stats) => {
        described = stats;
        response.setHeader('cache-control', 'no-cache');
      })
      .on('stream', (stream: ReadStream) => {
        // The headers are from before the file was opened, and are sent with its first bytes.
        stream.once('open', (file) => {
          if (described && isSame(described, fstatSync(file))) return;
          stream.unpipe(response);
          stream.destroy();
          resolve('changed');
        });
        // A file that was cut as it was read: the client would take what comes next for the rest of it.
        stream.once('end', () => {
          if (stream.bytesRead < Number(response.getHeader('content-length'))) response.destroy();
        });
      })
      .on('directory', () => resolve('folder'))
      .on('error', (error: unknown) => resolve(refused(error, response)))
      .pipe(response);
    // At the end, and where a student closes the page before it.
    response.once('close', () => resolve('sent'));
  });
}

const isSame = (one: Stats, other: Stats): boolean =>
  one.ino === other.ino && one.size === other.size && one.mtimeMs === other.mtimeMs;

/** A request that the file cannot answer: for a part that it does not have, or for a version that is no longer there. */
function refused(error: unknown, response: ServerResponse): Answered {
  const status = error instanceof Error && 'status' in error ? error.status : undefined;
  if (status !== 412 && status !== 416) return 'missing';
  response.writeHead(status).end();
  return 'sent';
}

/**
 * Whether what would be sent for a path is a file below the folder, links followed, or a folder there. To open a pipe would block a
 * thread until somebody writes to it. A path with an empty step or one of dots is none: an answer might send the client to it.
 */
async function isFileInside(folder: string, path: string): Promise<boolean> {
  if (/\/\/|(?:^|\/)\.{1,2}(?:\/|$)/.test(path)) return false;
  try {
    const named = join(folder, path.endsWith('/') ? `${path}index.html` : path);
    const [root, real] = await Promise.all([realpath(folder), realpath(named)]);
    if (!isWithin(root, real)) return false;
    const found = await stat(real);
    return found.isFile() || found.isDirectory();
  } catch {
    return false;
  }
}
