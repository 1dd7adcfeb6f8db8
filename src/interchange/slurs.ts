/** Slurs of a score: a glide is one, from the note it leaves to the note it leads into. */
import type { Event, Score } from '../score/score.ts';

/** What slurs do at an event. */
export interface Slur {
  readonly starts: boolean;
  readonly stops: boolean;
}

/** Where slurs begin and end: from the first note of a run of glides to the note that the last one leads into. */
export function slursOf({ bars }: Pick<Score, 'bars'>): ReadonlyMap<Event, Slur> {
  const events = bars.flatMap((bar) => bar.events);
  const slurs = new Map<Event, Slur>();
  let open = false;
  events.forEach((event, index) => {
    const next = events[index + 1];
    // A held note is several events; the glide is of its last one.
    const held = next?.kind === 'sound' && next.tied;
    const glides = event.kind === 'sound' && next?.kind === 'sound' && (event.glides || (open && held));
    if (event.kind === 'sound' && open && !glides) slurs.set(event, { starts: false, stops: true });
    if (event.kind === 'sound' && glides && !open) slurs.set(event, { starts: true, stops: false });
    open = glides === true;
  });
  return slurs;
}
