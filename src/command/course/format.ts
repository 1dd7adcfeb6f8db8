/** `reedway format`: the blocks of a course, of some lessons, or of what an editor sends, in their clean form. */
import { isUtf8 } from 'node:buffer';
import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import type { Course, Lesson } from '../../course/course.ts';
import { encodeLike, type FileChange } from '../../course/edits/change.ts';
import { NotChanged, putChanges } from '../../course/edits/put-changes.ts';
import { reasonOf } from '../../course/files.ts';
import { COURSE_FILE } from '../../course/folder.ts';
import { loadCourse } from '../../course/load.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import { type FormattedLesson, formatLesson, type LeftBlock } from '../../lesson/format-lesson.ts';
import { formatBlock } from '../../notation/format/format.ts';
import { type Command, type Terminal, UsageError } from '../command.ts';
import { shownPath } from '../terminal/shown-path.ts';
import { courseAround, courseFolder, readCourse } from './check.ts';
import { INPUT_ABOUT, inputBytes, isLesson, STANDARD_INPUT } from './standard-input.ts';

export const command: Command = {
  arguments: [
    {
      name: 'FILES',
      about: `Lessons (.mdx), or the folder of a course. Default: the course in the current folder or the nearest one above it. ${INPUT_ABOUT} It is printed formatted, and read without its course: only the errors of its own text are found.`,
      many: true,
    },
  ],
  options: {
    check: {
      type: 'boolean',
      about: 'Write nothing; name what would change, and end with 1 if anything would.',
    },
  },
  about:
    'Brings tab blocks into one clean form: bars in columns, four in a line, words under their notes, single spaces, no more than one empty line. What a block says, its comments and everything around blocks stay as they are. Blocks with errors are left alone and named. Prints the files that were changed.',
  run({ arguments: names, options }, terminal) {
    const isCheck = options['check'] === true;
    if (names.includes(STANDARD_INPUT)) {
      if (names.length > 1) throw new UsageError('- stands for standard input, and goes with no other file.');
      return formatInput(isCheck, terminal);
    }
    const lessons = names.length === 0 ? lessonsOfCourse(undefined, terminal) : lessonsNamed(names, terminal);
    return formatFiles(lessons, isCheck, terminal);
  },
};

/** A lesson's file to format, and what the course around it knows of its blocks. */
interface LessonFile {
  readonly path: string;
  readonly errorsOf: (index: number) => number;
}

function lessonsNamed(names: readonly string[], terminal: Terminal): LessonFile[] {
  const courses = new Map<string, Course>();
  const found = names.flatMap((name) => {
    const path = resolve(terminal.cwd, name);
    const kind = statSync(path, { throwIfNoEntry: false });
    if (!kind ? courseFolder(name, terminal) !== path : kind.isDirectory()) return lessonsOfCourse(name, terminal);
    if (!kind) throw new UsageError(`There is no file ${name}.`);
    if (!kind.isFile() || !name.endsWith('.mdx'))
      throw new UsageError(`${name} is no lesson: a lesson is a file whose name ends in .mdx.`);
    const dir = courseAround(path);
    if (dir === undefined) return { path, errorsOf: () => 0 };
    const course = courses.get(dir) ?? loadCourse(dir);
    courses.set(dir, course);
    return lessonFile(
      course,
      path,
      course.lessons.find(({ file }) => join(course.dir, file) === path),
    );
  });
  return [...new Map(found.map((one) => [realpathSync(one.path), one])).values()];
}

function lessonsOfCourse(name: string | undefined, terminal: Terminal): LessonFile[] {
  const dir = courseFolder(name, terminal);
  if (!existsSync(join(dir, COURSE_FILE)))
    throw new UsageError(`${name ?? dir} is no course: it has no ${COURSE_FILE}. Name a course, or files of lessons.`);
  const course = readCourse(name, terminal);
  return course.lessons
    .map((lesson) => lessonFile(course, join(course.dir, lesson.file), lesson))
    .sort((a, b) => (a.path < b.path ? -1 : 1));
}

const lessonFile = (course: Course, path: string, lesson: Lesson | undefined): LessonFile => ({
  path,
  errorsOf: (index) => (lesson ? errorsIn(course, lesson, index) : 0),
});

