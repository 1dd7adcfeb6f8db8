/** Applies the certain fixes of a course’s problems in memory, as often as that removes some. */
import type { TextEdit } from '../../diagnostics/diagnostic.ts';
import { applyEdits } from '../../diagnostics/edit.ts';
import { editsOf, type PlacedFix, type Problem, placeOf } from '../../diagnostics/place.ts';
import { valueAt } from '../../values/checked.ts';
import type { Course } from '../course.ts';
import type { Files } from '../files.ts';
import { type LoadOptions, loadFrom } from '../load.ts';
import { bytesBehind, encodeLike, type FileChange, filesAfter } from './change.ts';

/** A course with its certain fixes applied. */
export interface Fixed {
  /** As it is in the files. */
  readonly before: Course;
  /** As it would be. */
  readonly after: Course;
  /** How many fixes were applied. */
  readonly count: number;
  readonly changes: readonly FileChange[];
}

/** A fix may bring out the next problem, which may have one; a course in which that never ends is left after so many. */
const MOST_ROUNDS = 100;

/**
 * The course in these files, and what it would be with every certain fix applied. A file is left as it is where its fixes
 * do not remove what they are for; that others come to light behind it is no reason.
 */
export function fixCourse(files: Files, options?: LoadOptions): Fixed {
  const before = loadFrom(files, undefined, options);
  const changes = new Map<string, FileChange>();
  const left = new Set<string>();
  let course = before;
  let count = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const proposed = proposals(files, course, changes, left);
    if (proposed.size === 0) break;
    const next = new Map([...changes, ...[...proposed].map(([file, { change }]) => [file, change] as const)]);
    const edited = loadFrom(filesAfter(files, [...next.values()]), course, options);
    const remaining = new Set(edited.problems.filter(hasCertainFix).map(keyOf));
    const useless = [...proposed].flatMap(([file, { problems }]) =>
      problems.some((key) => remaining.has(key)) ? [file] : [],
    );
    // The others are tried again without these.
    for (const file of useless) left.add(file);
    if (useless.length > 0) continue;
    for (const [file, { change, problems }] of proposed) {
      changes.set(file, change);
      count += problems.length;
    }
    course = edited;
  }
  return { before, after: course, count, changes: [...changes.values()] };
}

interface Proposal {
  readonly change: FileChange;
  /** The problems whose fixes are in it, by {@link keyOf}. */
  readonly problems: readonly string[];
}

/** What the certain fixes make of each file that has some. */
function proposals(
  files: Files,
  course: Course,
  changes: ReadonlyMap<string, FileChange>,
  left: ReadonlySet<string>,
): Map<string, Proposal> {
  const proposed = new Map<string, Proposal>();
  const byFile = Map.groupBy(course.problems.filter(hasCertainFix), ({ file }) => file);
  for (const [file, problems] of byFile) {
    if (left.has(file)) continue;
    const text = valueAt(course.sources, file);
    const before = changes.get(file)?.before ?? bytesBehind(files, file, text);
    if (!before) continue;
    const placed = placeOf(text);
    const { edits, applied } = apart(
      problems.map((problem) => ({ key: keyOf(problem), edits: editsOf(problem.fix, text, placed) })),
    );
    const after = applyEdits(text, edits);
    if (after !== text)
      proposed.set(file, { change: { file, before, after: encodeLike(before, after) }, problems: applied });
  }
  return proposed;
}

const hasCertainFix = (problem: Problem): problem is Problem & { readonly fix: PlacedFix } =>
  problem.fix?.certain === true;

/** Fixes that leave each other alone: of those that overlap the first, and of equal ones one. The others come in the next round. */
function apart(fixes: readonly { readonly key: string; readonly edits: readonly TextEdit[] }[]): {
  readonly edits: readonly TextEdit[];
  readonly applied: readonly string[];
} {
  const edits: TextEdit[] = [];
  const applied: string[] = [];
  // By stretches of the text, so that each is compared with its neighbours only.
  const near = new Map<number, TextEdit[]>();
  for (const { key, edits: fix } of fixes) {
    if (fix.some((one) => stretchesOf(one).some((at) => near.get(at)?.some((other) => touches(one, other))))) continue;
    for (const one of fix) for (const at of stretchesOf(one)) near.set(at, [...(near.get(at) ?? []), one]);
    for (const one of fix) edits.push(one);
    applied.push(key);
  }
  return { edits, applied };
}

const STRETCH = 256;

/** The numbers of the stretches of a text that an edit is in, its ends included. */
function stretchesOf({ span: { from, to } }: TextEdit): number[] {
  const first = Math.floor(from / STRETCH);
  return Array.from({ length: Math.floor(to / STRETCH) - first + 1 }, (_, index) => first + index);
}

const touches = ({ span: a }: TextEdit, { span: b }: TextEdit): boolean => a.from <= b.to && b.from <= a.to;

/** What a problem is known by: one that is still there after its fix is the same at the same place. */
const keyOf = ({ file, line, column, code, message }: Problem): string =>
  [file, line, column, code, message].join('\0');
