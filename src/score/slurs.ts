/** Slurs of a score: a run of glides is one, from the note it leaves to the last that it leads into. */
import type { Event, Score } from './score.ts';

/** What slurs do at an event. */
export interface Slur {
  /** At the end of its last written note. */
  readonly starts: boolean;
  /** Where it is attacked. */
  readonly stops: boolean;
  /** From its end to the next event. */
  readonly open: boolean;
}

/** Slurs by the events at or over which they are. */
export function slursOf({ bars }: Pick<Score, 'bars'>): ReadonlyMap<Event, Slur> {
  const events = bars.flatMap((bar) => bar.events);
  // From the end on: whether a glide leaves an event, or the events that it is held to.
  const glides: boolean[] = [];
  for (let index = events.length - 1; index >= 0; index--) {
    const [event, next] = [events[index], events[index + 1]];
    const sounds = event?.kind === 'sound' && next?.kind === 'sound';
    glides[index] = sounds && (next.tied ? glides[index + 1] === true : event.glides === true);
  }
  const slurs = new Map<Event, Slur>();
  let isOpen = false;
  events.forEach((event, index) => {
    const next = events[index + 1];
    const starts = !isOpen && glides[index] === true && next?.kind === 'sound' && !next.tied;
    const open = glides[index] === true && (isOpen || starts);
    const stops = isOpen && !open;
    if (starts || stops || open) slurs.set(event, { starts, stops, open });
    isOpen = open;
  });
  return slurs;
}
