/** The plan of a staff: a segment's notes at their places, with what reaches them from the neighbouring tiles. */
import { itemAt } from '../values/checked.ts';
import { type Clef, staffKey } from './clef.ts';
import { type Column, glidesInto, type Segment, SIGNS } from './columns.ts';
import { signsOf } from './mark-signs.ts';
import { roleClass } from './role-shape.ts';
import type { PlannedHead, PlannedNote, PlannedTuplet, StaffPlan } from './staff.ts';

interface Place {
  readonly segment: Segment;
  readonly xs: readonly number[];
  readonly width: number;
  readonly clef: Clef;
  /** The columns on the other side of the tile's edges. */
  readonly before: Column | undefined;
  readonly after: Column | undefined;
}

/** What the staff of a segment draws, with every glyph and curve at its place. */
export function staffPlan({ segment, xs, width, clef, before, after }: Place): StaffPlan {
  const { columns } = segment;
  const notes = columns.map((column, index): PlannedNote => {
    const next = columns[index + 1];
    const last = !next;
    const { note } = column;
    const glide = lastOfEvent(columns, index) ? glideTo(column, next ?? after, clef, last) : undefined;
    return {
      x: round(itemAt(xs, index)),
      value: note.value,
      dots: note.dots,
      heads: column.event.kind === 'rest' ? [] : headsOf(column, clef),
      marks: column.first && column.event.kind === 'sound' ? signsOf(column.event.marks) : [],
      tie: note.tiedToNext ? (last ? 'out' : 'next') : undefined,
      tieIn: (index === 0 && note.tiedFromPrevious) || undefined,
      glide,
      glideIn: index === 0 && before && glidesInto(before, column) ? { from: topKey(before, clef) } : undefined,
    };
  });
  return { width, notes, beams: beamsOf(columns), tuplets: tupletsOf(segment) };
}

/** Places are kept to a tenth: finer ones would only make equal bars differ. */
const round = (x: number): number => Math.round(x * 10) / 10;

const lastOfEvent = (columns: readonly Column[], index: number): boolean =>
  columns[index + 1]?.note.event !== columns[index]?.note.event;

function glideTo(column: Column, next: Column | undefined, clef: Clef, out: boolean): PlannedNote['glide'] {
  if (!next || !glidesInto(column, next)) return undefined;
  return out ? { to: topKey(next, clef) } : 'next';
}

const topKey = (column: Column, clef: Clef): string => {
  const top = column.staff.at(-1);
  if (!top) throw new Error('a sound has no note on the staff');
  return staffKey(top.pitch, clef);
};

/** VexFlow wants the heads from the lowest up, which on some tunings is not the order of the holes. */
function headsOf(column: Column, clef: Clef): PlannedHead[] {
  return column.staff
    .map((own, index) => ({ own, role: column.roles[index] }))
    .sort((a, b) => a.own.pitch.midi - b.own.pitch.midi)
    .map(({ own, role }) => ({
      key: staffKey(own.pitch, clef),
      sign: own.accidental === undefined || !column.first ? undefined : SIGNS[own.accidental]?.name,
      role: role && roleClass(role),
    }));
}

function beamsOf(columns: readonly Column[]): number[][] {
  const beams = new Map<number, number[]>();
  columns.forEach(({ note }, index) => {
    if (note.beam !== undefined) beams.set(note.beam, [...(beams.get(note.beam) ?? []), index]);
  });
  // A bar cut within a beam leaves single notes, which take flags.
  return [...beams.values()].filter((members) => members.length > 1);
}

/** A tuplet whose notes are all under one beam that holds nothing else needs no bracket. */
function tupletsOf({ columns, written }: Segment): PlannedTuplet[] {
  return written.tuplets.flatMap((tuplet, number): PlannedTuplet[] => {
    const members = columns.flatMap(({ note }, index) => (note.tuplet === number ? [index] : []));
    const [first, last] = [members[0], members.at(-1)];
    if (first === undefined || last === undefined) return [];
    const beam = columns[first]?.note.beam;
    const beamed = beam !== undefined && columns.every(({ note }) => (note.beam === beam) === (note.tuplet === number));
    return [{ figure: tuplet.actual, first, last, bracket: !beamed }];
  });
}
