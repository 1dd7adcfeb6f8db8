/** Whether a quotation that is moved to another chord jumps where it did not before. */
import { sounding } from '../../instrument/bend.ts';
import type { Harp } from '../../instrument/harp.ts';
import { tabOfNotes } from '../../instrument/playable.ts';
import { itemAt } from '../../values/checked.ts';
import type { NoteItem } from '../tree.ts';
import type { QuotedNote } from './moved-phrase.ts';

const OCTAVE = 12;

/** The first two notes between which the moved notes jump by an octave or more and the original ones do not, as tab. */
export function newJump(
  original: readonly QuotedNote[],
  moved: readonly NoteItem[],
  harp: Harp,
): { readonly tabs: readonly [string, string] } | undefined {
  for (let index = 1; index < moved.length; index++) {
    const [one, other] = [itemAt(moved, index - 1), itemAt(moved, index)];
    const [before, next] = [itemAt(original, index - 1).note, itemAt(original, index).note];
    if (isJump(one, other, harp) && !isJump(before, next, harp))
      return { tabs: [tabOfNotes(one.notes, one.breath), tabOfNotes(other.notes, other.breath)] };
  }
  return undefined;
}

/** Whether every note of one is an octave or more from every note of the other. */
function isJump(one: NoteItem, other: NoteItem, harp: Harp): boolean {
  const [some, others] = [one, other].map(({ notes, breath }) =>
    notes.flatMap((note) => {
      const sound = sounding(harp, breath, note);
      return 'midi' in sound ? [sound.midi] : [];
    }),
  );
  const distances = (some ?? []).flatMap((midi) => (others ?? []).map((next) => Math.abs(next - midi)));
  return distances.length > 0 && Math.min(...distances) >= OCTAVE;
}
