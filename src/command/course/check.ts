/** `reedway check`: every problem of every lesson in one run. */
import { existsSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { type Course, isPublishable } from '../../course/course.ts';
import { diffOf, NotChanged, putChanges } from '../../course/edits/change.ts';
import { fixCourse } from '../../course/edits/fix.ts';
import { filesOnDisk } from '../../course/files.ts';
import { COURSE_FILE } from '../../course/folder.ts';
import { type LoadOptions, loadCourse } from '../../course/load.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import type { Severity } from '../../diagnostics/diagnostic.ts';
import { linesOf, showProblem } from '../../diagnostics/place.ts';
import { type Argument, type Command, type Option, type Terminal, UsageError } from '../command.ts';
import { DEMO, PACKAGE } from '../package.ts';

const FOLDER =
  'The folder of the course; the word demo is the course that comes with Reedway. Default: the current folder or the nearest one above it that has a course.yaml.';

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
        'Print one array of problems, with file (relative to the course), line, column, endLine, endColumn, severity, code, message, help, and fix (certain, and edits with line, column, endLine, endColumn and text).',
    },
    strict: { type: 'boolean', about: 'Count warnings as errors.' },
    fix: {
      type: 'boolean',
      about: 'Apply the fixes that are certain to the files, and print the problems that are left.',
    },
    'dry-run': {
      type: 'boolean',
      about: 'With --fix: print what would be changed as a unified diff, and write nothing.',
    },
  },
  about:
    'Reads every lesson and every block of a course and prints every problem: file, line and column, the line with the place underlined, an explanation, and a suggested fix if there is one.',
  run({ arguments: [dir], options }, terminal) {
    const strict = options['strict'] === true;
    const isDry = options['dry-run'] === true;
    if (isDry && !options['fix']) throw new UsageError('--dry-run goes with --fix.');
    if (isDry && options['json']) throw new UsageError('--dry-run prints a diff, and --json problems: choose one.');
    const course = options['fix'] ? fixed(dir, terminal, strict, isDry) : readCourse(dir, terminal, { strict });
    if (!course) return 1;
    if (isDry) return isPublishable(course) ? 0 : 1;
    terminal.out(
      options['json']
        ? `${JSON.stringify(course.problems, null, 2)}\n`
        : `${problemReport(course, terminal.cwd)}${closing(course)}\n`,
    );
    return isPublishable(course) ? 0 : 1;
  },
};

/** The course with its certain fixes applied, on the disk as well unless the run is dry; undefined where they cannot be written. */
function fixed(dir: string | undefined, terminal: Terminal, strict: boolean, isDry: boolean): Course | undefined {
  const { after, count, changes } = fixCourse(filesOnDisk(courseFolder(dir, terminal)), { strict });
  if (isDry) {
    terminal.out(diffOf(changes));
  } else {
    try {
      putChanges(after.dir, changes);
    } catch (error) {
      if (!(error instanceof NotChanged)) throw error;
      terminal.err(`${error.message}\n`);
      return undefined;
    }
  }
  const where = changes.length === 0 ? '' : ` in ${plural(changes.length, 'file')}`;
  terminal.err(`${plural(count, 'fix', 'fixes')}${where}${isDry ? ' would be applied' : ' applied'}.\n`);
  return after;
}

/** Names the course that comes with Reedway, where no folder has that name. */
const DEMO_NAME = 'demo';

/** The course a command was given, or the one it was typed in. Throws a UsageError where that is none. */
export function courseFolder(dir: string | undefined, { cwd }: Terminal): string {
  if (dir !== undefined) {
    const named = resolve(cwd, dir);
    return dir === DEMO_NAME && !existsSync(named) ? DEMO : named;
  }
  const found = courseAround(cwd);
  if (found !== undefined) return found;
  // In a clone the course that comes with it is the only one near.
  if (cwd === PACKAGE) return DEMO;
  throw new UsageError(
    `There is no course here: neither ${cwd} nor a folder above it has a ${COURSE_FILE}.${misnamedIn(cwd)} Name the folder of the course, as in: reedway check ~/my-course`,
  );
}

/** The nearest folder that is a course, from this one upwards. */
export function courseAround(folder: string): string | undefined {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, COURSE_FILE))) return at;
    if (dirname(at) === at) return undefined;
  }
}

/** A file that was meant to make this folder a course. */
function misnamedIn(folder: string): string {
  const name = MISNAMED.find((one) => existsSync(join(folder, one)));
  return name === undefined ? '' : ` Its ${name} has to be called ${COURSE_FILE}.`;
}

const MISNAMED = ['course.yml', 'Course.yaml', 'course.yaml.txt', 'course.json'];

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
