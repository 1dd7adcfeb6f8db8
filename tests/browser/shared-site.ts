/** Sites that several test files open: each is built once in a test run, by the first file that asks for it. */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { inject } from 'vitest';
import { DEMO } from '../../src/command/package.ts';
import type { Course } from '../../src/course/course.ts';
import { loadCourse } from '../../src/course/load.ts';
import { buildInto } from '../../src/publish/build.ts';
import { engraverWith } from '../../src/publish/engraving/engrave.ts';
import { NO_RECORD_STORE } from '../../src/publish/engraving/record-store.ts';
import { type Hosted, host } from '../../src/publish/host.ts';

/** Where its address on the server begins. */
export interface SharedSite {
  readonly course: Course;
  /** With the base, and a slash at the end. */
  readonly address: string;
  /** Of all its pages, below its address: `''`, `lessons/first-sounds/`. */
  readonly pages: readonly string[];
  readonly close: () => void;
}

/**
 * Hosts the site of a course, and builds it below `base` if this run has not yet. `write` is given an empty folder and puts the
 * course there. Files that share a site give it the same name.
 */
export async function sharedSite(
  name: string,
  base: string,
  write: (folder: string) => void | Promise<void>,
): Promise<SharedSite> {
  const courseFolder = join(inject('scratch'), `${name}-course`);
  const site = join(inject('scratch'), `${name}-site`);
  await once(site, async (unfinished) => {
    mkdirSync(courseFolder, { recursive: true });
    await write(courseFolder);
    await build(loadCourse(courseFolder), unfinished, base);
  });
  return hosted(loadCourse(courseFolder), site, base);
}

/** The same for the demo course, below `/school/`. */
export async function demoSite(): Promise<SharedSite> {
  const course = loadCourse(DEMO);
  const site = join(inject('scratch'), 'demo-site');
  await once(site, (unfinished) => build(course, unfinished, '/school/'));
  return hosted(course, site, '/school/');
}

async function build(course: Course, folder: string, base: string): Promise<void> {
  const errors = course.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join('\n'));
  await buildInto(folder, course, engraverWith(NO_RECORD_STORE), { base, origin: undefined, authoring: false });
}

async function hosted(course: Course, site: string, base: string): Promise<SharedSite> {
  const { address, server }: Hosted = await host(site, base, 0);
  return { course, address, pages: pagesIn(site), close: () => server.close() };
}

const pagesIn = (site: string): string[] =>
  readdirSync(site, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.html'))
    .map((file) => file.replaceAll('\\', '/').replace(/(^|\/)index\.html$/, '$1'))
    .toSorted();

/** Runs `make` for a folder that is not there yet. Other callers, also in other processes, wait for it. */
async function once(folder: string, make: (unfinished: string) => Promise<void>): Promise<void> {
  const unfinished = `${folder}-unfinished`;
  while (!existsSync(folder)) {
    try {
      mkdirSync(unfinished);
    } catch {
      await sleep(100);
      continue;
    }
    try {
      await make(unfinished);
      renameSync(unfinished, folder);
    } catch (error) {
      rmSync(unfinished, { recursive: true, force: true });
      throw error;
    }
  }
}
