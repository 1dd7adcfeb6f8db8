/**
 * Problems of how lessons depend on each other: cycles, drafts, stages and orders that contradict the dependencies,
 * loose ends.
 */
import { itemAt } from '../values/checked.ts';
import type { WrittenDependency } from './dependencies.ts';
import type { Report } from './finding.ts';
import { graphOf, reaches, shortestCycle } from './graph.ts';
import type { PathLesson } from './lesson.ts';
import type { NumberedPath } from './numbered.ts';

/** Checks requirements, cycles, drafts, loose lessons, stages and orders. */
export function checkDependencies(curriculum: NumberedPath, stages: readonly PathStage[], add: Report): void {
  checkRequirements(curriculum, add);
  checkCycles(curriculum, add);
  checkDrafts(curriculum, add);
  checkLooseEnds(curriculum, add);
  checkStages(curriculum, stages, add);
  checkOrders(curriculum, add);
}

/** What the checks of the path need to know of a stage. */
export interface PathStage {
  readonly id: string;
  readonly title: string;
}

const at = (curriculum: NumberedPath, number: number): PathLesson => itemAt(curriculum.lessons, number);

/** Requirements of itself, requirements listed twice, and requirements that others imply. */
function checkRequirements(curriculum: NumberedPath, add: Report): void {
  const { lessons, numberOf, way } = curriculum;
  lessons.forEach((lesson, number) => {
    const seen = new Set<string>();
    lesson.frontMatter.requires.forEach((id, index) => {
      const place = { frontMatter: `requires/${index}` };
      const required = numberOf.get(id);
      if (required === number) add(lesson, place, 'requires-self', { lesson: id });
      else if (seen.has(id)) add(lesson, place, 'named-twice', { id, key: 'requires' });
      else if (required !== undefined && way.graph.next[required]?.includes(number)) {
        const through = way.graph.before[number]?.find((other) => reaches(way.reach, required, other));
        if (through !== undefined)
          add(lesson, place, 'requirement-implied', { lesson: id, through: at(curriculum, through).id });
      }
      seen.add(id);
    });
  });
}

/** Each cycle once, as its shortest way round, at the first of its lessons in the order of the course. */
function checkCycles(curriculum: NumberedPath, add: Report): void {
  const { lessons, written, component, rank } = curriculum;
  const members = new Map<number, Set<number>>();
  for (const { from, to } of written) {
    const cycle = itemAt(component, from);
    if (cycle !== component[to]) continue;
    const nodes = members.get(cycle) ?? new Set();
    members.set(cycle, nodes.add(to));
  }
  if (members.size === 0) return;
  // A cycle is reported as the author wrote it, from a lesson to what it needs.
  const needs = graphOf(
    lessons.length,
    written.map(({ from, to }) => [to, from]),
  );
  for (const component of members.values()) {
    const cycle = shortestCycle(
      needs,
      [...component].sort((a, b) => a - b),
    );
    if (!cycle) continue;
    const around = startingFirst(cycle.slice(1), rank);
    const dependency = (index: number): WrittenDependency | undefined => {
      const [to, from] = [around[index], around[(index + 1) % around.length]];
      return written.find((one) => one.from === from && one.to === to);
    };
    const steps = around.map((number, index) => ({
      lesson: at(curriculum, number).id,
      how: dependency(index)?.reason.kind === 'quotes' ? ('quotes' as const) : ('requires' as const),
    }));
    const dependencies = around.map((_, index) => dependency(index));
    // Where only broken quotations form the cycle, the notation has reported each.
    if (dependencies.every((one) => one && isBrokenQuote(curriculum, one))) continue;
    const [first] = dependencies;
    if (first) add(at(curriculum, first.to), first.place, 'path-cycle', { steps });
  }
}

function isBrokenQuote(curriculum: NumberedPath, { reason, to }: WrittenDependency): boolean {
  return reason.kind === 'quotes' && at(curriculum, to).blocks[reason.block]?.score === undefined;
}

/** The same cycle, begun with the lesson that comes first in the course. */
function startingFirst(cycle: readonly number[], rank: Int32Array): number[] {
  const first = cycle.reduce((a, b) => (itemAt(rank, b) < itemAt(rank, a) ? b : a));
  const index = cycle.indexOf(first);
  return [...cycle.slice(index), ...cycle.slice(0, index)];
}

