/** Names that things of a course had before: old addresses and students' marks lead from them to what is there now. */
import type { FormerNames } from '../../diagnostics/nearest.ts';
import { formerIdsIn } from '../../notation/header.ts';
import type { BlockTree } from '../../notation/tree.ts';
import type { CourseFile } from '../course-schema.ts';

/** Former names of lessons and of their blocks. */
export interface FormerInLessons {
  readonly lessons: FormerNames;
  /** By the lesson as it is called now. */
  readonly blocks: ReadonlyMap<string, FormerNames>;
}

/** The same of a whole course. */
export interface FormerOfCourse extends FormerInLessons {
  readonly stages: FormerNames;
}

interface NamedLesson {
  readonly id: string;
  readonly frontMatter: { readonly formerly: readonly string[] };
  readonly blocks: readonly { readonly id: string; readonly tree: BlockTree }[];
}

/** The former names that lessons state. Where two state one, the first has it. */
export function formerIn(lessons: readonly NamedLesson[]): FormerInLessons {
  const names: [string, string][] = [];
  const blocks = new Map<string, FormerNames>();
  for (const lesson of lessons) {
    for (const old of lesson.frontMatter.formerly) names.push([old, lesson.id]);
    const own = lesson.blocks.flatMap(({ id, tree }) => formerIdsIn(tree).map((old): [string, string] => [old.id, id]));
    if (own.length > 0) blocks.set(lesson.id, new Map(own.reverse()));
  }
  return { lessons: new Map(names.reverse()), blocks };
}

/** The former names of stages. */
export const formerStages = ({ stages }: Pick<CourseFile, 'stages'>): FormerNames =>
  new Map(stages.flatMap(({ id, formerly }) => formerly.map((old): [string, string] => [old, id])).reverse());
