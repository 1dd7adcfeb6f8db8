/** Where in a block a technique is found, in the words of the block. */
import type { Block } from '../../course/course.ts';
import { tabOfNotes } from '../../instrument/playable.ts';
import { isSoundEvent } from '../../score/queries.ts';
import type { Bar, Sound } from '../../score/score.ts';
import type { Match } from '../../technique/detect.ts';

/** One place where a technique is found, in the words of a block. */
export interface TechniquePlace {
  /** Bar numbers as musicians count; none for the block as a whole. */
  readonly bar: number | null;
  /** Of the event to point at. */
  readonly at: number | null;
  readonly events: readonly number[];
  /** The notes as tab, in the order they are played. */
  readonly notes: string;
}

/** The matches of a technique in a block, as places of it. */
export function techniquePlaces(block: Block, matches: readonly Match[]): TechniquePlace[] {
  const where = new Map<number, { bar: Bar; sound: Sound }>();
  for (const bar of block.score?.bars ?? []) {
    for (const event of bar.events) if (isSoundEvent(event)) where.set(event.index, { bar, sound: event });
  }
  return matches.map(({ events, at }) => {
    const sounds = events.flatMap((event) => where.get(event)?.sound ?? []);
    const struck = sounds.filter(({ tied }, index) => !tied || index === 0);
    return {
      bar: (at === undefined ? undefined : where.get(at)?.bar.number) ?? null,
      at: at ?? null,
      events,
      notes: struck.map(({ notes, breath }) => tabOfNotes(notes, breath)).join(' '),
    };
  });
}

/** `Bar 1: -4', -4'. Bar 3: -4'.` */
export function placesInText(places: readonly TechniquePlace[]): string {
  const bars = new Map<number | null, string[]>();
  for (const { bar, notes } of places) bars.set(bar, [...(bars.get(bar) ?? []), notes]);
  return [...bars]
    .map(([bar, notes]) => (bar === null ? 'The whole block.' : `Bar ${bar}: ${notes.join(', ')}.`))
    .join(' ');
}