/** A draft that a published lesson needs is reported once for each such lesson; to require it is the worse of the two. */
function checkDrafts(curriculum: NumberedPath, add: Report): void {
  const reported = new Set<string>();
  // What a lesson requires is before what it quotes.
  for (const { from, to, reason, place } of curriculum.written) {
    const needed = at(curriculum, from);
    const lesson = at(curriculum, to);
    const key = `${from} ${to}`;
    if (!needed.frontMatter.draft || lesson.frontMatter.draft || reported.has(key)) continue;
    reported.add(key);
    add(lesson, place, reason.kind === 'requires' ? 'requires-draft' : 'quotes-draft', { lesson: needed.id });
  }
}

/** A lesson that needs none, other than the one the course begins with. Where no lesson requires another, there is no path to be off. */
function checkLooseEnds(curriculum: NumberedPath, add: Report): void {
  const { lessons, written, order } = curriculum;
  if (lessons.every(({ frontMatter }) => frontMatter.requires.length === 0)) return;
  const tied = new Set(written.map(({ to }) => to));
  const loose = order.filter((number) => !tied.has(number) && at(curriculum, number).frontMatter.requires.length === 0);
  // The course begins with a lesson that others are built on: a new one may come first by its name alone.
  const used = new Set(written.map(({ from }) => from));
  // Where a line for requirements is there, it is to have some.
  const others = loose.filter((number) => !at(curriculum, number).places.has('requires'));
  const first = others.find((number) => used.has(number)) ?? others[0] ?? loose[0];
  if (first === undefined) return;
  // What a lesson at the end of the course would require.
  const isLoose = new Set(loose);
  const last = order.findLast((number) => !isLoose.has(number)) ?? first;
  for (const number of loose) {
    if (number === first) continue;
    const lesson = at(curriculum, number);
    const facts = { first: at(curriculum, first).id, last: at(curriculum, last).id };
    add(lesson, { frontMatter: lesson.places.has('requires') ? 'requires' : 'title' }, 'lesson-unreached', facts);
  }
}

function checkStages(curriculum: NumberedPath, stages: readonly PathStage[], add: Report): void {
  const place = new Map(stages.map(({ id }, index) => [id, index]));
  const reported = new Set<string>();
  for (const dependency of curriculum.written) {
    const [needed, lesson] = [at(curriculum, dependency.from), at(curriculum, dependency.to)];
    const [neededStage, stage] = [place.get(needed.frontMatter.stage ?? ''), place.get(lesson.frontMatter.stage ?? '')];
    const key = `${dependency.from} ${dependency.to}`;
    if (neededStage === undefined || stage === undefined || neededStage <= stage || reported.has(key)) continue;
    reported.add(key);
    add(lesson, dependency.place, 'stage-contradicts', {
      lesson: lesson.id,
      stage: stages[stage]?.title ?? '',
      needed: needed.id,
      neededStage: stages[neededStage]?.title ?? '',
    });
  }
}

/** Along the dependencies within one stage, no lesson may ask for a lower order than one it needs. */
function checkOrders(curriculum: NumberedPath, add: Report): void {
  const { way } = curriculum;
  /** Of what each lesson needs within its stage, itself included, the one with the highest order. */
  const highest: (number | undefined)[] = [];
  const orderOf = (number: number | undefined): number =>
    (number === undefined ? undefined : at(curriculum, number).frontMatter.order) ?? Number.NEGATIVE_INFINITY;
  for (const number of way.order) {
    const { stage, order } = at(curriculum, number).frontMatter;
    let needed: number | undefined;
    for (const before of way.graph.before[number] ?? []) {
      if (at(curriculum, before).frontMatter.stage !== stage) continue;
      if (orderOf(highest[before]) > orderOf(needed)) needed = highest[before];
    }
    if (order !== undefined && needed !== undefined && orderOf(needed) > order) {
      const facts = {
        lesson: at(curriculum, number).id,
        order,
        needed: at(curriculum, needed).id,
        neededOrder: orderOf(needed),
      };
      add(at(curriculum, number), { frontMatter: 'order' }, 'order-contradicts', facts);
    }
    highest[number] = order !== undefined && order >= orderOf(needed) ? number : needed;
  }
}
