/** A site from a course that was loaded. */
import type { Course } from '../course/course.ts';
import { addressesUnder } from './addresses.ts';
import type { Engraver } from './engraver.ts';
import { outlineOf } from './outline.ts';
import type { Site } from './site.ts';

export interface Standing {
  readonly base: string;
  readonly origin: URL | undefined;
  readonly authoring: boolean;
}

export function siteOf(course: Course, engraver: Engraver, { base, origin, authoring }: Standing): Site {
  const lessons = authoring ? course.lessons : course.lessons.filter(({ front }) => !front.draft);
  return {
    course,
    addresses: addressesUnder(base),
    origin,
    authoring,
    engraver,
    lessons,
    outline: outlineOf(course, lessons),
  };
}
