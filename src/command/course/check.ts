/** `reedway check`: every problem of every lesson in one run. */
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Course, isPublishable } from '../../course/course.ts';
import { diffOf } from '../../course/edits/diff.ts';
import { fixCourse } from '../../course/edits/fix.ts';
import { NotChanged, putChanges } from '../../course/edits/put-changes.ts';
import { filesOnDisk } from '../../course/files.ts';
import { COURSE_FILE } from '../../course/folder.ts';
import { type LoadOptions, loadCourse } from '../../course/load.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import type { Severity } from '../../diagnostics/diagnostic.ts';
import { nearest } from '../../diagnostics/nearest.ts';
import { linesOf, showProblem } from '../../diagnostics/place.ts';
import {
  type Argument,
  type Command,
  type Input,
  type Option,
  QUIET_OPTION,
  quietTerminal,
  type Terminal,
  textOption,
  UsageError,
} from '../command.ts';
import { DEMO, PACKAGE } from '../package.ts';
import { untilStopped } from '../publish/stop.ts';
import { shownPath } from '../terminal/shown-path.ts';
import { sarifOfCourse } from './check-sarif.ts';
import { followCourse } from './follow.ts';
import { lessonIdFrom } from './lesson-id.ts';
import { AS_OPTION, type InputPlace, orInput, readInput, STANDARD_INPUT } from './standard-input.ts';

const FOLDER =
  'The folder of the course; the word demo is the course that comes with Reedway. Default: the current folder or the nearest one above it that has a course.yaml.';

/** How the commands name a course: as an argument, or as an option beside arguments of their own. */
export const COURSE_ARGUMENT: Argument = { name: 'COURSE', completes: 'folder', about: FOLDER };
/** The option that names a course where the argument names something else. */
export const COURSE_OPTION: Option = { type: 'string', value: 'DIR', completes: 'folder', about: FOLDER };

export const command: Command = {
  arguments: [orInput(COURSE_ARGUMENT)],
  options: {
    course: {
      type: 'string',
      value: 'DIR',
      completes: 'folder',
      about: 'With -: the course that the text is checked in. Default: as for COURSE, or none.',
    },
    as: AS_OPTION,
    json: {
      type: 'boolean',
      about:
        'Print one array of problems, with file (relative to the course), line, column, endLine, endColumn, severity, code, message, help, and fix (certain, and edits with line, column, endLine, endColumn and text).',
    },
    format: {
      type: 'string',
      value: 'FORMAT',
      completes: ['text', 'json', 'sarif'],
      about:
        'text, json (the same as --json) or sarif: SARIF 2.1.0 for hosted pipelines, with files named from the current folder. Default: text.',
    },
    strict: { type: 'boolean', about: 'Count warnings as errors.' },
    quiet: QUIET_OPTION,
    fix: {
      type: 'boolean',
      about: 'Apply the fixes that are certain to the files, and print the problems that are left.',
    },
    'dry-run': {
      type: 'boolean',
      about: 'With --fix: print what would be changed as a unified diff, and write nothing.',
    },
    watch: {
      type: 'boolean',
      about:
        'Check again after every change of the course, and print the problems under the time. Stop it with Ctrl-C.',
    },
  },
  about:
    'Reads every lesson and every block of a course and prints every problem: file, line and column, the line with the place underlined, an explanation, and a suggested fix if there is one.',
  async run({ arguments: [dir], options }, shown) {
    const terminal = quietTerminal(shown, options);
    const { strict, fix, watch } = options;
    const format = formatOption(options);
    const isDry = options['dry-run'] === true;
    if (isDry && !fix) throw new UsageError('--dry-run goes with --fix.');
    if (isDry && format !== 'text')
      throw new UsageError(`--dry-run prints a diff, and ${named(format)} problems: choose one.`);
    const input = dir === STANDARD_INPUT;
    const placed = ['course', 'as'].find((name) => options[name] !== undefined);
    if (placed !== undefined && !input) throw new UsageError(`--${placed} goes with the argument -.`);
    if (input && (watch || fix)) throw new UsageError(`--${watch ? 'watch' : 'fix'} needs files, and - is none.`);
    if (watch) {
      if (format !== 'text' || fix)
        throw new UsageError(`--watch and ${fix ? '--fix' : named(format)} do not go together.`);
      const stop = new AbortController();
      untilStopped().then(() => stop.abort());
      await watchCourse(courseFolder(dir, terminal), options, terminal, stop.signal);
      return 0;
    }
    const course = input
      ? (await readInput(terminal, inputPlace(options, terminal), { strict: strict === true })).course
      : fix
        ? fixed(dir, terminal, options)
        : readCourse(dir, terminal, { strict: strict === true });
    if (!course) return 1;
    if (isDry) return isPublishable(course) ? 0 : 1;
    terminal.out(PRINTERS[format](course, options, terminal));
    return isPublishable(course) ? 0 : 1;
  },
};

