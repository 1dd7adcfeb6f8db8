/** Checks of a whole course, beyond what each file says by itself. A subject adds its check to the list. */
import { nearest, reporter } from '../diagnostics/diagnostic.ts';
import type { Problem } from '../diagnostics/place.ts';
import type { Course } from './course.ts';
import { pathIsSound } from './path.ts';
import { COURSE_PROBLEMS } from './problems.ts';
import { placeAt } from './severity.ts';

/** The course as far as it is known when checks run. */
export type CheckedCourse = Omit<Course, 'problems' | 'memory'>;

export type Check = (course: CheckedCourse) => readonly Problem[];

const report = reporter(COURSE_PROBLEMS);

const requirementsExist: Check = ({ lessons, byId }) =>
  lessons.flatMap(({ file, front, places }) =>
    front.requires.flatMap((lesson, index) => {
      if (byId.has(lesson)) return [];
      const diagnostic = report(
        'requires-unknown',
        { from: 0, to: 0 },
        { lesson, nearest: nearest(lesson, byId.keys()) },
      );
      return [placeAt(diagnostic, file, places, ['requires', index], 'value')];
    }),
  );

export const CHECKS: readonly Check[] = [requirementsExist, pathIsSound];
