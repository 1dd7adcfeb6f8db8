/** Lessons and blocks as they are named on the command line. */
import type { Block, Course, Lesson } from '../../course/course.ts';
import { type FormerNames, nearestNow } from '../../diagnostics/nearest.ts';
import { type Input, orMeant, type Terminal, textOption, UsageError } from '../command.ts';
import { inputPlace, problemReport, readCourse } from '../course/check.ts';
import { lessonIdFrom } from '../course/lesson-id.ts';
import { readInput, STANDARD_INPUT } from '../course/standard-input.ts';

/** What a `LESSON` or `LESSON/BLOCK` on the command line names. */
export interface NamedBlocks {
  readonly lesson: Lesson;
  /** The block that was named, or all of the lesson's. */
  readonly blocks: readonly Block[];
}

/**
 * What `LESSON` or `LESSON/BLOCK` names. Throws a UsageError for what there is not, with the nearest there is: of the lessons,
 * and of what else the argument may name.
 */
export function namedBlocks(
  course: Course,
  name: string,
  terminal: Terminal,
  others: readonly string[] = [],
): NamedBlocks {
  const found = find(course, name, others);
  if (!('missing' in found)) return found;
  // Where the course itself cannot be read, that is what is wrong.
  if (course.lessons.length === 0) terminal.err(problemReport(course, terminal.cwd));
  throw new UsageError(found.missing);
}

function find(course: Course, name: string, others: readonly string[]): NamedBlocks | { readonly missing: string } {
  const plain = lessonIdFrom(name);
  const whole = course.byId.get(plain);
  if (whole) return { lesson: whole, blocks: whole.blocks };
  const slash = plain.lastIndexOf('/');
  const lesson = slash < 0 ? undefined : course.byId.get(plain.slice(0, slash));
  if (!lesson) {
    const what = others.length > 0 && slash < 0 ? 'lesson or technique' : 'lesson';
    return {
      missing: missing(
        what,
        slash < 0 ? plain : plain.slice(0, slash),
        [...course.byId.keys(), ...others],
        course.former.lessons,
      ),
    };
  }
  const id = plain.slice(slash + 1);
  const block =
    lesson.blocks.find((one) => one.id === id) ?? (/^\d+$/.test(id) ? lesson.blocks[Number(id)] : undefined);
  if (block) return { lesson, blocks: [block] };
  return {
    missing: missing(
      `block of ${lesson.id}`,
      id,
      lesson.blocks.map((one) => one.id),
      course.former.blocks.get(lesson.id),
    ),
  };
}

function missing(what: string, name: string, known: Iterable<string>, former: FormerNames | undefined): string {
  const { nearest, renamed } = nearestNow(name, known, former);
  const help = renamed ? ` It is called ${nearest} now.` : orMeant(nearest);
  return `There is no ${what} “${name}”.${help}`;
}

/** What an argument names in the course of the options, or what comes from standard input where it is `-`. */
export async function askedBlocks(
  name: string,
  options: Input['options'],
  terminal: Terminal,
): Promise<{ readonly course: Course; readonly found: NamedBlocks }> {
  if (name === STANDARD_INPUT) {
    const { course, ...found } = await readInput(terminal, inputPlace(options, terminal));
    return { course, found };
  }
  if (options['as'] !== undefined) throw new UsageError('--as goes with the argument -.');
  const course = readCourse(textOption(options, 'course'), terminal);
  return { course, found: namedBlocks(course, name, terminal) };
}

/** Blocks in text, one below the other. */
export const textOfBlocks = ({ lesson, blocks }: NamedBlocks, textOf: (block: Block) => string): string =>
  blocks.length === 0 ? `${lesson.id} has no block.\n` : blocks.map(textOf).join('\n');

/** Blocks with an error have no score to show: their problems are reported instead. The exit code. */
export function reportBroken(course: Course, { lesson, blocks }: NamedBlocks, terminal: Terminal): number {
  const broken = blocks.filter((block) => !block.score);
  if (broken.length === 0) return 0;
  const problems = course.problems.filter(
    ({ file, line }) =>
      file === lesson.file && broken.some(({ range }) => line >= range.start.line && line <= range.end.line),
  );
  terminal.err(problemReport({ ...course, problems }, terminal.cwd));
  return 1;
}

/** What the two arguments that name a lesson or block mean, for the help. */
export const NAMED = {
  name: 'LESSON[/BLOCK]',
  completes: 'lesson',
  required: true,
  about: 'The name of a lesson, and the id of a block or its number from 0. Without a block: all blocks.',
} as const;
