/** A site from a course that was loaded. */
import type { Course } from '../course/course.ts';
import { publishedPath } from '../course/path.ts';
import { valueAt } from '../values/checked.ts';
import { addressesUnder } from './addresses.ts';
import type { Engraver } from './engraver.ts';
import { outlineOf } from './outline.ts';
import type { Site } from './site.ts';

/** What a command decides about a site. */
export interface SiteOptions {
  readonly base: string;
  readonly origin: URL | undefined;
  readonly authoring: boolean;
}

/** The site of a course. Without `authoring`, drafts are left out. */
export function siteOf(course: Course, engraver: Engraver, { base, origin, authoring }: SiteOptions): Site {
  const path = authoring ? course.path : publishedPath(course);
  const lessons = path.order.map((id) => valueAt(course.byId, id));
  return {
    course,
    addresses: addressesUnder(base),
    origin,
    authoring,
    engraver,
    path,
    lessons,
    outline: outlineOf(course, lessons, path),
  };
}
