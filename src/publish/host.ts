/** A small server for a site that was built: files as they are, under the site's base, to this machine alone. */
import { createReadStream, type Stats } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { normalBase } from '../site/addresses.ts';

/** Media types by file name. Text is UTF-8 throughout. */
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.xml': 'application/xml; charset=utf-8',
  '.musicxml': 'application/vnd.recordare.musicxml+xml; charset=utf-8',
  '.vtt': 'text/vtt; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.jpeg': 'image/jpeg',
  '.gif': 'image/gif',
  '.webp': 'image/webp',
  '.avif': 'image/avif',
  '.ico': 'image/x-icon',
  '.mp3': 'audio/mpeg',
  '.m4a': 'audio/mp4',
  '.ogg': 'audio/ogg',
  '.oga': 'audio/ogg',
  '.opus': 'audio/ogg',
  '.wav': 'audio/wav',
  '.flac': 'audio/flac',
  '.mid': 'audio/midi',
  '.mp4': 'video/mp4',
  '.m4v': 'video/mp4',
  '.ogv': 'video/ogg',
  '.webm': 'video/webm',
  '.pdf': 'application/pdf',
  '.zip': 'application/zip',
  '.wasm': 'application/wasm',
};

/** The media type of a file by its extension; `application/octet-stream` for unknown ones. */
export const typeOf = (file: string): string => TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream';

/** A running server of a built site. */
export interface Hosted {
  readonly server: Server;
  readonly port: number;
  /** Of the home page. */
  readonly address: string;
}

/** Serves `folder` on the first free port from `port` up, trying a few. */
export async function host(folder: string, base: string, port: number): Promise<Hosted> {
  const root = normalBase(base);
  const server = createServer((request, response) => {
    answer(folder, root, request, response).catch(() => {
      if (!response.headersSent) response.writeHead(500);
      response.end();
    });
  });
  const bound = await listen(server, port);
  return { server, port: bound, address: `http://localhost:${bound}${root}` };
}

const TRIES = 20;

async function listen(server: Server, port: number): Promise<number> {
  for (let attempt = 0; ; attempt++) {
    try {
      await new Promise<void>((resolve, reject) => {
        server.once('error', reject);
        server.listen(port === 0 ? 0 : port + attempt, 'localhost', () => {
          server.off('error', reject);
          resolve();
        });
      });
      const address = server.address();
      return typeof address === 'object' && address !== null ? address.port : port + attempt;
    } catch (error) {
      const taken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
      if (!taken || attempt + 1 >= TRIES || port + attempt >= 65535) throw error;
    }
  }
}

async function answer(folder: string, base: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { allow: 'GET, HEAD' }).end();
    return;
  }
  const path = requestPath(request.url ?? '/');
  if (path === '/' && base !== '/') {
    response.writeHead(302, { location: base }).end();
    return;
  }
  const file = path?.startsWith(base) ? fileIn(folder, path.slice(base.length)) : undefined;
  const found = file === undefined ? undefined : await statOf(file);
  if (file && found?.isDirectory()) {
    if (!path?.endsWith('/')) {
      response.writeHead(301, { location: encodeURI(`${path}/`) }).end();
      return;
    }
    const index = join(file, 'index.html');
    const stats = await statOf(index);
    if (stats?.isFile()) {
      send(index, stats, request, response);
      return;
    }
  } else if (file && found?.isFile()) {
    send(file, found, request, response);
    return;
  }
  const missing = await readFile(join(folder, '404.html')).catch(() => 'There is no such page.');
  response.writeHead(404, {
    'content-type': typeof missing === 'string' ? 'text/plain; charset=utf-8' : TYPES['.html'],
  });
  response.end(request.method === 'HEAD' ? undefined : missing);
}

/** Answers with a file below a folder, if the path names one. */
export async function answerWithFile(
  folder: string,
  path: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<boolean> {
  const file = fileIn(folder, path);
  const stats = file === undefined ? undefined : await statOf(file);
  if (file === undefined || !stats?.isFile()) return false;
  send(file, stats, request, response);
  return true;
}

/** The decoded path of a request, or undefined where it cannot be decoded. */
export function requestPath(url: string): string | undefined {
  try {
    return decodeURIComponent(url.replace(/[?#].*$/, ''));
  } catch {
    return undefined;
  }
}

/** A file below the folder; undefined for a path that leads out of it or to a hidden file. */
export function fileIn(folder: string, path: string): string | undefined {
  if (path.includes('\0') || path.split(/[\\/]/).some((part) => part.startsWith('.'))) return undefined;
  const file = normalize(join(folder, path));
  return file === normalize(folder) || file.startsWith(normalize(folder).replace(/[\\/]?$/, sep)) ? file : undefined;
}

const statOf = (file: string): Promise<Stats | undefined> => stat(file).catch(() => undefined);

/** Sends a file, or the part asked for: players of sound and video seek by asking for parts. */
function send(file: string, stats: Stats, request: IncomingMessage, response: ServerResponse): void {
  const headers = { 'content-type': typeOf(file), 'accept-ranges': 'bytes', 'cache-control': 'no-cache' };
  const part = partOf(request.headers.range, stats.size);
  if (part === 'outside') {
    response.writeHead(416, { 'content-range': `bytes */${stats.size}` }).end();
    return;
  }
  const { start, end } = part ?? { start: 0, end: stats.size - 1 };
  response.writeHead(part ? 206 : 200, {
    ...headers,
    'content-length': end - start + 1,
    ...(part ? { 'content-range': `bytes ${start}-${end}/${stats.size}` } : {}),
  });
  if (request.method === 'HEAD' || stats.size === 0) response.end();
  else
    createReadStream(file, { start, end })
      .on('error', () => response.destroy())
      .pipe(response);
}

/** One range of bytes; undefined for none, or for a form that may be answered with the whole file. */
function partOf(range: string | undefined, size: number): { start: number; end: number } | 'outside' | undefined {
  const match = /^bytes=(\d*)-(\d*)$/.exec(range ?? '');
  if (!match || (match[1] === '' && match[2] === '')) return undefined;
  const start = match[1] === '' ? Math.max(0, size - Number(match[2])) : Number(match[1]);
  const end = match[1] === '' || match[2] === '' ? size - 1 : Math.min(Number(match[2]), size - 1);
  return start > end || start >= size ? 'outside' : { start, end };
}
