/** A rename tried in memory: the course as it would be, and what would be wrong with it that is not wrong now. */
import { applyEdits, offsetAfter } from '../../diagnostics/edit.ts';
import { type Problem, placeOf, pointAt } from '../../diagnostics/place.ts';
import type { Course } from '../course.ts';
import { filesAfter } from '../edits/change.ts';
import type { Files } from '../files.ts';
import { loadFrom } from '../load.ts';
import { lessonAfter, targetAfter } from './links.ts';
import { offsetInText } from './mentions.ts';
import { fileChanges, type RenamedFile, type RenamePlan } from './plan.ts';

/** The course with these changes made, and nothing written. */
export const courseAfter = (files: Files, course: Course, changes: readonly RenamedFile[]): Course =>
  loadFrom(filesAfter(files, fileChanges(files, changes)), course);

/**
 * Problems of the changed course that the course did not have. A name settles the order of lessons that the path leaves free, so a
 * finding may go from one lesson to another: as long as there are no more of its code, it is not new.
 */
export function newProblems(before: Course, after: Course, changes: readonly RenamedFile[]): Problem[] {
  const byFile = new Map(changes.map((change) => [change.file, change]));
  const known = before.problems.map((problem) => moved(problem, byFile.get(problem.file)));
  const unexpected = without(after.problems, known, keyOf);
  const gone = without(known, after.problems, keyOf).filter(({ severity }) => severity !== 'error');
  return without(unexpected, gone, ({ code }) => code);
}

/** Those that have no counterpart among the others. */
function without<One extends Where>(
  some: readonly One[],
  others: readonly Where[],
  key: (one: Where) => string,
): One[] {
  const left = new Map<string, number>();
  for (const one of others) left.set(key(one), (left.get(key(one)) ?? 0) + 1);
  return some.filter((one) => {
    const count = left.get(key(one)) ?? 0;
    left.set(key(one), count - 1);
    return count <= 0;
  });
}

type Where = Pick<Problem, 'file' | 'line' | 'code' | 'severity'>;

const keyOf = ({ file, line, code, severity }: Where): string => `${file}:${line} ${severity} ${code}`;

function moved(problem: Problem, change: RenamedFile | undefined): Where {
  if (!change) return problem;
  const at = offsetAfter(change.edits, offsetInText(change.before, problem));
  return { ...problem, file: change.to, line: pointAt(placeOf(change.after), at).line };
}

/** Links that would lead elsewhere: `lessons/first.mdx:12:3`. */
export function strayedLinks(before: Course, after: Course, plan: RenamePlan): string[] {
  return before.lessons.flatMap(({ id, links }) => {
    const lesson = after.byId.get(lessonAfter(id, plan));
    return links.flatMap(({ target }, index) => {
      const now = lesson?.links[index];
      const wanted = targetAfter(target, plan);
      // A link that leads nowhere may find something under the new name.
      if (wanted.kind === 'broken' || (now && textOf(now.target) === textOf(wanted))) return [];
      return `${lesson?.file ?? id}:${now?.range.start.line ?? 1}:${now?.range.start.column ?? 1}`;
    });
  });
}

function textOf(target: unknown): string {
  return JSON.stringify(target, (_, value: unknown) =>
    typeof value === 'object' && value !== null
      ? Object.fromEntries(Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
}

/** The same changes with one edit withheld, for tests of whether each is needed. */
export function withoutEdit(changes: readonly RenamedFile[], file: string, index: number): RenamedFile[] {
  return changes.map((change) => {
    if (change.file !== file) return change;
    const edits = change.edits.filter((_, place) => place !== index);
    return { ...change, edits, after: applyEdits(change.before, edits) };
  });
}
