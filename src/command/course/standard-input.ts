/**
 * A lesson or a block that is typed or piped in, read as a part of a course. A text that begins with `---` or has a fence is a
 * lesson; any other is a block.
 */
import type { Block, Course, Lesson } from '../../course/course.ts';
import { decode } from '../../course/decode.ts';
import { withOverlay } from '../../course/edits/overlay.ts';
import { type Files, filesOnDisk } from '../../course/files.ts';
import { COURSE_FILE, LESSONS, lessonIdOf } from '../../course/folder.ts';
import { type LoadOptions, loadFrom } from '../../course/load.ts';
import { PATH_PROBLEMS } from '../../curriculum/problems.ts';
import type { Problem } from '../../diagnostics/place.ts';
import { valueAt } from '../../values/checked.ts';
import { type Argument, type Terminal, UsageError } from '../command.ts';

/** As an argument it is what is read instead of a file. */
export const STANDARD_INPUT = '-';

/** What the help of a command says of it. */
export const INPUT_ABOUT =
  'The argument - is a lesson or a block from standard input: a text that begins with --- or has a fence is a lesson, any other a block.';

/** The option that says which lesson a text from standard input is, or belongs to. */
export const AS_OPTION = {
  type: 'string',
  value: 'LESSON',
  completes: 'lesson',
  about:
    'With -: the lesson that the text stands for, or that the block belongs to; it may be a new one. Default: a lesson that no other knows, whose place on the path is not checked.',
} as const;

/** The lesson or block that was read, in its course. */
export interface ReadInput {
  /** The course with that lesson alone, and with the problems of what was read. */
  readonly course: Course;
  readonly lesson: Lesson;
  readonly blocks: readonly Block[];
}

/** Where it is read: in the course of a folder, or in none; as which lesson. */
export interface InputPlace {
  readonly dir: string | undefined;
  readonly as: string | undefined;
}

/** Reads what comes from standard input. Throws a UsageError where a block is said to belong to a lesson that is not there. */
export async function readInput(
  terminal: Terminal,
  { dir, as }: InputPlace,
  options?: LoadOptions,
): Promise<ReadInput> {
  const { text } = decode(await inputBytes(terminal));
  const files = dir === undefined ? NO_COURSE : filesOnDisk(dir);
  const file = `${LESSONS}/${as ?? UNNAMED}.mdx`;
  const isBlock = !isLesson(text);
  const { written, from } = isBlock ? around(text, as === undefined ? FRONT : sourceOf(files, file, as)) : whole(text);
  const course = loadFrom(withOverlay(files, new Map([[file, Buffer.from(written)]])), undefined, options);
  const lesson = valueAt(course.byId, lessonIdOf(file).normalize());
  // A block may be one that its lesson has already, as it was before.
  const ignored = new Set([
    ...(as === undefined ? Object.keys(PATH_PROBLEMS) : []),
    ...(isBlock ? ['block-twice'] : []),
  ]);
  const shown = isBlock || as === undefined ? STANDARD_INPUT : file;
  const problems = course.problems
    .filter((problem) => problem.file === file && problem.line > from && !ignored.has(problem.code))
    .map((problem) => moved(problem, shown, from));
  const blocks = (isBlock ? lesson.blocks.slice(-1) : lesson.blocks).map((block) => atTop(block, from));
  const own: Lesson = { ...lesson, file: shown, blocks: isBlock ? blocks : lesson.blocks };
  return {
    lesson: own,
    blocks,
    course: {
      ...course,
      // Where a file has no name of its own, it is named as it was typed.
      dir: shown === STANDARD_INPUT ? terminal.cwd : course.dir,
      lessons: [own],
      sources: new Map([[shown, isBlock ? text : written]]),
      problems,
    },
  };
}

/** All bytes of standard input. */
export async function inputBytes({ input }: Terminal): Promise<Buffer> {
  if (!input) throw new UsageError('There is no standard input here.');
  return await input();
}

/** The name of a lesson that has none. */
const UNNAMED = 'standard-input';
const FRONT = '---\ntitle: Standard input\n---\n';

/** Whether a text is a lesson and not a block alone. */
export const isLesson = (text: string): boolean =>
  text.startsWith('---') || /^[ \t>*+\d.)-]*(?:`{3,}|~{3,})/m.test(text);

/** A text with the number of its first lines that were not typed. */
interface Written {
  readonly written: string;
  readonly from: number;
}

const whole = (text: string): Written => ({ written: text, from: 0 });

/** A block at the end of a lesson. */
function around(block: string, lesson: string): Written {
  const before = `${lesson}\n\n\`\`\`tab\n`;
  const end = /[\r\n]$/.test(block) || block === '' ? '' : '\n';
  return { written: `${before}${block}${end}\`\`\`\n`, from: before.split(/\r\n|\r|\n/).length - 1 };
}

function sourceOf(files: Files, file: string, as: string): string {
  try {
    return decode(files.read(file)).text;
  } catch {
    throw new UsageError(`There is no lesson “${as}” that this block could belong to.`);
  }
}

/** A course of nothing: every setting is as it ships. */
const NO_COURSE: Files = withOverlay(
  { ...filesOnDisk('/dev/null/no-course'), kind: () => 'folder', list: () => [] },
  new Map([[COURSE_FILE, Buffer.from('title: No course\n')]]),
);

function moved(problem: Problem, file: string, by: number): Problem {
  const { line, endLine, fix } = problem;
  const edits = fix?.edits.map((edit) => ({ ...edit, line: edit.line - by, endLine: edit.endLine - by }));
  return {
    ...problem,
    file,
    line: line - by,
    endLine: endLine - by,
    ...(fix && edits ? { fix: { ...fix, edits } } : {}),
  };
}

/** A block whose fence was not typed has all lines of the text. */
const atTop = (block: Block, from: number): Block =>
  from === 0
    ? block
    : { ...block, range: { start: { line: 1, column: 1 }, end: { line: Number.MAX_SAFE_INTEGER, column: 1 } } };

/** An argument with what is said of standard input. */
export const orInput = (argument: Argument): Argument => ({ ...argument, about: `${argument.about} ${INPUT_ABOUT}` });
