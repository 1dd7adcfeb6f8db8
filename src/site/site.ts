/**
 * What pages are made from. Astro runs pages from bundled copies of their modules, so the one value they all share is
 * held by the process, not by a module: the command that starts Astro puts it there, and loads the course only once.
 */
import { realpathSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
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
const held = globalThis as { [KEY]?: Promise<Site> };

/** Makes a site the one that pages are made from. */
export function holdSite(site: Promise<Site>): void {
  held[KEY] = site;
}

/** The site as it is now; while its author's change is being read, the site after that change. */
export async function theSite(): Promise<Site> {
  const site = held[KEY];
  if (site === undefined)
    throw new Error('A page was asked for before a course was loaded. Start with `reedway build` or `reedway serve`.');
  // Another change may have come in while this one was being read.
  const value = await site;
  return held[KEY] === site ? value : theSite();
}

/** The lesson a file holds. A compiler may name a file by where its symbolic links lead. */
export function lessonIn(course: Course, path: string): Lesson | undefined {
  const file = relative(course.dir, path).split(sep).join('/');
  return (
    course.lessons.find((lesson) => lesson.file === file) ??
    course.lessons.find((lesson) => realpathSync(join(course.dir, lesson.file)) === path)
  );
}
