/** Notes and rests as a quotation brings them. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';
import type { ChordChange } from '../../harmony/form.ts';
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

/** A note with the marks and the embouchure of its quotation. A mark of its own stays as it is. */
export const withMarks = (note: NoteItem, marks: readonly WrittenMark[], mouth: Mouth | undefined): NoteItem => ({
  ...note,
  marks: [...note.marks, ...marks.filter(({ mark }) => note.marks.every((own) => own.mark.name !== mark.name))],
  ...(mouth === undefined ? {} : { mouth }),
});

/** A sound as it would be written, for quoting it. */
export const writtenNote = (sound: Sound, span: TextSpan): NoteItem => ({
  kind: 'note',
  breath: sound.breath,
  notes: sound.notes.map(({ hole, bend, over, slide }) => ({ hole, bend, over, slide, span })),
  marks: sound.marks.map((mark) => ({ mark, span })),
  mouth: sound.mouth,
  span,
});
