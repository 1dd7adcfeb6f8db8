/** Marks that come after their note: where a note is held over bar lines, after the last of what it is written as. */
import { throughEndings } from './endings.ts';
import { type Mark, rowOf } from './mark.ts';
import { endingOpenedBy } from './queries.ts';
import type { Event, Score } from './score.ts';

const NONE: readonly Mark[] = [];

/**
 * Marks that come after a note, by each of the events that the note is held through. They belong to that one whose last written note
 * is not tied on.
 */
export function marksAfter({ bars }: Pick<Score, 'bars'>): ReadonlyMap<Event, readonly Mark[]> {
  const found = new Map<Event, readonly Mark[]>();
  let marks = NONE;
  const through = throughEndings(marks);
  for (const bar of bars) {
    marks = through(marks, endingOpenedBy({ bars }, bar));
    for (const event of bar.events) {
      if (event.kind === 'rest') marks = NONE;
      else if (!event.tied) marks = event.marks.filter(({ name }) => 'end' in rowOf(name).drawing);
      if (marks.length > 0) found.set(event, marks);
    }
  }
  return found;
}