/** Where a text from standard input is read: in the named course, or the one it was typed in, or none. */
export const inputPlace = (options: Input['options'], terminal: Terminal): InputPlace => {
  const [named, as] = [textOption(options, 'course'), textOption(options, 'as')];
  const dir = named === undefined ? courseAround(terminal.cwd) : courseFolder(named, terminal);
  return { dir, as: as === undefined ? undefined : lessonIdFrom(as) };
};

/** The course with its certain fixes applied, on the disk as well unless the run is dry; undefined where they cannot be written. */
function fixed(dir: string | undefined, terminal: Terminal, options: Input['options']): Course | undefined {
  const [strict, isDry] = [options['strict'] === true, options['dry-run'] === true];
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
  const open = after.problems.filter(({ fix }) => fix && !fix.certain).length;
  const left = open === 0 ? '' : ` What ${plural(open, 'problem')} may mean is for you to decide.`;
  if (!options['quiet'])
    terminal.err(`${plural(count, 'fix', 'fixes')}${where}${isDry ? ' would be applied' : ' applied'}.${left}\n`);
  return after;
}

/** Prints the problems of a course, and again after every change, until it is stopped. */
export async function watchCourse(
  dir: string,
  options: Input['options'],
  terminal: Terminal,
  stopped: AbortSignal,
): Promise<void> {
  let course: Course | undefined;
  const print = (): void => {
    course = loadCourse(dir, course, { strict: options['strict'] === true });
    terminal.clear?.();
    const head = `Checked at ${new Date().toTimeString().slice(0, 8)}.`;
    terminal.out(`${head}\n\n${checkInText(course, options, terminal)}${terminal.clear ? '' : '\n'}`);
  };
  await followCourse(dir, print, stopped);
}

/** How the problems of a course are printed, by the name of the format. */
const PRINTERS = {
  text: (course: Course, options: Input['options'], terminal: Terminal): string =>
    checkInText(course, options, terminal),
  json: ({ problems }: Course): string => `${JSON.stringify(problems, null, 2)}\n`,
  sarif: (course: Course, _: Input['options'], { cwd }: Terminal): string =>
    `${JSON.stringify(sarifOfCourse(course, cwd), null, 2)}\n`,
} as const;

type CheckFormat = keyof typeof PRINTERS;

const named = (format: CheckFormat): string => (format === 'json' ? '--json' : `--format ${format}`);

function formatOption(options: Input['options']): CheckFormat {
  const asked = textOption(options, 'format');
  if (asked === undefined) return options['json'] ? 'json' : 'text';
  const name = Object.keys(PRINTERS).find((one): one is CheckFormat => one === asked);
  if (name === undefined) {
    const near = nearest(asked, Object.keys(PRINTERS));
    throw new UsageError(
      `There is no format “${asked}”. ${near === undefined ? `There are ${Object.keys(PRINTERS).join(', ')}.` : `Did you mean ${near}?`}`,
    );
  }
  if (options['json'] && name !== 'json') throw new UsageError(`--json and --format ${name} do not go together.`);
  return name;
}

const checkInText = (course: Course, options: Input['options'], { cwd }: Terminal): string =>
  `${problemReport(course, cwd)}${options['quiet'] ? '' : `${closing(course)}\n`}`;

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

/** The nearest folder that is a course, from this one upwards; undefined where there is none. */
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
      const file = shownPath(join(course.dir, problem.file), cwd);
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
