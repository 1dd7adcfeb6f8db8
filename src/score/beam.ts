/** Which notes of a bar share a beam. Common practice, no source. */
import { BEAT, type Grid } from './grid.ts';
import type { Region } from './tuplet.ts';

/** What beams depend on: where a note is in its bar, in ticks, and its value, 8 for an eighth. */
export interface BeamedNote {
  readonly from: number;
  readonly value: number;
  readonly rest: boolean;
  /** The tuplet it belongs to. */
  readonly region: Region | undefined;
}

/**
 * The number of the beam of each note that has one, by the note's index. Eighths and shorter notes share a beam within a
 * beat, or within a tuplet that is wider than one; a rest breaks the beam.
 */
export function beamGroups(
  notes: readonly BeamedNote[],
  grid: Grid,
  regions: readonly Region[],
): ReadonlyMap<number, number> {
  const groups: number[][] = [];
  let open: { key: string; members: number[] } | undefined;
  notes.forEach((note, index) => {
    const wide = note.region && grid.strongest(note.region.from, note.region.to);
    const key =
      wide && wide.level <= BEAT && note.region ? `t${regions.indexOf(note.region)}` : `b${grid.beatAt(note.from)}`;
    if (note.rest || note.value < 8) open = undefined;
    else if (open?.key === key) open.members.push(index);
    else {
      open = { key, members: [index] };
      groups.push(open.members);
    }
  });
  const beamOf = new Map<number, number>();
  groups
    .filter((members) => members.length > 1)
    .forEach((members, beam) => {
      for (const member of members) beamOf.set(member, beam);
    });
  return beamOf;
}
