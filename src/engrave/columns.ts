/** A bar’s columns: each written note with all that is in line with it. */
import type { Role } from '../harmony/role.ts';
import type { Harp } from '../instrument/harp.ts';
import { type EndSign, filledIn, graceAmong, type Mark, rowOf, type SmallNote } from '../score/mark.ts';
import { graceRole, roleIn } from '../score/queries.ts';
import type { Bar, Event, Sound } from '../score/score.ts';
import type { StaffNote } from '../score/spelling.ts';
import type { WrittenBar, WrittenNote } from '../score/written.ts';
import { ZERO } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { halfOfShape, numberOf, sizeOfNumber } from './role-shape.ts';
import { textWidth } from './text-width.ts';

/** Sizes of the tile's words; `block.css` sets the same. */
export const SIZE = {
  label: 12.5,
  word: 12.5,
  chord: 16,
  direction: 13,
  jump: 13,
  numeral: 12.5,
  lyric: 13,
  small: 12.5,
} as const;

/** One written note with all that is in line with it. */
export interface Column {
  readonly note: WrittenNote;
  readonly event: Event;
  /** The first of its event's notes. */
  readonly first: boolean;
  readonly staff: readonly StaffNote[];
  /** A role for each note of the sound; empty where no chord sounds. */
  readonly roles: readonly (Role | undefined)[];
  /** Marks that are words or signs over the lanes. */
  readonly word: string;
  /** Its head and its number are in parentheses. */
  readonly hinted: boolean;
  readonly endSigns: readonly EndSign[];
  /** The grace note before it. */
  readonly grace?: GraceColumn;
  /** The sign of a repeated bar, which stands for these events. */
  readonly again?: readonly number[];
  /** What the lanes show of it. */
  readonly reach: LaneReach;
}

/** A grace note, with all that is in line with it. */
export interface GraceColumn {
  readonly note: SmallNote;
  readonly staff: StaffNote;
  readonly role: Role | undefined;
}

/** How far numbers in the lanes reach to either side of the middle of their column. */
export interface LaneReach {
  readonly left: number;
  readonly right: number;
}

/** The sound of a column that is known to hold one. */
export function soundIn({ event }: Column): Sound {
  if (event.kind !== 'sound') throw new TypeError(`event ${event.index} is no sound`);
  return event;
}

/** Takes the place of the line of that name, and is as wide. */
export const WAVE = '~~~~';

/** The letter of loudness among a note's marks, which is set in its own type before their words. */
export function dynamicOf(marks: readonly Mark[]): string | undefined {
  for (const { name } of marks) {
    const { drawing } = rowOf(name);
    if ('dynamic' in drawing) return drawing.dynamic;
  }
  return undefined;
}

/** What is over the lanes for a note's marks: words, or a line where it is alone. Signs at the notehead are not among it. */
function wordOf(marks: readonly Mark[]): string {
  const drawings = marks.flatMap((mark) => {
    const { drawing } = rowOf(mark.name);
    return 'word' in drawing ? [{ ...drawing, word: filledIn(drawing.word, mark) }] : [];
  });
  const [only] = drawings;
  const dynamic = dynamicOf(marks);
  if (drawings.length === 1 && only && 'line' in only && dynamic === undefined) return WAVE;
  return [...(dynamic === undefined ? [] : [dynamic]), ...drawings.map(({ word }) => word)].join(' ');
}

/** Whether a mark puts its note in parentheses. */
const isHint = ({ name }: Mark): boolean => 'around' in rowOf(name).drawing;

/** What of the whole score its columns need. */
export interface ColumnContext {
  readonly harp: Harp;
  /** What the staff shows, by the index of the event, and of the grace note before it. */
  readonly staff: readonly (readonly StaffNote[])[];
  readonly graces: ReadonlyMap<number, StaffNote>;
  /** Marks at the ends of notes. */
  readonly after: ReadonlyMap<Event, readonly Mark[]>;
}

/** The columns of a bar, one for each written note or rest. */
export function columnsOf(bar: Bar, written: WrittenBar, { staff, graces, after, harp }: ColumnContext): Column[] {
  return written.notes.map((note, index) => {
    const event = itemAt(bar.events, note.event);
    const first = index === 0 || written.notes[index - 1]?.event !== note.event;
    const last = written.notes[index + 1]?.event !== note.event;
    const sound = event.kind === 'sound' ? event : undefined;
    const roles = sound ? sound.notes.map((own) => roleIn(bar, sound, own)) : [];
    const small = sound && first && !sound.tied ? graceAmong(sound.marks) : undefined;
    const onStaff = graces.get(event.index);
    const grace: GraceColumn | undefined = sound &&
      small &&
      onStaff && { note: small, staff: onStaff, role: graceRole(bar, sound, harp) };
    return {
      note,
      event,
      first,
      staff: staff[event.index] ?? [],
      roles,
      word: sound && first ? wordOf(sound.marks) : '',
      hinted: sound !== undefined && first && sound.marks.some(isHint),
      endSigns: last && !note.tiedToNext ? endSignsOf(after.get(event)) : NO_SIGNS,
      ...(grace ? { grace } : {}),
      reach: sound && first ? laneReach(sound, roles, grace) : NOTHING_IN_LANES,
    };
  });
}

