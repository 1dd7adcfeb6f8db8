/** Answers requests with files of a folder: types, parts, conditional requests, and no way out of the folder. */
import { realpath } from 'node:fs/promises';
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

/** What came of a request: an answer was sent, there is no such file, or it is a folder asked for without its slash. */
export type Answered = 'sent' | 'missing' | 'folder';

/** Answers with the file at a decoded path below a folder, or with the `index.html` of a folder whose path ends with a slash. */
export async function answerWithFile(
  folder: string,
  path: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<Answered> {
  if (!(await isInside(folder, path))) return 'missing';
  return new Promise((resolve) => {
    send(request, path.split('/').map(encodeURIComponent).join('/'), {
      root: folder,
      dotfiles: 'ignore',
    })
      .on('headers', () => response.setHeader('cache-control', 'no-cache'))
      .on('directory', () => resolve('folder'))
      .on('error', (error: unknown) => resolve(refused(error, response)))
      .pipe(response);
    // At the end, and where a student closes the page before it.
    response.once('close', () => resolve('sent'));
  });
}

/** A request that the file cannot answer: for a part that it does not have, or for a version that is no longer there. */
function refused(error: unknown, response: ServerResponse): Answered {
  const status = error instanceof Error && 'status' in error ? error.status : undefined;
  if (status !== 412 && status !== 416) return 'missing';
  response.writeHead(status).end();
  return 'sent';
}

/** Whether there is something at a path and it is below the folder, links followed. */
async function isInside(folder: string, path: string): Promise<boolean> {
  try {
    return isWithin(...(await Promise.all([realpath(folder), realpath(join(folder, path))])));
  } catch {
    return false;
  }
}
