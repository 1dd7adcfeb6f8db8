/** The path of a course: its lessons in an order, their dependencies, what each teaches and uses. Lessons go by id. */
import { itemAt } from '../values/checked.ts';
import type { Dependency } from './dependencies.ts';
import type { PathLesson } from './lesson.ts';
import { type NumberedPath, numberedPath, type PathInput } from './numbered.ts';
import type { LessonSurvey } from './survey.ts';

/** The path through a course, asked by the ids of lessons. */
export interface Curriculum {
  /** Every lesson, in the order of the path: it respects every dependency. */
  readonly order: readonly string[];
  readonly steps: ReadonlyMap<string, PathStep>;
  /** The lessons that teach each technique, in path order. */
  readonly teachers: ReadonlyMap<string, readonly string[]>;
  /** All dependencies, cycles broken, with every reason. */
  readonly links: readonly Dependency[];
  /** The same by numbers, for the checks. */
  readonly numbered: NumberedPath;
}

/** A lesson on the path. */
export interface PathStep {
  readonly lesson: PathLesson;
  readonly survey: LessonSurvey;
  /** What it builds on directly: the transitive reduction of the dependencies. */
  readonly needs: readonly string[];
  /** What it opens the way to. */
  readonly opens: readonly string[];
}

/** The path through some lessons, with what each needs, opens, teaches and uses. */
export function curriculumOf(input: PathInput): Curriculum {
  const numbered = numberedPath(input);
  const { lessons, surveys, needs, opens } = numbered;
  const idsOf = (numbers: readonly number[]): string[] => numbers.map((number) => itemAt(lessons, number).id);
  const stepAt = (number: number): PathStep => ({
    lesson: itemAt(lessons, number),
    survey: itemAt(surveys, number),
    needs: idsOf(itemAt(needs, number)),
    opens: idsOf(itemAt(opens, number)),
  });
  const order = idsOf(numbered.order);
  return {
    order,
    steps: new Map(numbered.order.map((number) => [itemAt(lessons, number).id, stepAt(number)])),
    teachers: new Map([...numbered.teachers].map(([technique, numbers]) => [technique, idsOf(numbers)])),
    links: numbered.links,
    numbered,
  };
}

/** The step of a lesson. Throws where the path has no such lesson. */
export function stepOf({ steps }: Pick<Curriculum, 'steps'>, id: string): PathStep {
  const step = steps.get(id);
  if (!step) throw new RangeError(`The path has no lesson “${id}”.`);
  return step;
}
