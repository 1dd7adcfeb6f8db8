/** Where a student is on the path: what is done, what is open to them, what has to wait, and what comes next. */
import { entryOf, isDone, isLater, type Progress } from './record.ts';

/** A lesson of the path, in its order. */
export interface LessonAndNeeds {
  readonly id: string;
  /** Ids of the lessons it builds on. */
  readonly needs: readonly string[];
}

/** `ready`: every lesson it needs is done. `later`: one of them is not. */
export type LessonState = 'done' | 'ready' | 'later';

/** Whether a lesson is done, ready to begin, or has to wait. */
export function stateOf({ id, needs }: LessonAndNeeds, progress: Progress): LessonState {
  if (isDone(progress, 'lessons', id)) return 'done';
  return needs.every((needed) => isDone(progress, 'lessons', needed)) ? 'ready' : 'later';
}

/**
 * What to do next: of the lessons that are open, the first that builds on the lesson done last, so that a branch once
 * begun is followed; else the first of all that are open. Undefined where everything is done, or nothing is open.
 */
export function nextLesson<S extends LessonAndNeeds>(lessons: readonly S[], progress: Progress): S | undefined {
  const open = lessons.filter((lesson) => stateOf(lesson, progress) === 'ready');
  const done = lessons.filter(({ id }) => isDone(progress, 'lessons', id));
  const markOf = ({ id }: LessonAndNeeds) => entryOf(progress, 'lessons', id);
  const [last, ...remaining] = done;
  if (!last) return open[0];
  const latest = remaining.reduce((a, b) => {
    const mark = markOf(a);
    return mark && isLater(mark, markOf(b)) ? a : b;
  }, last);
  return open.find(({ needs }) => needs.includes(latest.id)) ?? open[0];
}
