/** Which way stems go. Gould, “Behind Bars”, “Stems”, from memory: away from the middle line; as the farthest note says. */
import { MIDDLE, type NoteContent } from './note.ts';

/** Whether the stem of each note goes up; under a beam all go one way. */
export function stemsUp(notes: readonly NoteContent[], beams: readonly (readonly number[])[]): boolean[] {
  const up = notes.map((note) => goesUp([note]));
  for (const members of beams) {
    const own = goesUp(members.flatMap((at) => notes[at] ?? []));
    for (const at of members) up[at] = own;
  }
  return up;
}

/** The note farthest from the middle line decides; where two are as far, all together do, and down goes before up. */
function goesUp(notes: readonly NoteContent[]): boolean {
  let [above, below, sum] = [0, 0, 0];
  for (const { heads } of notes) {
    for (const { y } of heads) {
      above = Math.max(above, MIDDLE - y);
      below = Math.max(below, y - MIDDLE);
      sum += y - MIDDLE;
    }
  }
  return above === below ? sum > 0 : below > above;
}
