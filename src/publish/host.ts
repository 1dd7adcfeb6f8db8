/** A small server for a site that was built: files as they are, under the site's base, to this machine alone. */
import { statSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { normalBase } from '../site/addresses.ts';
import { recoverOutput } from './output/swap.ts';
import { answerWithFile, isRefused, requestPath, typeOf, withSlash } from './static-files.ts';

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
  if (isRefused(request, response)) return;
  const path = requestPath(request.url ?? '/');
  if (path === '/' && base !== '/') {
    response.writeHead(302, { location: base }).end();
    return;
  }
  if (path?.startsWith(base)) {
    for (let attempt = 0; attempt < TRIES; attempt++) {
      const site = await siteIn(folder);
      const answered = await answerWithFile(folder, path.slice(base.length - 1), request, response);
      if (answered === 'folder') response.writeHead(301, { location: withSlash(path, request.url ?? '/') }).end();
      if (answered !== 'missing') return;
      // It may have been looked for in a site that was on its way out.
      if (site === undefined || site === nameOf(folder)) break;
    }
  }
  const missing = await readFile(join(folder, '404.html')).catch(() => 'There is no such page.\n');
  response.writeHead(404, { 'content-type': typeOf(typeof missing === 'string' ? '.txt' : '.html') });
  response.end(request.method === 'HEAD' ? undefined : missing);
}

/** Milliseconds to wait for a site that a build is about to put in its place. */
const PATIENCE = 1000;

/**
 * Which folder is in the place of the site. Waits where none is: a build is exchanging it, or was killed as it did so. Undefined where
 * none comes.
 */
async function siteIn(folder: string): Promise<string | undefined> {
  for (const end = Date.now() + PATIENCE; Date.now() < end; await sleep(10)) {
    const site = nameOf(folder);
    if (site !== undefined) return site;
    await recoverOutput(folder).catch(() => undefined);
  }
  return undefined;
}

/** Differs for another folder in the same place, which may have the number of one that was removed. */
function nameOf(folder: string): string | undefined {
  const found = statSync(folder, { throwIfNoEntry: false });
  return found && `${found.ino} ${found.ctimeMs}`;
}
