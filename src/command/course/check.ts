/** `reedway check`: every problem of every lesson in one run. */
import { existsSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { type Course, isPublishable } from '../../course/course.ts';
import { COURSE_FILE } from '../../course/folder.ts';
import { type LoadOptions, loadCourse } from '../../course/load.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import type { Severity } from '../../diagnostics/diagnostic.ts';
import { linesOf, showProblem } from '../../diagnostics/place.ts';
import type { Argument, Command, Option, Terminal } from '../command.ts';
import { DEMO } from '../package.ts';

const FOLDER =
  'The folder of the course. Default: the current folder if it has a course.yaml, otherwise the demo course.';

/** How the commands name a course: as an argument, or as an option beside arguments of their own. */
export const COURSE_ARGUMENT: Argument = { name: 'COURSE', about: FOLDER };
/** The option that names a course where the argument names something else. */
export const COURSE_OPTION: Option = { type: 'string', value: 'DIR', about: FOLDER };

export const command: Command = {
  arguments: [COURSE_ARGUMENT],
  options: {
    json: {
      type: 'boolean',
      about:
        'Print one array of problems, with file (relative to the course), line, column, endLine, endColumn, severity, code, message and help.',
    },
    strict: { type: 'boolean', about: 'Count warnings as errors.' },
  },
  about:
    'Reads every lesson and every block of a course and prints every problem: file, line and column, the line with the place underlined, an explanation, and a suggested fix if there is one.',
  run({ arguments: [dir], options }, terminal) {
    const course = readCourse(dir, terminal, { strict: options['strict'] === true });
    terminal.out(
      options['json']
        ? `${JSON.stringify(course.problems, null, 2)}\n`
        : `${problemReport(course, terminal.cwd)}${closing(course)}\n`,
    );
    return isPublishable(course) ? 0 : 1;
  },
};

/** The course a command was given, the one it was typed in, or the demo. */
export function courseFolder(dir: string | undefined, { cwd }: Terminal): string {
  if (dir !== undefined) return resolve(cwd, dir);
  return existsSync(join(cwd, COURSE_FILE)) ? cwd : DEMO;
}

/** Loads the course that a command line names. Throws a UsageError if it cannot be found. */
export function readCourse(
  dir: string | undefined,
  terminal: Terminal,
  options: Omit<LoadOptions, 'progress'> = {},
): Course {
  const course = loadCourse(courseFolder(dir, terminal), undefined, {
    ...options,
    progress: (done, all) => terminal.progress(`${done} of ${all} lessons read`),
  });
  terminal.progress('');
  return course;
}

/** Every problem as a person reads it, files named from where the command was typed. */
export function problemReport(course: Course, cwd: string): string {
  const lines = new Map<string, readonly string[]>();
  return course.problems
    .map((problem) => {
      const source = course.sources.get(problem.file);
      if (source !== undefined && !lines.has(problem.file)) lines.set(problem.file, linesOf(source));
      const file = relative(cwd, join(course.dir, problem.file)) || '.';
      return `${showProblem({ ...problem, file }, lines.get(problem.file))}\n\n`;
    })
    .join('');
}

/** `30 lessons, 180 blocks: 2 errors, 1 warning.` */
export function closing({ lessons, problems }: Course): string {
  const blocks = lessons.reduce((sum, lesson) => sum + lesson.blocks.length, 0);
  const count = (wanted: Severity): number => problems.filter(({ severity }) => severity === wanted).length;
  const found = (['error', 'warning', 'hint'] as const).flatMap((severity) =>
    count(severity) > 0 ? [plural(count(severity), severity)] : [],
  );
  return `${plural(lessons.length, 'lesson')}, ${plural(blocks, 'block')}: ${found.length > 0 ? found.join(', ') : 'nothing wrong'}.`;
}
