/** `reedway rename`: gives a thing of a course another name, wherever it is written. */
import { type Course, isPublishable } from '../../course/course.ts';
import { diffOf } from '../../course/edits/diff.ts';
import { NotChanged, putChanges } from '../../course/edits/put-changes.ts';
import { filesOnDisk } from '../../course/files.ts';
import {
  isNamedKind,
  NAMED_KINDS,
  type NamedKind,
  readNewName,
  readOldName,
  wholeName,
} from '../../course/rename/name.ts';
import {
  fileChanges,
  hidingErrors,
  placesOfEdits,
  planRename,
  type RenamedFile,
  type RenamePlan,
} from '../../course/rename/plan.ts';
import { courseAfter, newProblems, strayedLinks } from '../../course/rename/verify.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import { nearest } from '../../diagnostics/nearest.ts';
import { type Command, orMeant, type Terminal, textOption, UsageError } from '../command.ts';
import { COURSE_OPTION, problemReport, readCourse } from './check.ts';

export const command: Command = {
  arguments: [
    {
      name: 'OLD',
      required: true,
      about:
        'What is renamed, as lessons name it: first-notes (a lesson), first-notes/walk (a block), first-notes/walk:up (a phrase), or the id of a technique or a stage.',
    },
    {
      name: 'NEW',
      required: true,
      about:
        'The new name: blues/first-notes moves a lesson to a folder; a block or phrase is named alone, as in walk.',
    },
  ],
  options: {
    as: {
      type: 'string',
      value: 'KIND',
      about: `What OLD is, where several things have that name: ${NAMED_KINDS.join(', ')}.`,
    },
    'dry-run': {
      type: 'boolean',
      about: 'Print the changes as a unified diff, with file:line:column of each behind @@, and write nothing.',
    },
    course: COURSE_OPTION,
  },
  about:
    'Gives a lesson, a block, a phrase, a technique of the course or a stage another name. Every requirement, quotation, link, figure, clip and cue that names it is rewritten, and nothing else is. The course is checked with the changes first; if there is any new problem, or a file has changed meanwhile, nothing is written.',
  run({ arguments: [oldName = '', newName = ''], options }, terminal) {
    const kind = kindOption(textOption(options, 'as'));
    const course = readCourse(textOption(options, 'course'), terminal);
    // Where the course itself cannot be read, that is what is wrong.
    const hiding = hidingErrors(course);
    if (hiding.length > 0) return refuse(course, hiding, terminal);
    const old = readOldName(course, oldName, kind);
    if ('fault' in old) throw new UsageError(old.fault);
    const made = readNewName(course, old.named, newName);
    if ('fault' in made) throw new UsageError(made.fault);
    const planned = planRename(course, { from: old.named, to: made.named });
    if ('obstacles' in planned) {
      const lines = planned.obstacles.map(({ place, why }) => `${place}  ${why}`);
      terminal.err(`${lines.join('\n')}\nNothing was changed.\n`);
      return 1;
    }
    return carryOut(course, planned.plan, options['dry-run'] === true, terminal);
  },
};

function kindOption(written: string | undefined): NamedKind | undefined {
  if (written === undefined || isNamedKind(written)) return written;
  const near = nearest(written, NAMED_KINDS);
  throw new UsageError(`--as takes one of ${NAMED_KINDS.join(', ')}.${orMeant(near)}`);
}

function refuse(course: Course, problems: Course['problems'], terminal: Terminal): number {
  terminal.err(problemReport({ ...course, problems }, terminal.cwd));
  terminal.err(
    'Errors such as these may hide names, which would not be rewritten. Fix them first. Nothing was changed.\n',
  );
  return 1;
}

function carryOut(course: Course, plan: RenamePlan, dryRun: boolean, terminal: Terminal): number {
  const { changes } = plan;
  const files = filesOnDisk(course.dir);
  const after = courseAfter(files, course, changes);
  const problems = newProblems(course, after, changes);
  if (problems.length > 0) {
    terminal.err(problemReport({ ...after, problems }, terminal.cwd));
    terminal.err(`The course would have ${plural(problems.length, 'new problem')} then. Nothing was changed.\n`);
    return 1;
  }
  const strayed = strayedLinks(course, after, plan);
  if (strayed.length > 0) {
    terminal.err(`${strayed.join('\n')}\nThese links would lead elsewhere then. Nothing was changed.\n`);
    return 1;
  }
  const edited = fileChanges(files, changes);
  if (dryRun) {
    terminal.out(diffOf(edited, placesOfEdits(changes)));
    return 0;
  }
  try {
    putChanges(course.dir, edited);
  } catch (error) {
    if (!(error instanceof NotChanged)) throw error;
    terminal.err(`${error.message}\n`);
    return 1;
  }
  terminal.out(`${closing(plan, changes)}${isPublishable(after) ? '' : ' The course has errors, as before.'}\n`);
  return 0;
}

function closing({ from, to }: RenamePlan, changes: readonly RenamedFile[]): string {
  const edits = changes.reduce((sum, change) => sum + change.edits.length, 0);
  const files = changes.filter((change) => change.edits.length > 0).length;
  return `The ${from.kind} ${wholeName(from)} is ${wholeName(to)} now: ${plural(edits, 'edit')} in ${plural(files, 'file')}.`;
}
