/** Marks that come after their note: where a note is held over bar lines, after the last of what it is written as. */
import { type Mark, rowOf } from './mark.ts';
import { isSameEnding } from './queries.ts';
import type { Event, Score } from './score.ts';

const NONE: readonly Mark[] = [];

/**
 * Marks that come after a note, by each of the events that the note is held through. They belong to that one whose last written note
 * is not tied on.
 */
export function marksAfter({ bars }: Pick<Score, 'bars'>): ReadonlyMap<Event, readonly Mark[]> {
  const found = new Map<Event, readonly Mark[]>();
  let marks = NONE;
  let beforeEndings = NONE;
  bars.forEach((bar, index) => {
    const { events, endings } = bar;
    const before = bars[index - 1];
    // Every ending continues from the bar before the first one.
    if (endings && !before?.endings) beforeEndings = marks;
    else if (endings && !isSameEnding(before, bar)) marks = beforeEndings;
    for (const event of events) {
      if (event.kind === 'rest') marks = NONE;
      else if (!event.tied) marks = event.marks.filter(({ name }) => 'end' in rowOf(name).drawing);
      if (marks.length > 0) found.set(event, marks);
    }
  });
  return found;
}
