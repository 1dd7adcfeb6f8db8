/** `reedway new lesson`: a file with its front matter filled in, at its place on the path. */
import { existsSync, linkSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Course, Lesson } from '../../course/course.ts';
import { withOverlay } from '../../course/edits/overlay.ts';
import { errorCode, filesOnDisk, reasonOf } from '../../course/files.ts';
import { COURSE_FILE, LESSONS, lessonIdOf } from '../../course/folder.ts';
import { loadFrom } from '../../course/load.ts';
import { nearest } from '../../diagnostics/nearest.ts';
import type { Problem } from '../../diagnostics/place.ts';
import { isLessonName, isReservedName, lessonNameFrom } from '../../lesson/lesson-name.ts';
import { type Terminal, UsageError } from '../command.ts';
import { courseFolder, problemReport } from '../course/check.ts';
import { lessonIdFrom } from '../course/lesson-id.ts';
import { CannotWrite } from '../export/destination.ts';
import { shownPath } from '../terminal/shown-path.ts';
import { type LessonPlacing, starterLesson } from './starter.ts';

/** What may be said of a new lesson. */
export interface LessonWishes {
  readonly course: string | undefined;
  readonly stage: string | undefined;
  readonly after: string | undefined;
  readonly name: string | undefined;
  readonly draft: boolean;
}

/** Writes a new lesson. Throws a UsageError for what cannot be, and CannotWrite. */
export function newLesson(written: string, wishes: LessonWishes, terminal: Terminal): void {
  const title = written.replace(/[\s\p{Cc}]+/gu, ' ').trim();
  if (title === '') throw new UsageError('TITLE is empty: the title of the new lesson.');
  const dir = courseFolder(wishes.course, terminal);
  const files = filesOnDisk(dir);
  const course = loadFrom(files);
  if (!course.sources.has(COURSE_FILE))
    throw new UsageError(`There is no ${COURSE_FILE} in ${dir}. reedway new course DIR makes a course.`);
  const file = `${LESSONS}/${nameOf(title, wishes.name, course)}.mdx`;
  const chosen = bestTrial(course, file, title, placings(course, wishes));
  writeNew(join(dir, file), chosen.text);
  report(course, chosen, file, terminal);
}

/** A placing, and what the course would be with it. */
interface Trial {
  readonly placing: LessonPlacing;
  readonly text: string;
  readonly course: Course;
  /** Problems that the course did not have before. */
  readonly fresh: readonly Problem[];
}

/** The first placing that gives no problem; the first of all where each gives one. */
function bestTrial(course: Course, file: string, title: string, [first, ...others]: Placings): Trial {
  const best = tryOut(course, file, title, first);
  if (best.fresh.length === 0) return best;
  for (const placing of others) {
    const trial = tryOut(course, file, title, placing);
    if (trial.fresh.length === 0) return trial;
  }
  return best;
}

function tryOut(before: Course, file: string, title: string, placing: LessonPlacing): Trial {
  const text = starterLesson(title, placing);
  const course = loadFrom(withOverlay(filesOnDisk(before.dir), new Map([[file, Buffer.from(text)]])), before);
  const known = new Set(before.problems.map(keyOf));
  return { placing, text, course, fresh: course.problems.filter((problem) => !known.has(keyOf(problem))) };
}

const keyOf = ({ file, line, column, code, message }: Problem): string =>
  `${file}:${line}:${column} ${code} ${message}`;

type Placings = readonly [LessonPlacing, ...LessonPlacing[]];

/** The ways to write where the lesson is, the best first. */
function placings(course: Course, wishes: LessonWishes): Placings {
  const stages = course.file.stages.map(({ id }) => id);
  if (wishes.stage !== undefined && !stages.includes(wishes.stage))
    throw new UsageError(unknown('stage', wishes.stage, stages, `Stages are in ${COURSE_FILE}.`));
  const before = lessonBefore(course, wishes);
  const stage = wishes.stage ?? before?.frontMatter.stage;
  const rank = (id: string | undefined): number => (id === undefined ? -1 : stages.indexOf(id));
  if (before && rank(stage) < rank(before.frontMatter.stage))
    throw new UsageError(
      `The stage ${stage} comes before ${before.frontMatter.stage}, the stage of ${before.id}. Leave --stage or --after out.`,
    );
  const plain: LessonPlacing = {
    stage,
    requires: before?.id,
    order: undefined,
    draft: wishes.draft || before?.frontMatter.draft === true,
  };
  const order = orderAfter(course, before, stage);
  const unbound = { ...plain, requires: undefined };
  return order === undefined ? [plain, unbound] : [{ ...plain, order }, plain, unbound];
}

