/** Where a pitch is on a harp, or else the nearest one that is. */

import { itemAt } from '../values/checked.ts';
import { effortOf } from './easiest-holes.ts';
import type { Harp } from './harp.ts';
import { notesOf, type Playable, placesOfPitch } from './playable.ts';

/** The easiest place of a pitch; of a pitch that the harp has not got, that of the nearest one, and of two as near the lower. */
export function nearestPlayable(harp: Harp, midi: number): Playable {
  const [own] = placesOfPitch(harp, midi);
  if (own) return own;
  const away = (note: Playable): number => Math.abs(note.midi - midi);
  const notes = notesOf(harp).filter(({ over }) => !over);
  return itemAt(
    notes.toSorted((a, b) => away(a) - away(b) || a.midi - b.midi || effortOf(a) - effortOf(b)),
    0,
  );
}
