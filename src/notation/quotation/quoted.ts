/** Notes and rests as a quotation brings them. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';
import type { ChordChange } from '../../harmony/form.ts';
import { rowOf } from '../../score/mark.ts';
import type { Mouth, Rest, Sound } from '../../score/score.ts';
import { add, compare, subtract } from '../../time/fraction.ts';
import type { NoteItem, WrittenMark } from '../tree.ts';

/** A rest in pieces, one for each chord that sounds in it. */
export function cutRest(rest: Rest, chords: readonly ChordChange[]): Rest[] {
  const end = add(rest.onset, rest.duration);
  const cuts = chords.map(({ onset }) => onset).filter((at) => compare(at, rest.onset) > 0 && compare(at, end) < 0);
  const starts = [rest.onset, ...cuts];
  return starts.map((onset, index) => ({ ...rest, onset, duration: subtract(starts[index + 1] ?? end, onset) }));
}

/** What is behind a quotation. */
interface OnQuotation {
  readonly marks: readonly WrittenMark[];
  readonly mouth?: Mouth;
}

/**
 * A note with the marks and the embouchure of its quotation. A mark of its own stays as it is. Marks for all that follows are those of
 * the first note alone, and what comes after a note is after the last one.
 */
export const withMarks = (
  note: NoteItem,
  { marks, mouth }: OnQuotation,
  place: { readonly isFirst: boolean; readonly isLast: boolean },
): NoteItem => {
  const fitting = marks.filter(({ mark }) => {
    const { onward, stops } = rowOf(mark.name);
    return (!onward || place.isFirst) && (!stops || place.isLast);
  });
  return {
    ...note,
    marks: [...note.marks, ...fitting.filter(({ mark }) => note.marks.every((own) => own.mark.name !== mark.name))],
    ...(mouth === undefined ? {} : { mouth }),
  };
};

/** A sound as it would be written, for quoting it. */
export const writtenNote = (sound: Sound, span: TextSpan): NoteItem => ({
  kind: 'note',
  breath: sound.breath,
  notes: sound.notes.map(({ hole, bend, over, slide }) => ({ hole, bend, over, slide, span })),
  marks: sound.marks.map((mark) => ({ mark, span })),
  mouth: sound.mouth,
  span,
});
