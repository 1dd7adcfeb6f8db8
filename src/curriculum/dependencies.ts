/** How lessons depend on each other: each dependency between two lessons once, with every reason for it. */
import type { LessonPlace, PathLesson } from './lesson.ts';

/** Why one lesson has to come before another. */
export type DependencyReason =
  | { readonly kind: 'requires' }
  /** Block `block` of the later lesson quotes block `quoted` of the earlier one. */
  | { readonly kind: 'quotes'; readonly block: number; readonly quoted: string }
  /** Block `block` of the later lesson uses what the earlier one teaches. */
  | { readonly kind: 'technique'; readonly technique: string; readonly block: number };

/** One lesson that has to come before another. */
export interface Dependency {
  /** The lesson that comes before. */
  readonly from: string;
  /** The lesson that builds on it. */
  readonly to: string;
  readonly reasons: readonly DependencyReason[];
}

/** A dependency between lessons by their numbers, with one reason and the place in the later lesson that gives it. */
export interface WrittenDependency {
  readonly from: number;
  readonly to: number;
  readonly reason: DependencyReason;
  readonly place: LessonPlace;
}

/** Dependencies the author wrote: requirements and quotations of lessons that exist, other than the lesson itself. */
export function writtenDependencies(
  lessons: readonly PathLesson[],
  numberOf: ReadonlyMap<string, number>,
): WrittenDependency[] {
  const dependencies: WrittenDependency[] = [];
  lessons.forEach((lesson, to) => {
    lesson.frontMatter.requires.forEach((id, place) => {
      const from = numberOf.get(id);
      if (from === undefined || from === to) return;
      dependencies.push({ from, to, reason: { kind: 'requires' }, place: { frontMatter: `requires/${place}` } });
    });
    for (const block of lesson.blocks) {
      for (const quote of block.quotes) {
        const from = numberOf.get(quote.lesson);
        if (from === undefined || from === to) continue;
        const reason: DependencyReason = { kind: 'quotes', block: block.index, quoted: quote.block };
        dependencies.push({ from, to, reason, place: { range: quote.range } });
      }
    }
  });
  return dependencies;
}

/** Dependencies gathered by pair of lessons, in the order they first come. */
export function mergeDependencies(
  dependencies: readonly WrittenDependency[],
  lessons: readonly PathLesson[],
): Dependency[] {
  const byPair = new Map<number, { from: string; to: string; reasons: DependencyReason[] }>();
  for (const { from, to, reason } of dependencies) {
    const key = from * lessons.length + to;
    let link = byPair.get(key);
    if (!link) {
      link = { from: lessons[from]?.id ?? '', to: lessons[to]?.id ?? '', reasons: [] };
      byPair.set(key, link);
    }
    link.reasons.push(reason);
  }
  return [...byPair.values()];
}