const NO_SIGNS: readonly EndSign[] = [];
const endSignsOf = (marks: readonly Mark[] = []): readonly EndSign[] =>
  marks.flatMap(({ name }) => {
    const { drawing } = rowOf(name);
    return 'end' in drawing ? [drawing.end] : [];
  });

/** The one column of a bar that is shown as the sign of a repeated bar. */
export function signColumn({ events, length }: Bar): Column {
  const [first] = events;
  const { index = 0, source = { span: { from: 0, to: 0 } } } = first ?? {};
  const time = { onset: ZERO, duration: length };
  return {
    note: {
      ...time,
      event: 0,
      rest: true,
      value: 1,
      dots: 0,
      wholeBar: true,
      tiedFromPrevious: false,
      tiedToNext: false,
    },
    event: { kind: 'rest', index, source, ...time },
    first: true,
    staff: [],
    roles: [],
    word: '',
    hinted: false,
    endSigns: NO_SIGNS,
    again: events.map((event) => event.index),
    reach: { left: AGAIN, right: AGAIN },
  };
}

/** Half the sign of a repeated bar in the lanes. */
const AGAIN = 10;
const NOTHING_IN_LANES: LaneReach = { left: 0, right: 0 };
/** Half the bead of a note that is held into a new role. */
const BEAD = 6;
/** Half a number without a role. */
const NUMBER = 7;
const SLIDE = 7;

/** From the shape of a number to the outer end of the parenthesis beside it. */
export const PARENTHESIS = 6;

function laneReach(sound: Sound, roles: Column['roles'], grace: GraceColumn | undefined): LaneReach {
  const { left, right } = numberReach(sound, roles);
  return { left: grace ? left + 2 * graceHalf(grace) + GRACE_GAP : left, right };
}

/** The size of a grace note’s number in the lanes, and what is between it and the number of its note. */
const GRACE_NUMBER = 12.8;
export const GRACE_GAP = 4;

/** How much smaller a grace note is in the lanes: a number that is small already is as small as that of any grace note. */
export const graceScale = ({ note, role }: Pick<GraceColumn, 'note' | 'role'>): number =>
  Math.min(1, GRACE_NUMBER / sizeOfNumber(numberOf(note), role));

/** Half of what a grace note covers in the lanes. */
export const graceHalf = ({ note, role }: GraceColumn): number =>
  role
    ? Math.max(halfOfShape(role, numberOf(note)) * graceScale({ note, role }), textWidth(role.label, SIZE.label) / 2)
    : NUMBER * graceScale({ note, role });

function numberReach({ tied, notes, marks }: Sound, roles: Column['roles']): LaneReach {
  const label = Math.max(0, ...roles.map((role) => (role ? textWidth(role.label, SIZE.label) : 0)));
  const shape = tied
    ? BEAD
    : Math.max(
        NUMBER,
        ...roles.map((role, index) => (role ? halfOfShape(role, numberOf(itemAt(notes, index))) : NUMBER)),
      );
  const half = shape + (marks.some(isHint) ? PARENTHESIS : 0);
  if (labelsApart({ roles })) return { left: half, right: half + label + 2 };
  const slide = notes.some((note) => note.slide) ? SLIDE : 0;
  return { left: Math.max(half, label / 2), right: Math.max(half + slide, label / 2) };
}

/** Whether a column shows hole numbers: an attack, not the rest of a tie. */
export const isAttack = ({ event, first }: Column): boolean => first && event.kind === 'sound' && !event.tied;

/** Roles of several holes that differ are named one by one beside them. */
export const labelsApart = ({ roles }: Pick<Column, 'roles'>): boolean =>
  roles.length > 1 && roles.some((role) => role?.label !== roles[0]?.label);

/**
 * Code points of accidentals by half steps: Standard Music Font Layout, “Standard accidentals (12-EDO)” and “Stein-Zimmermann
 * accidentals (24-EDO)”.
 */
export const ACCIDENTALS: ReadonlyMap<number, number> = new Map([
  [-2, 0xe264],
  [-1.5, 0xe281],
  [-1, 0xe260],
  [-0.5, 0xe280],
  [0, 0xe261],
  [0.5, 0xe282],
  [1, 0xe262],
  [1.5, 0xe283],
  [2, 0xe263],
]);

/** Whether one sound glides into another. */
export const glidesInto = (from: Column, to: Column): boolean =>
  from.event.kind === 'sound' && from.event.glides && to.event.kind === 'sound' && !to.event.tied;
