/** Checks of a whole course, beyond what each file says by itself. A subject adds its check to the list. */
import { reporter } from '../diagnostics/catalogue.ts';
import type { Problem } from '../diagnostics/place.ts';
import { nameMeant } from '../document/meant.ts';
import { itemAt, valueAt } from '../values/checked.ts';
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

const requirementsExist: Check = (course) => {
  const known = course.lessons.map(({ id, frontMatter: { title } }) => ({ id, title }));
  // What a line that cannot be read seems to require is no name.
  return course.lessons.flatMap(({ file, frontMatter: { requires }, places, unsure }) =>
    unsure === 'lines'
      ? []
      : requires.flatMap((lesson, index) => {
          if (course.byId.has(lesson)) return [];
          const words = lesson.split(/\s+(?:and\s+)?/);
          const several = words.length > 1 && words.every((word) => course.byId.has(word)) ? words : undefined;
          const isAlone = requires.length === 1 && !places.has('requires/0');
          const facts = {
            lesson,
            several: isAlone ? several : undefined,
            ...nameMeant(lesson, known, course.former.lessons),
          };
          const diagnostic = report('requires-unknown', SOMEWHERE, facts);
          return [placeAt(diagnostic, file, places, ['requires', index], 'value')];
        }),
  );
};

const SOMEWHERE = { from: 0, to: 0 };

/**
 * What the lessons before a lesson teach is unknown while one of them is missing, cannot be read, or is in a cycle: findings about
 * that would only repeat the first problem.
 */
const pathHolds: Check = (course) => {
  const found = pathIsSound(course);
  const inCycle = new Set(found.filter(({ code }) => code === 'path-cycle').map(({ file }) => file));
  const { lessons, written } = course.path.numbered;
  const dependents = Map.groupBy(written, ({ from }) => from);
  const unsure = new Set(
    lessons.flatMap(({ id }, number) => {
      const lesson = valueAt(course.byId, id);
      const isLost = lesson.frontMatter.requires.some((other) => !course.byId.has(other));
      return isLost || lesson.unsure !== undefined || inCycle.has(lesson.file) ? [number] : [];
    }),
  );
  // What is added while the set is gone through is gone through as well.
  for (const number of unsure) for (const { to } of dependents.get(number) ?? []) unsure.add(to);
  const files = new Set([...unsure].map((number) => valueAt(course.byId, itemAt(lessons, number).id).file));
  const isHidden = course.lessons.some((lesson) => lesson.unsure !== undefined);
  const isTaughtUnknown = found.some(({ code }) => code === 'teaches-unknown');
  return found.filter(({ severity, file, code }) => {
    if (severity === 'error') return true;
    if (code === 'never-taught' && (isHidden || isTaughtUnknown)) return false;
    return !files.has(file) && !(code === 'lesson-unreached' && isHidden);
  });
};

/** Every check of the whole course. */
export const CHECKS: readonly Check[] = [requirementsExist, pathHolds, pagesExist, formerNamesAreFree];
