/** The order of a course's lessons. */
import type { Stage } from './front.ts';

interface Ordered {
  readonly id: string;
  readonly front: {
    readonly stage?: string | undefined;
    readonly order?: number | undefined;
    readonly requires: readonly string[];
  };
}

/**
 * By stage, then what is required before what requires it, then by their own `order`, then by name. Lessons that require
 * each other in a ring (which is reported elsewhere) keep the order of their names.
 */
export function orderLessons<L extends Ordered>(lessons: readonly L[], stages: readonly Stage[]): L[] {
  const rank = (lesson: L): number => stages.findIndex((stage) => stage.id === lesson.front.stage);
  const queue = [...lessons].sort(
    (a, b) =>
      rank(a) - rank(b) ||
      (a.front.order ?? Number.POSITIVE_INFINITY) - (b.front.order ?? Number.POSITIVE_INFINITY) ||
      (a.id < b.id ? -1 : a.id > b.id ? 1 : 0) ||
      0,
  );
  const byId = new Map(queue.map((lesson) => [lesson.id, lesson]));
  const placed = new Set<L>();
  const ordered: L[] = [];
  for (const first of queue) {
    // Depth first without recursion: a lesson stands after what it requires within its stage.
    const open: { lesson: L; next: number }[] = [{ lesson: first, next: 0 }];
    if (placed.has(first)) continue;
    placed.add(first);
    for (let top = open.at(-1); top; top = open.at(-1)) {
      const required = byId.get(top.lesson.front.requires[top.next++] ?? '');
      if (required && !placed.has(required) && rank(required) === rank(first)) {
        placed.add(required);
        open.push({ lesson: required, next: 0 });
      } else if (top.next > top.lesson.front.requires.length) {
        ordered.push(top.lesson);
        open.pop();
      }
    }
  }
  return ordered;
}
