/** Checks of a whole course, beyond what each file says by itself. A subject adds its check to the list. */
import { reporter } from '../diagnostics/catalogue.ts';
import { nearestNow } from '../diagnostics/nearest.ts';
import type { Problem } from '../diagnostics/place.ts';
import type { Course } from './course.ts';
import { formerNamesAreFree } from './former/checks.ts';
import { pagesExist } from './pages.ts';
import { pathIsSound } from './path.ts';
import { COURSE_PROBLEMS } from './problems.ts';
import { placeAt } from './severity.ts';

/** The course as far as it is known when checks run. */
export type CheckedCourse = Omit<Course, 'problems' | 'memory'>;

/** A check of the whole course. */
export type Check = (course: CheckedCourse) => readonly Problem[];

const report = reporter(COURSE_PROBLEMS);

const requirementsExist: Check = ({ lessons, byId, former }) =>
  lessons.flatMap(({ file, frontMatter, places }) =>
    frontMatter.requires.flatMap((lesson, index) => {
      if (byId.has(lesson)) return [];
      // By its title is how a teacher speaks of a lesson.
      const titled = lessons.find(({ frontMatter }) => frontMatter.title.toLowerCase() === lesson.toLowerCase());
      const diagnostic = report(
        'requires-unknown',
        { from: 0, to: 0 },
        { lesson, ...(titled ? { nearest: titled.id } : nearestNow(lesson, byId.keys(), former.lessons)) },
      );
      return [placeAt(diagnostic, file, places, ['requires', index], 'value')];
    }),
  );

/** What the lessons before a lesson teach is unknown while one of them is missing: findings about that would only repeat the first problem. */
const pathHolds: Check = (course) => {
  const unsure = new Set<string>();
  const files = new Set<string>();
  // In the order of the path, so that what a lesson requires has been looked at before it.
  for (const { id, file, frontMatter } of course.lessons) {
    if (!frontMatter.requires.some((other) => !course.byId.has(other) || unsure.has(other))) continue;
    unsure.add(id);
    files.add(file);
  }
  return pathIsSound(course).filter(({ severity, file }) => severity === 'error' || !files.has(file));
};

/** Every check of the whole course. */
export const CHECKS: readonly Check[] = [requirementsExist, pathHolds, pagesExist, formerNamesAreFree];
