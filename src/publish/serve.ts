/**
 * The author's loop: Astro's dev server over a course that is read again at every change. A page asked for while a change
 * is being read waits for it, so no page ever shows half of one; what is wrong is shown on the pages.
 */
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join, normalize, relative, sep } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { DevEnvironment, EnvironmentModuleNode, Plugin, RunnableDevEnvironment, ViteDevServer } from 'vite';
import type { ModuleRunner } from 'vite/module-runner';
import type { Course } from '../course/course.ts';
import { COURSE_FILE, COURSE_FOLDERS, GLOSSARY_FILE, TECHNIQUES_FILE } from '../course/folder.ts';
import { READ_AGAIN } from '../site/authoring/follow.ts';
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

/** How often a file that has become empty is read again: an editor may empty it before it writes it. */
const LOOKS = 4;

/** Whether a lesson that had text has none. */
function isHalfSaved(before: Course, now: Course): boolean {
  const written = new Set(before.lessons.filter(({ source }) => source !== '').map(({ file }) => file));
  return now.lessons.some(({ file, source }) => source === '' && written.has(file));
}

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
      let now = read(before);
      for (let look = 0; before && look < LOOKS && isHalfSaved(before, now); look++) {
        await sleep(SETTLED);
        now = read(before);
      }
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
      let isReading = false;
      /** What changed since the course was last read, below its folder. */
      let files = new Set<string>();
      let isAway = false;
      watch();
      server.watcher.on('all', (event, path) => {
        if (event === 'unlinkDir' && (path === dir || parts.has(path)) && !isAway) untilBack(path);
        if (isOfCourse(dir, path)) changed(path);
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
        changed(folder);
      }

      function changed(path: string): void {
        files.add(relative(dir, path).split(sep).join('/'));
        if (!isReading) void follow();
      }

      async function follow(): Promise<void> {
        isReading = true;
        const read = new Set<string>();
        while (files.size > 0) {
          for (const file of files) read.add(file);
          files = new Set();
          await reread((modules) => {
            forgetModules(server, modules);
            // A page that was begun before may still bring in what it had compiled, over what was compiled after it.
            if (modules.length > 0) void Promise.all(pages).then(() => forgetModules(server, modules));
          });
        }
        isReading = false;
        server.environments.client.hot.send(READ_AGAIN, { files: [...read] });
      }
    },
    // A lesson is a module, and Astro would have every page load again before the course is read.
    hotUpdate: {
      order: 'pre',
      handler: ({ file }) => (isOfCourse(dir, normalize(file)) ? [] : undefined),
    },
  };
}

/** Whether a file is of what a course is made of. */
const isOfCourse = (dir: string, path: string): boolean => PARTS.has(relative(dir, path).split(sep)[0] ?? '');

function forgetModules(server: ViteDevServer, names: readonly string[]): void {
  for (const environment of Object.values(server.environments)) {
    const { moduleGraph, hot } = environment;
    // A browser has nothing of a lesson's module, and would load its page again.
    if (environment.name === 'client') continue;
    const modules = names.flatMap((name) => moduleGraph.getModuleById(name) ?? []);
    for (const module of modules) moduleGraph.invalidateModule(module);
    if (modules.length === 0) continue;
    // Pages import each lesson when they are made. To run everything again takes a second.
    if (hasRunner(environment) && !names.includes(RESOLVED)) forgetRun(environment.runner, modules);
    else hot.send({ type: 'full-reload', path: '*' });
  }
}

/** Whether an environment runs its modules in this process (`isRunnableDevEnvironment`, without loading the bundler for it). */
const hasRunner = (environment: DevEnvironment): environment is RunnableDevEnvironment => 'runner' in environment;

function forgetRun({ evaluatedModules }: ModuleRunner, modules: readonly EnvironmentModuleNode[]): void {
  for (const { id } of modules) {
    const module = id === null ? undefined : evaluatedModules.getModuleById(id);
    if (module) evaluatedModules.invalidateModule(module);
  }
}
