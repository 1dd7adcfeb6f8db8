/**
 * What pages are made from. Astro runs pages from bundled copies of their modules, so the one value they all share is
 * held by the process, not by a module: the command that starts Astro puts it there, and loads the course only once.
 */
import { AsyncLocalStorage } from 'node:async_hooks';
import { relative, sep } from 'node:path';
import type { Course, Lesson } from '../course/course.ts';
import type { Curriculum } from '../curriculum/curriculum.ts';
import type { Addresses } from './addresses.ts';
import type { Engraver } from './engraver.ts';
import type { CourseOutline } from './outline.ts';

/** What every page can ask about the site it belongs to. */
export interface Site {
  readonly course: Course;
  readonly addresses: Addresses;
  /** Where the site will be on the web, for addresses that must be whole; undefined where nobody said. */
  readonly origin: URL | undefined;
  /** Whether its author is looking: what is wrong is shown on the pages, and drafts are among the lessons. */
  readonly authoring: boolean;
  readonly engraver: Engraver;
  /** How the lessons of the site depend on each other. */
  readonly path: Curriculum;
  /** The lessons the site shows, in the order of the path. */
  readonly lessons: readonly Lesson[];
  readonly outline: CourseOutline;
}

const KEY = Symbol.for('reedway.site');
const PAGE = Symbol.for('reedway.site-of-page');
const held = globalThis as { [KEY]?: Promise<Site>; [PAGE]?: AsyncLocalStorage<Site> };
held[PAGE] ??= new AsyncLocalStorage();
const ofPage = held[PAGE];

/** Makes a site the one that pages are made from. */
export function holdSite(site: Promise<Site>): void {
  held[KEY] = site;
}

/** Makes a page, all of it from this site, even if its author changes the course in the meantime. */
export const withSite = <T>(site: Site, makePage: () => T): T => ofPage.run(site, makePage);

/** Milliseconds that a page waits for an author who saves again and again. */
const LONGEST_WAIT = 2000;

/** The site of the page that is being made, or else the site as it is now: while a change is being read, the site after that change. */
export async function theSite(): Promise<Site> {
  const own = ofPage.getStore();
  if (own) return own;
  for (const end = Date.now() + LONGEST_WAIT; ; ) {
    const site = held[KEY];
    if (site === undefined)
      throw new Error(
        'A page was asked for before a course was loaded. Start with `reedway build` or `reedway serve`.',
      );
    const value = await site;
    // Another change may have come in while this one was being read.
    if (held[KEY] === site || Date.now() > end) return value;
  }
}

/** The lesson that a file of the course holds. */
export function lessonIn(course: Course, path: string): Lesson | undefined {
  const file = relative(course.dir, path).split(sep).join('/');
  return course.lessons.find((lesson) => lesson.file === file);
}
