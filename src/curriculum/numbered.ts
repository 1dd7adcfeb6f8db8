/**
 * The path by the numbers of its lessons, which is how graphs are worked out. The checks of this module read it; all
 * other code asks by id (`curriculum.ts`).
 */
import type { Repertoire } from '../technique/repertoire.ts';
import { itemAt } from '../values/checked.ts';
import { type Dependency, mergeDependencies, type WrittenDependency, writtenDependencies } from './dependencies.ts';
import { components, type Graph, graphOf, orderOf, type Reach, reachabilityOf, reduce } from './graph.ts';
import type { PathLesson } from './lesson.ts';
import type { LessonSurvey } from './survey.ts';
import {
  type MissingTechnique,
  type Teachers,
  type TechniqueUseOfLesson,
  teachersOf,
  techniqueNeeds,
} from './technique-needs.ts';

/** A path whose lessons go by their number in `lessons`: checks of a thousand lessons take no maps. */
export interface NumberedPath {
  readonly lessons: readonly PathLesson[];
  /** The place of each lesson in the order of the path, by its number in `lessons`. */
  readonly rank: Int32Array;
  /** Lessons by number, in the order of the path: it respects every dependency. */
  readonly order: readonly number[];
  readonly numberOf: ReadonlyMap<string, number>;
  readonly surveys: readonly LessonSurvey[];
  readonly repertoire: Repertoire;
  /** The author's requirements and quotations. */
  readonly written: readonly WrittenDependency[];
  /** Those of them that go round in a cycle with others, by the component of the cycle. */
  readonly component: Int32Array;
  /** The written dependencies without those in cycles, as a graph, in an order, and what can be reached in it. */
  readonly way: { readonly graph: Graph; readonly order: readonly number[]; readonly reach: Reach };
  readonly teachers: Teachers;
  readonly debts: readonly TechniqueUseOfLesson[];
  readonly gaps: readonly MissingTechnique[];
  /** All dependencies, cycles broken, with every reason. */
  readonly links: readonly Dependency[];
  /** For each lesson those it builds on directly: the transitive reduction of the dependencies. */
  readonly needs: readonly (readonly number[])[];
  /** For each lesson those it opens the way to. */
  readonly opens: readonly (readonly number[])[];
}

/** What a path is made from. */
export interface PathInput {
  /** In the order in which they are where nothing else decides. */
  readonly lessons: readonly PathLesson[];
  /** Ids of the stages, in their order. */
  readonly stages: readonly string[];
  readonly repertoire: Repertoire;
  /** One for each lesson. */
  readonly surveys: readonly LessonSurvey[];
}

/** The path with lessons as numbers: the order, the dependencies and what is missing. */
export function numberedPath({ lessons, stages, repertoire, surveys }: PathInput): NumberedPath {
  const numberOf = new Map(lessons.map((lesson, number) => [lesson.id, number]));
  const wish = wishedRank(lessons, stages);
  const written = writtenDependencies(lessons, numberOf);
  const component = components(graphOf(lessons.length, pairsOf(written)));
  // A dependency within a component is part of a cycle: an error, and left out of everything that needs an order.
  const sound = written.filter(({ from, to }) => component[from] !== component[to]);
  const graph = graphOf(lessons.length, pairsOf(sound));
  const wayOrder = orderOf(graph, wish);
  const reach = reachabilityOf(graph, wayOrder);
  const teachers = teachersOf(lessons, wish);
  const debts: TechniqueUseOfLesson[] = [];
  const gaps: MissingTechnique[] = [];
  // A course that teaches nothing by name takes no part in this.
  if (teachers.size > 0) {
    for (const number of wayOrder) {
      const needs = techniqueNeeds(number, surveys[number] ?? [], { repertoire, teachers, reach });
      debts.push(...needs.debts);
      gaps.push(...needs.gaps);
    }
  }
  const learnt = debts.map(({ lesson, teacher, technique, block }) => dependencyOf(teacher, lesson, technique, block));
  const missed = gaps.flatMap(({ lesson, teachers: [teacher], technique, block }) =>
    teacher === undefined || teacher === lesson ? [] : [dependencyOf(teacher, lesson, technique.id, block)],
  );
  const dependencies = [...sound, ...learnt, ...withoutCycles(lessons.length, [...sound, ...learnt], missed)];
  const whole = graphOf(lessons.length, pairsOf(dependencies));
  const order = orderOf(whole, pulled(whole, wish));
  const drawn = graphOf(lessons.length, reduce(whole, reachabilityOf(whole, order)));
  const rank = placesIn(order);
  return {
    lessons,
    rank,
    order,
    numberOf,
    surveys,
    repertoire,
    written,
    component,
    teachers,
    debts,
    gaps,
    way: { graph, order: wayOrder, reach },
    links: mergeDependencies(dependencies, lessons),
    needs: drawn.before,
    opens: drawn.next,
  };
}

const pairsOf = (dependencies: readonly WrittenDependency[]) => dependencies.map(({ from, to }) => [from, to] as const);

const dependencyOf = (from: number, to: number, technique: string, block: number): WrittenDependency => ({
  from,
  to,
  reason: { kind: 'technique', technique, block },
  place: { block },
});

/** The dependencies that can be added without closing a cycle: those of a cycle are left out together. */
function withoutCycles(
  size: number,
  sure: readonly WrittenDependency[],
  added: readonly WrittenDependency[],
): WrittenDependency[] {
  const component = components(graphOf(size, pairsOf([...sure, ...added])));
  return added.filter(({ from, to }) => component[from] !== component[to]);
}

/** A lesson that is to come early brings forward what it needs. */
function pulled(graph: Graph, wish: Int32Array): Int32Array {
  const early = Int32Array.from(wish);
  for (const number of orderOf(graph, wish).reverse()) {
    for (const later of graph.next[number] ?? []) early[number] = Math.min(itemAt(early, number), itemAt(early, later));
  }
  return ranked(graph.size, (a, b) => itemAt(early, a) - itemAt(early, b) || itemAt(wish, a) - itemAt(wish, b));
}

/** The place of each number in an order. */
function ranked(size: number, compare: (a: number, b: number) => number): Int32Array {
  return placesIn(Array.from({ length: size }, (_, number) => number).sort(compare));
}

function placesIn(order: readonly number[]): Int32Array {
  const rank = new Int32Array(order.length);
  for (const [place, number] of order.entries()) rank[number] = place;
  return rank;
}

/**
 * The places lessons would have if nothing tied them: by stage (those of none, or of an unknown one, come first), then by
 * the order they ask for (those that ask for none come after), then as they were given.
 */
export function wishedRank(lessons: readonly PathLesson[], stages: readonly string[]): Int32Array {
  const stageAt = new Map(stages.map((id, index) => [id, index + 1]));
  const stage = (lesson: PathLesson): number =>
    (lesson.frontMatter.stage && stageAt.get(lesson.frontMatter.stage)) || 0;
  const order = (lesson: PathLesson): number => lesson.frontMatter.order ?? Number.POSITIVE_INFINITY;
  return ranked(lessons.length, (a, b) => {
    const [one, other] = [itemAt(lessons, a), itemAt(lessons, b)];
    return stage(one) - stage(other) || (order(one) === order(other) ? 0 : order(one) - order(other)) || a - b;
  });
}
