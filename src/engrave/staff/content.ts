/** What the staff shows of some columns: their notes, before they have a place. */
import type { Event } from '../../score/score.ts';
import type { Slur } from '../../score/slurs.ts';
import type { WrittenTuplet } from '../../score/written.ts';
import { itemAt, valueAt } from '../../values/checked.ts';
import { type Clef, staffY } from '../clef.ts';
import { ACCIDENTALS, type Column, type GraceColumn } from '../columns.ts';
import { roleClass } from '../role-shape.ts';
import type { HeadContent } from './head-content.ts';
import { signsOf } from './mark-signs.ts';
import { layNote, NO_SLUR, type NoteContent } from './note.ts';
import { stemsUp } from './stem.ts';
import type { StaffContent } from './tile.ts';
import type { TupletContent } from './tuplet.ts';

/** The notes of some columns with their stems. */
export function staffContent(
  columns: readonly Column[],
  tuplets: readonly WrittenTuplet[],
  slurs: ReadonlyMap<Event, Slur>,
  clef: Clef,
): StaffContent {
  const beams = beamsOf(columns);
  const beamed = new Set(beams.flat());
  const notes = columns.map((column, index): NoteContent => {
    const { note, event } = column;
    const slur = slurs.get(event) ?? NO_SLUR;
    const isLast = columns[index + 1]?.note.event !== note.event;
    return {
      value: note.value,
      dots: note.dots,
      heads: event.kind === 'rest' ? [] : headsOf(column, clef),
      marks: column.first && event.kind === 'sound' ? signsOf(event.marks) : [],
      hinted: column.hinted,
      endSigns: column.endSigns,
      ...(column.grace ? { grace: graceOf(column.grace, clef) } : {}),
      ...(column.again ? { again: true as const } : {}),
      tied: note.tiedToNext,
      slur: {
        starts: isLast && slur.starts,
        stops: column.first && slur.stops,
        open: slur.open && (isLast || !slur.starts),
      },
    };
  });
  const up = stemsUp(notes, beams);
  return {
    notes: notes.map((note, index) => layNote(note, itemAt(up, index), beamed.has(index))),
    beams,
    tuplets: tupletsOf(columns, tuplets),
  };
}

const graceOf = ({ staff, role }: GraceColumn, clef: Clef): HeadContent => ({
  y: staffY(staff.pitch, clef),
  accidental: staff.accidental === undefined ? undefined : valueAt(ACCIDENTALS, staff.accidental),
  role: role && roleClass(role),
});

/** From the lowest up, which on some tunings is not the order of the holes. */
const headsOf = (column: Column, clef: Clef): HeadContent[] =>
  column.staff
    .map((own, index) => ({ own, role: column.roles[index] }))
    .sort((a, b) => a.own.pitch.midi - b.own.pitch.midi)
    .map(({ own, role }) => ({
      y: staffY(own.pitch, clef),
      accidental: own.accidental === undefined || !column.first ? undefined : valueAt(ACCIDENTALS, own.accidental),
      role: role && roleClass(role),
    }));

function beamsOf(columns: readonly Column[]): number[][] {
  const beams = new Map<number, number[]>();
  columns.forEach(({ note }, index) => {
    if (note.beam !== undefined) beams.set(note.beam, [...(beams.get(note.beam) ?? []), index]);
  });
  // A bar cut within a beam leaves single notes, which take flags.
  return [...beams.values()].filter((members) => members.length > 1);
}

/** A tuplet whose notes are all under one beam that holds nothing else needs no bracket. */
function tupletsOf(columns: readonly Column[], tuplets: readonly WrittenTuplet[]): TupletContent[] {
  return tuplets.flatMap((tuplet, number): TupletContent[] => {
    const members = columns.flatMap(({ note }, index) => (note.tuplet === number ? [index] : []));
    const [first, last] = [members[0], members.at(-1)];
    if (first === undefined || last === undefined) return [];
    const beam = columns[first]?.note.beam;
    const beamed = beam !== undefined && columns.every(({ note }) => (note.beam === beam) === (note.tuplet === number));
    return [{ figure: tuplet.actual, first, last, bracket: !beamed }];
  });
}
