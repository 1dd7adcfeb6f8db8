/** `reedway new`: a course, or a lesson of one. */
import { nearest } from '../../diagnostics/nearest.ts';
import { type Command, type Input, textOption, UsageError } from '../command.ts';
import { COURSE_OPTION } from '../course/check.ts';
import { CannotWrite } from '../export/destination.ts';
import { newCourse } from './new-course.ts';
import { newLesson } from './new-lesson.ts';

/** What there is to make, and the options of each. */
const KINDS = { course: ['title'], lesson: ['stage', 'after', 'name', 'draft', 'course'] } as const;

export const command: Command = {
  arguments: [
    { name: 'WHAT', completes: ['course', 'lesson'], required: true, about: 'course or lesson.' },
    {
      name: 'NAME',
      required: true,
      many: true,
      about: 'For a course its folder, which is empty or not there yet. For a lesson its title.',
    },
  ],
  options: {
    title: {
      type: 'string',
      value: 'TEXT',
      about: 'The title of the course. Default: made from the name of its folder.',
    },
    stage: { type: 'string', value: 'STAGE', about: 'The stage of the lesson. Default: that of the lesson before it.' },
    after: {
      type: 'string',
      value: 'LESSON',
      completes: 'lesson',
      about: 'The lesson before it, which it requires. Default: the last lesson of its stage.',
    },
    name: {
      type: 'string',
      value: 'NAME',
      about: 'The name of the lesson’s file, with folders if you like. Default: made from the title.',
    },
    draft: { type: 'boolean', about: 'Make the lesson a draft, which no build publishes.' },
    course: COURSE_OPTION,
  },
  about:
    'Makes a small complete course in a folder (reedway new course my-course), or a lesson with its front matter filled in (reedway new lesson "The second step"). No file is ever replaced.',
  run({ arguments: [what = '', ...names], options }, terminal) {
    try {
      checkOptions(what, options);
      if (what === 'course') {
        if (names.length > 1) throw new UsageError(`“${names[1]}” is one argument too many.`);
        newCourse(names[0] ?? '', textOption(options, 'title'), terminal);
      } else {
        const { stage, after, name, course } = Object.fromEntries(
          KINDS.lesson.map((option) => [option, textOption(options, option)]),
        );
        newLesson(names.join(' '), { stage, after, name, course, draft: options['draft'] === true }, terminal);
      }
      return 0;
    } catch (error) {
      if (!(error instanceof CannotWrite)) throw error;
      terminal.err(`${error.message} Nothing was written.\n`);
      return 1;
    }
  },
};

function checkOptions(what: string, options: Input['options']): void {
  const kind = Object.keys(KINDS).find((one) => one === what);
  if (kind !== 'course' && kind !== 'lesson') {
    const near = nearest(what, Object.keys(KINDS));
    throw new UsageError(
      near === undefined
        ? `WHAT is course or lesson, as in: reedway new lesson "${what}"`
        : `There is no new ${what}. Did you mean ${near}?`,
    );
  }
  const own: readonly string[] = KINDS[kind];
  const other = Object.keys(options).find((name) => options[name] !== undefined && !own.includes(name));
  if (other !== undefined) throw new UsageError(`--${other} is not for a new ${kind}.`);
}
