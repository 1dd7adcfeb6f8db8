/** What a person reads who made a mistake in a course, for the tables of mistakes. */
import { closing, problemReport } from '../../src/command/course/check.ts';
import { fixCourse } from '../../src/course/edits/fix.ts';
import { courseInMemory, filesInMemory } from '../course/files-in-memory.ts';
import { lesson } from '../course/some-course.ts';

/** The texts of a course by their paths. */
export type Texts = Readonly<Record<string, string>>;

/** The least a course needs, which the given files replace or go beside. */
const RIGHT: Texts = { 'course.yaml': 'title: A course\n', 'lessons/first.mdx': lesson('Hello.\n') };

/** What `reedway check` prints for a course with these files, typed in its folder. */
export function shownFor(files: Texts): string {
  const course = courseInMemory(files);
  return `${problemReport(course, course.dir)}${closing(course)}\n`;
}

/** The texts of the given files as `reedway check --fix` leaves them. */
export function fixedFor(files: Texts): Texts {
  const { changes } = fixCourse(filesInMemory({ ...RIGHT, ...files }));
  const changed = Object.fromEntries(changes.map(({ file, after }) => [file, after.toString()]));
  return { ...files, ...changed };
}
