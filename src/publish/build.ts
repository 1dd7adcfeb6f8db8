/** Builds the site of a course that was checked, into a folder that is claimed for it. */
import { cp, mkdir, readdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';
import type { Course } from '../course/course.ts';
import { errorCode } from '../course/files.ts';
import { PUBLIC } from '../course/folder.ts';
import { LICENCES } from '../site/addresses.ts';
import type { Engraver } from '../site/engraver.ts';
import { musicPath, musicText } from '../site/music.ts';
import { holdSite, type Site } from '../site/site.ts';
import { type SiteOptions, siteOf } from '../site/site-of-course.ts';
import { siteConfig } from './astro-config.ts';
import { cacheFolder } from './cache-folder.ts';
import { licencesText } from './licences.ts';

/** Builds the site of a course into a folder. Rejects if a page cannot be made; the folder is then incomplete. */
export async function buildInto(
  folder: string,
  course: Course,
  engraver: Engraver,
  options: SiteOptions,
): Promise<void> {
  process.env['ASTRO_TELEMETRY_DISABLED'] = '1';
  const site = siteOf(course, engraver, options);
  holdSite(Promise.resolve(site));
  const { build } = await import('astro');
  // Astro puts the code of the pages under the working folder while it runs; it has to find its packages from there,
  // and builds that run at the same time must not share one.
  const work = await newFolder(join(await workFolder(), 'build'));
  const cwd = process.cwd();
  // Astro moves files from there to the site, which can be done on one disk only.
  const out = (await canMove(work, folder)) ? folder : join(work, 'site');
  const beside = once(() => writeFiles(out, site));
  try {
    await mkdir(out, { recursive: true });
    process.chdir(work);
    await build({
      ...siteConfig({
        ...options,
        cacheDir: work,
        plugins: [whileBundling(beside.start)],
      }),
      outDir: out,
    });
    await beside.start();
    if (out !== folder) await cp(out, folder, { recursive: true });
  } finally {
    await beside.settled();
    process.chdir(cwd);
    await rm(work, { recursive: true, force: true });
  }
}

/** Whether a file can be moved from one folder to another: not to another disk, nor always to another place of the same. */
async function canMove(from: string, to: string): Promise<boolean> {
  const [file, moved] = [join(from, 'moved'), join(to, '.moved')];
  await writeFile(file, '');
  try {
    await rename(file, moved);
  } catch (error) {
    if (errorCode(error) === 'EXDEV') return false;
    throw error;
  }
  await rm(moved);
  return true;
}

/** What is beside the pages: notices, scores, media and public files. */
async function writeFiles(folder: string, { course, lessons }: Site): Promise<void> {
  await writeFile(join(folder, LICENCES), licencesText());
  // Several at a time: less waiting for the disk, and not all of them in memory at once.
  for (let from = 0; from < lessons.length; from += BATCH) {
    await Promise.all(
      lessons.slice(from, from + BATCH).map(async (lesson) => {
        const file = join(folder, musicPath(lesson));
        await mkdir(dirname(file), { recursive: true });
        await writeFile(file, musicText(course, lesson));
      }),
    );
  }
  for (const file of course.media) await copy(join(course.dir, file), join(folder, file));
  for (const file of course.publicFiles)
    await copy(join(course.dir, file), join(folder, file.slice(`${PUBLIC}/`.length)));
}

/** Copies a file of the course, without putting it over a page of the site. */
const copy = (from: string, to: string): Promise<void> => cp(from, to, { dereference: true, force: false });

const BATCH = 16;

interface Once {
  /** Begins the work, if it was not begun before. */
  start(): Promise<void>;
  /** When everything has ended, with or without an error. */
  settled(): Promise<unknown>;
}

function once(work: () => Promise<void>): Once {
  let begun: Promise<void> | undefined;
  return {
    start() {
      begun ??= work();
      return begun;
    },
    settled: () => Promise.allSettled([begun]),
  };
}

/** Begins something as the scripts of the site are bundled: all that is left to this thread then is to wait. */
const whileBundling = (begin: () => Promise<void>): Plugin => ({
  name: 'reedway-meanwhile',
  // Astro starts a server of Vite's first, before it empties the folder.
  apply: 'build',
  applyToEnvironment: ({ name }) => name === 'client',
  buildStart() {
    // Errors reach the caller that waits for the end.
    begin().catch(() => undefined);
  },
});

/**
 * A folder of this build's own, by the first number that is free: Node keeps what it compiles by file name, and names that are
 * new each time would fill its cache. Within one process no name comes twice, as a module is loaded once.
 */
async function newFolder(name: string): Promise<string> {
  for (let number = 1; ; number++) {
    const folder = `${name}-${number}`;
    if (taken.has(folder)) continue;
    try {
      await mkdir(folder);
      taken.add(folder);
      return folder;
    } catch (error) {
      if (errorCode(error) !== 'EEXIST') throw error;
    }
  }
}

const taken = new Set<string>();

/** Milliseconds: folders of other builds are removed only when they are older, since a younger one may still be in use. */
const LEFT_BEHIND = 24 * 60 * 60 * 1000;

async function workFolder(): Promise<string> {
  const folder = join(cacheFolder(), 'work');
  await mkdir(folder, { recursive: true });
  for (const name of await readdir(folder)) {
    const left = join(folder, name);
    const stats = await stat(left).catch(() => undefined);
    if (stats && Date.now() - stats.mtimeMs > LEFT_BEHIND) await rm(left, { recursive: true, force: true });
  }
  return folder;
}