/** The lesson that the new one follows: the named one, or the last of its stage, of the stages before it, or of the course. */
function lessonBefore(course: Course, { after, stage, draft }: LessonWishes): Lesson | undefined {
  if (after !== undefined) {
    const id = lessonIdFrom(after);
    const named = course.byId.get(id);
    if (named) return named;
    throw new UsageError(unknown('lesson', after, [...course.byId.keys()], 'reedway path lists the lessons.'));
  }
  const stages = course.file.stages.map(({ id }) => id);
  const last = stage === undefined ? stages.length : stages.indexOf(stage);
  // A published lesson cannot require a draft.
  const possible = course.lessons.filter(
    ({ frontMatter }) => (draft || !frontMatter.draft) && stages.indexOf(frontMatter.stage ?? '') <= last,
  );
  const ranks = possible.map(({ frontMatter }) => stages.indexOf(frontMatter.stage ?? ''));
  const highest = Math.max(...ranks);
  return possible.findLast((_, index) => stage === undefined || ranks[index] === highest);
}

/** An order that puts the lesson before the others of its stage that come after `before`; undefined where none is needed or possible. */
function orderAfter({ lessons }: Course, before: Lesson | undefined, stage: string | undefined): number | undefined {
  const at = before ? lessons.indexOf(before) : -1;
  const later = lessons.slice(at + 1).filter(({ frontMatter }) => frontMatter.stage === stage);
  if (later.length === 0) return undefined;
  const low = before?.frontMatter.stage === stage ? before?.frontMatter.order : undefined;
  const high = Math.min(...later.flatMap(({ frontMatter }) => frontMatter.order ?? []));
  if (high === Number.POSITIVE_INFINITY) return (low ?? 0) + 1;
  if (low === undefined) return high - 1;
  return low < high ? (low + 1 < high ? low + 1 : (low + high) / 2) : undefined;
}

/** The name of the file, with its folders, which no other lesson has. */
function nameOf(title: string, wished: string | undefined, course: Course): string {
  const taken = new Set(course.lessons.map(({ id }) => id.toLowerCase()));
  if (wished !== undefined) {
    const name = lessonIdFrom(wished);
    const wrong = name.split('/').find((step) => !isLessonName(step) || isReservedName(step));
    if (wrong !== undefined) {
      throw new UsageError(
        isReservedName(wrong)
          ? `“${wrong}” cannot be the name of a lesson: some machines have another use for it.`
          : `“${wrong}” cannot be part of an address: letters, digits, hyphens and underscores only.`,
      );
    }
    if (taken.has(name.toLowerCase()))
      throw new UsageError(`There is a lesson “${name}” already. Give another --name.`);
    return name;
  }
  const made = lessonNameFrom(title);
  if (made === undefined)
    throw new UsageError(
      `No name for the file can be made from “${title}”. Name it yourself, as in: --name second-notes`,
    );
  const base = isReservedName(made) ? `${made}-lesson` : made;
  for (let number = 1; ; number++) {
    const name = number === 1 ? base : `${base}-${number}`;
    if (!taken.has(name.toLowerCase())) return name;
  }
}

/** Writes a file that is not there yet, whole or not at all. */
function writeNew(path: string, text: string): void {
  const partial = `${path}.${process.pid}.partial`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    if (existsSync(path)) throw new CannotWrite(`${path} is there already.`);
    writeFileSync(partial, text, { flag: 'wx' });
    putAt(partial, path, text);
  } catch (error) {
    if (error instanceof CannotWrite) throw error;
    if (errorCode(error) === 'EEXIST') throw new CannotWrite(`${path} is there already.`);
    throw new CannotWrite(`${path} cannot be written: ${reasonOf(error)}.`);
  } finally {
    rmSync(partial, { force: true });
  }
}

/** A link fails where the name is taken, and a rename would replace what has it. */
function putAt(partial: string, path: string, text: string): void {
  try {
    linkSync(partial, path);
  } catch (error) {
    // Some disks have no links.
    if (errorCode(error) === 'EEXIST') throw error;
    writeFileSync(path, text, { flag: 'wx' });
  }
}

function report(before: Course, { placing, course, fresh }: Trial, file: string, terminal: Terminal): void {
  const id = lessonIdOf(file);
  const number = course.lessons.findIndex((lesson) => lesson.id === id) + 1;
  const { stage, requires, draft } = placing;
  const where = [
    ...(stage === undefined ? [] : [`in the stage ${stage}`]),
    ...(requires === undefined ? [] : [`after ${requires}`]),
  ];
  terminal.out(
    `${shownPath(join(before.dir, file), terminal.cwd)}\nLesson ${number} of ${course.lessons.length}${where.length > 0 ? `, ${where.join(', ')}` : ''}.${draft ? ' It is a draft: remove draft: true to publish it.' : ''}\n`,
  );
  if (fresh.length > 0) terminal.err(`${problemReport({ ...course, problems: fresh }, terminal.cwd)}`);
}

function unknown(what: string, name: string, known: readonly string[], otherwise: string): string {
  const near = nearest(name, known);
  return `There is no ${what} “${name}”. ${near === undefined ? otherwise : `Did you mean ${near}?`}`;
}
