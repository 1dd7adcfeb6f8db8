/**
 * The author's loop: Astro's dev server over a course that is read again at every change. A page asked for while a change
 * is being read waits for it, so no page ever shows half of one; what is wrong is shown on the pages.
 */
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Plugin, ViteDevServer } from 'vite';
import type { Course } from '../course/course.ts';
import { COURSE_FILE, COURSE_FOLDERS, GLOSSARY_FILE, TECHNIQUES_FILE } from '../course/folder.ts';
import type { Engraver } from '../site/engraver.ts';
import { holdSite } from '../site/site.ts';
import { type SiteOptions, siteOf } from '../site/site-of-course.ts';
import { siteConfig } from './astro-config.ts';
import { cacheFolder } from './cache-folder.ts';
import { RESOLVED } from './lesson-modules.ts';
import { courseRequests, type PagesInProgress } from './requests.ts';

/**
 * Milliseconds from the report of a change to reading it. Editors save in several steps, and for 50 ms after a change
 * the watcher (chokidar) reports no other change to the same file: what was written in that time has to be read with the first.
 */
const SETTLED = 80;

/** A running author’s server. */
export interface Served {
  /** Of the home page. */
  readonly address: string;
  stop(): Promise<void>;
}

/** What to serve, and where. */
export interface Serving {
  readonly dir: string;
  /** The next free one is taken where it is not. */
  readonly port: number;
  readonly engraver: Engraver;
  /** Reads the course, taking over from the last reading what did not change. */
  read(previous: Course | undefined): Course;
  /** Called with every course that was read. */
  onRead(course: Course): void;
}

/** Starts the authoring server, which reads the course again whenever a file of it changes. */
export async function serve({ dir, port, engraver, read, onRead }: Serving): Promise<Served> {
  process.env['ASTRO_TELEMETRY_DISABLED'] = '1';
  const options: SiteOptions = { base: '/', origin: undefined, authoring: true };
  const cacheDir = join(cacheFolder(), 'serve');
  await mkdir(cacheDir, { recursive: true });
  const pages: PagesInProgress = new Set();
  let latest = readCourse(undefined);
  await latest;

  const { dev } = await import('astro');
  const server = await dev({
    ...siteConfig({
      ...options,
      cacheDir,
      plugins: [watchCourse(dir, pages, reread), courseRequests(dir, pages)],
    }),
    server: { port },
  });
  const { address } = server;
  return { address: `http://localhost:${address.port}/`, stop: () => server.stop() };

  function readCourse(previous: Promise<Course> | undefined, forget?: Forget): Promise<Course> {
    const course = (async () => {
      const before = await previous;
      if (before) await sleep(SETTLED);
      const now = read(before);
      // Before any page can be made from what was read.
      if (before) forget?.(outdated(before, now));
      return now;
    })();
    holdSite(course.then((value) => siteOf(value, engraver, options)));
    course.then(onRead);
    return course;
  }

  async function reread(forget: Forget): Promise<void> {
    latest = readCourse(latest, forget);
    await latest;
  }
}

/** Has the bundler's server make these modules again. A lesson's has the path of its file as a name. */
type Forget = (modules: readonly string[]) => void;

/**
 * The modules that were made from an earlier reading of the course. The bundler looks out for changes itself, but by
 * the same watcher: it may compile a lesson right after the first of two changes and miss the second.
 */
function outdated(before: Course, now: Course): string[] {
  const sources = new Map(before.lessons.map(({ file, source }) => [file, source]));
  const changed = now.lessons.filter(({ file, source }) => sources.has(file) && sources.get(file) !== source);
  const files = changed.map(({ file }) => join(now.dir, file));
  return filesOf(before) === filesOf(now) ? files : [RESOLVED, ...files];
}

/** Milliseconds from one look for a folder that is away to the next. */
const AWAY = 100;

const filesOf = ({ lessons }: Course): string => lessons.map(({ file }) => file).join('\n');

/** What a course is made of, by the first step of a path below it. */
const PARTS: ReadonlySet<string> = new Set([COURSE_FILE, TECHNIQUES_FILE, GLOSSARY_FILE, ...COURSE_FOLDERS]);

function watchCourse(dir: string, pages: PagesInProgress, reread: (forget: Forget) => Promise<void>): Plugin {
  return {
    name: 'reedway-watch',
    configureServer(server) {
      const parts = new Set([...PARTS].map((part) => join(dir, part)));
      let reading: Promise<void> | undefined;
      let again = false;
      let isAway = false;
      watch();
      server.watcher.on('all', (event, path) => {
        if (event === 'unlinkDir' && (path === dir || parts.has(path)) && !isAway) untilBack(path);
        if (PARTS.has(relative(dir, path).split(sep)[0] ?? '')) changed();
      });

      function watch(): void {
        for (const part of parts) server.watcher.add(part);
      }

      /** The watcher forgets a folder that goes away, also where it is back the next moment. */
      async function untilBack(folder: string): Promise<void> {
        isAway = true;
        while (!existsSync(folder)) await sleep(AWAY, undefined, { ref: false });
        isAway = false;
        watch();
        changed();
      }

      function changed(): void {
        if (reading) again = true;
        else reading = follow();
      }

      async function follow(): Promise<void> {
        do {
          again = false;
          await reread((modules) => {
            forgetModules(server, modules);
            // A page that was begun before may still bring in what it had compiled, over what was compiled after it.
            if (modules.length > 0) void Promise.all(pages).then(() => forgetModules(server, modules));
          });
        } while (again);
        reading = undefined;
        server.ws.send({ type: 'full-reload' });
      }
    },
  };
}

function forgetModules(server: ViteDevServer, names: readonly string[]): void {
  for (const { moduleGraph, hot } of Object.values(server.environments)) {
    const modules = names.flatMap((name) => moduleGraph.getModuleById(name) ?? []);
    for (const module of modules) moduleGraph.invalidateModule(module);
    if (modules.length > 0) hot.send({ type: 'full-reload', path: '*' });
  }
}
