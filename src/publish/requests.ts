/**
 * What the authoring server answers: files of the course, pages of the site and the code of pages. The bundler's server could do
 * more, such as opening any file in the author's editor, and any page in the author's browser could ask for it. So every other
 * request gets the page that says that nothing is there.
 */
import { realpath } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join } from 'node:path';
import type { Connect, Plugin } from 'vite';
import { isWithin } from '../course/files.ts';
import { LESSONS, MEDIA, PUBLIC } from '../course/folder.ts';
import { SITE_PAGES } from '../course/link.ts';
import { LICENCES } from '../site/addresses.ts';
import { lessonOfMusic, musicText } from '../site/music.ts';
import { theSite, withSite } from '../site/site.ts';
import { cacheFolder } from './cache-folder.ts';
import { licencesText } from './licences.ts';
import { ROOT } from './root.ts';
import { answerWithFile, isRefused, requestPath, typeOf, withSlash } from './static-files.ts';

/** Where the bundler's server has what pages load: itself, packages and our own code. */
const CODE: readonly string[] = ['@vite', '@id', '@fs', 'src', 'components', 'node_modules'];
const PAGES: readonly string[] = [...SITE_PAGES, LESSONS];

/** Whether a path is of code and names none: the bundler's server fails for an empty name. */
const isNameless = (first: string, below: readonly string[]): boolean =>
  CODE.includes(first) && (below.at(-1) ?? '') === '';

/** The folders of code: this program, the packages that were installed with it, and what the bundler makes of them. */
const codeFolders = (): string[] => {
  const packages = /^.*?[\\/]node_modules(?=[\\/])/.exec(ROOT)?.[0];
  return [ROOT, cacheFolder(), ...(packages === undefined ? [] : [packages])];
};

/**
 * Whether a path of the bundler's for any file of the disk is of none that is code. The bundler has a list of its own, to which any file is
 * added once its address was asked for.
 */
async function isOutside(first: string, below: readonly string[]): Promise<boolean> {
  if (first !== '@fs') return false;
  try {
    const file = await realpath(`/${below.join('/')}`.replace(/^\/(?=[A-Za-z]:)/, ''));
    const folders = await Promise.all(codeFolders().map((folder) => realpath(folder)));
    return !folders.some((folder) => isWithin(folder, file));
  } catch {
    return true;
  }
}

const isCode = (url: string): boolean => CODE.includes(url.split('/')[1] ?? '');

/** Whether a path has an empty step, or one that the bundler's server would decode or resolve once more. */
const isOdd = (path: string): boolean => /^\/|\/\/|[%\\]|(?:^|\/)\.{1,2}(?:\/|$)/.test(path);

/** An address that no page has. */
const NOWHERE = '/no-such-page/';

/** Pages that are being made: each promise is resolved when its page has been sent. */
export type PagesInProgress = Set<Promise<void>>;

/** Answers for the course in a folder, before any of the bundler's own. Keeps `pages` up to date. */
export const courseRequests = (dir: string, pages: PagesInProgress): Plugin => ({
  name: 'reedway-requests',
  configureServer({ middlewares, httpServer }) {
    const handle: Connect.NextHandleFunction = (request, response, next) => {
      answer(dir, request, response)
        .then(async (answered) => {
          if (answered) return;
          if (isCode(request.url ?? '/')) return next();
          const sent = new Promise<void>((resolve) => response.once('close', resolve));
          pages.add(sent);
          void sent.then(() => pages.delete(sent));
          withSite(await theSite(), next);
        })
        .catch(next);
    };
    // Astro puts its own handlers before all others, after every plugin has had its turn.
    httpServer?.once('listening', () => middlewares.stack.unshift({ route: '', handle }));
    // Before the bundler's own answer to an error, for which it colours the whole file that was asked for: seconds of work.
    return () => middlewares.use(withoutCode);
  },
});

/** The answer where code that was asked for cannot be made. */
const withoutCode: Connect.ErrorHandleFunction = (_error, _request, response, _next) => {
  if (!response.headersSent) response.writeHead(404, { 'content-type': typeOf('.txt') });
  response.end('There is no such code.\n');
};

/** Whether the request was answered; if not, it is for the bundler's server. */
async function answer(dir: string, request: IncomingMessage, response: ServerResponse): Promise<boolean> {
  if (isRefused(request, response)) return true;
  const url = request.url ?? '/';
  const path = requestPath(url)?.slice(1);
  if (path !== undefined && (await answerWithCourse(dir, path, request, response))) return true;
  const [first = '', ...below] = path?.split('/') ?? [];
  const isKnown = [...CODE, ...PAGES].includes(first) && !isNameless(first, below) && !(await isOutside(first, below));
  if (path === undefined || isOdd(path) || !isKnown) request.url = NOWHERE;
  else if (path !== '' && !path.endsWith('/') && (await isPage(first, below.join('/')))) {
    response.writeHead(301, { location: withSlash(`/${path}`, url) }).end();
    return true;
  }
  return false;
}

/** What a build writes beside the pages: media and public files from where they are, and scores as they are now. */
async function answerWithCourse(
  dir: string,
  path: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<boolean> {
  const file = async (folder: string, below: string): Promise<boolean> =>
    (await answerWithFile(join(dir, folder), below, request, response)) === 'sent';
  // A page has a slash at its end, and is not replaced by a file.
  if (path === '' || path.endsWith('/')) return false;
  if (path.startsWith(`${MEDIA}/`) && (await file(MEDIA, path.slice(`${MEDIA}/`.length)))) return true;
  if (await file(PUBLIC, path)) return true;
  if (path === LICENCES) {
    response.writeHead(200, { 'content-type': typeOf(path) }).end(licencesText());
    return true;
  }
  const { course, lessons } = await theSite();
  const lesson = path.endsWith('.json') ? lessonOfMusic(path, lessons) : undefined;
  if (!lesson) return false;
  response.writeHead(200, { 'content-type': typeOf(path) }).end(musicText(course, lesson));
  return true;
}

/** Whether a path without its last slash is that of a page. A lesson may have a dot in its name; other names with one are files. */
async function isPage(first: string, below: string): Promise<boolean> {
  if (!PAGES.includes(first)) return false;
  if (first !== LESSONS) return !below.includes('.');
  return (await theSite()).lessons.some(({ id }) => id === below);
}