/** How many errors the course reports in a block of a lesson. */
function errorsIn({ problems }: Course, { file, blocks }: Lesson, index: number): number {
  const block = blocks[index];
  if (!block || block.score) return 0;
  const { start, end } = block.range;
  const inside = problems.filter(
    (one) => one.file === file && one.severity === 'error' && one.line >= start.line && one.line <= end.line,
  );
  return Math.max(1, inside.length);
}

function formatFiles(lessons: readonly LessonFile[], isCheck: boolean, terminal: Terminal): number {
  const { cwd } = terminal;
  const changes: FileChange[] = [];
  const changed: string[] = [];
  let failed = false;
  for (const { path, errorsOf } of lessons) {
    const shown = shownPath(path, cwd);
    try {
      const before = readFileSync(path);
      if (!isUtf8(before)) throw new Error('it is not UTF-8 text');
      const source = before.toString('utf8').replace(/^\ufeff/, '');
      const formatted = formatLesson(source, errorsOf);
      failed = nameLeft(shown, formatted, terminal) || failed;
      if (formatted.text === source) continue;
      changed.push(shown);
      // A link stays one: what it leads to is written.
      changes.push({ file: relative(cwd, realpathSync(path)), before, after: encodeLike(before, formatted.text) });
    } catch (error) {
      terminal.err(`${shown} cannot be formatted: ${reasonOf(error)}.\n`);
      failed = true;
    }
  }
  if (!isCheck) {
    try {
      putChanges(cwd, changes);
    } catch (error) {
      if (!(error instanceof NotChanged)) throw error;
      terminal.err(`${error.message}\n`);
      return 1;
    }
  }
  const what = changed.length === 0 ? 'nothing to change' : `${changed.length} ${isCheck ? 'would change' : 'changed'}`;
  terminal.out([...changed, `${plural(lessons.length, 'lesson')}: ${what}.`, ''].join('\n'));
  return failed || (isCheck && changed.length > 0) ? 1 : 0;
}

/** Names the blocks that were left as they are; whether one of them is a fault of Reedway. */
function nameLeft(shown: string, { left }: Pick<FormattedLesson, 'left'>, terminal: Terminal): boolean {
  for (const block of left) terminal.err(`${shown}:${block.at.line}: ${wordsForLeft(block)}\n`);
  return left.some(({ errors }) => errors === 0);
}

const wordsForLeft = ({ id, errors }: Omit<LeftBlock, 'at'>): string => {
  const block = id === undefined ? 'this block' : `the block ${id}`;
  return errors === 0
    ? `${block} was left as it is: its clean form would not say the same. This is a fault of Reedway; please report it.`
    : `${block} was left as it is: it has ${plural(errors, 'error')}.`;
};

/** Standard input to standard output. */
async function formatInput(isCheck: boolean, terminal: Terminal): Promise<number> {
  const bytes = await inputBytes(terminal);
  if (!isUtf8(bytes)) {
    terminal.err('Standard input cannot be formatted: it is not UTF-8 text.\n');
    return 1;
  }
  const source = bytes.toString('utf8').replace(/^\ufeff/, '');
  const formatted = isLesson(source) ? formatLesson(source) : formatAlone(source);
  const failed = nameLeft('standard input', formatted, terminal);
  const wouldChange = formatted.text !== source;
  if (!isCheck) terminal.out(encodeLike(bytes, formatted.text).toString('utf8'));
  else terminal.out(wouldChange ? 'Standard input would change.\n' : 'Standard input: nothing to change.\n');
  return failed || (isCheck && wouldChange) ? 1 : 0;
}

/** A block without a fence; its line breaks are those of its first line. */
function formatAlone(text: string): FormattedLesson {
  const formatted = formatBlock(text);
  if ('lines' in formatted) {
    const lineBreak = /\r\n|\r|\n/.exec(text)?.[0] ?? '\n';
    return { text: formatted.lines.map((line) => line + lineBreak).join(''), left: [] };
  }
  const errors = 'errors' in formatted ? formatted.errors : 0;
  return { text, left: [{ at: { line: 1, column: 1 }, id: undefined, errors }] };
}
