/** A bar before it is laid out: its columns, with all that is in line with each, and its chords. */
import { printedChord, printedNumeral } from '../harmony/chord.ts';
import type { ChordChange } from '../harmony/form.ts';
import type { SongKey } from '../harmony/key.ts';
import type { Role } from '../harmony/role.ts';
import { type Mark, rowOf, withHole } from '../score/mark.ts';
import { roleIn } from '../score/queries.ts';
import type { Bar, Event, Sound } from '../score/score.ts';
import type { StaffNote } from '../score/spelling.ts';
import type { WrittenBar, WrittenNote } from '../score/written.ts';
import { compare, type Fraction } from '../time/fraction.ts';
import type { Meter } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { textWidth } from './text-width.ts';

/** Sizes of the tile's words; `block.css` sets the same. */
export const SIZE = {
  label: 12,
  word: 11,
  chord: 16,
  numeral: 11,
  lyric: 13,
  small: 10,
} as const;

/** A bar, or half of one that is too crowded for a tile. */
export interface Segment {
  readonly bar: Bar;
  readonly written: WrittenBar;
  /** Which of the bar's written notes: from inclusive, to exclusive. */
  readonly from: number;
  readonly to: number;
  readonly columns: readonly Column[];
  readonly chords: readonly ChordMark[];
  readonly opens: boolean;
  readonly closes: boolean;
  /** The meter, where it is at the segment's start. */
  readonly meter: Meter | undefined;
}

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
}

/** The sound of a column that is known to hold one. */
export function soundIn({ event }: Column): Sound {
  if (event.kind !== 'sound') throw new TypeError(`event ${event.index} is no sound`);
  return event;
}

/** A chord symbol above a bar. */
export interface ChordMark {
  /** Its number among the bar's chords. */
  readonly index: number;
  readonly onset: Fraction;
  readonly name: string;
  readonly numeral: string;
  /** The last column that begins no later. */
  readonly column: number;
}

/** Takes the place of the line of that name, and is as wide. */
export const WAVE = '~~~~';

/** What is over the lanes for a note's marks: words, or a line where it is alone. Signs at the notehead are not among it. */
function wordOf(marks: readonly Mark[]): string {
  const drawings = marks.flatMap((mark) => {
    const { drawing } = rowOf(mark.name);
    return 'word' in drawing ? [{ ...drawing, word: withHole(drawing.word, mark) }] : [];
  });
  const [only] = drawings;
  if (drawings.length === 1 && only && 'line' in only) return WAVE;
  return drawings.map(({ word }) => word).join(' ');
}

/** The columns of a bar, one for each written note or rest. */
export function columnsOf(
  key: SongKey,
  bar: Bar,
  written: WrittenBar,
  staff: readonly (readonly StaffNote[])[],
): Column[] {
  return written.notes.map((note, index) => {
    const event = itemAt(bar.events, note.event);
    const first = index === 0 || written.notes[index - 1]?.event !== note.event;
    const sound = event.kind === 'sound' ? event : undefined;
    return {
      note,
      event,
      first,
      staff: staff[event.index] ?? [],
      roles: sound ? sound.notes.map((own) => roleIn(key, bar, sound, own)) : [],
      word: sound && first ? wordOf(sound.marks) : '',
    };
  });
}

/** The part of a bar between two of its written notes. */
export function segmentOf(
  bar: Bar,
  written: WrittenBar,
  columns: readonly Column[],
  range: readonly [number, number],
  meter: Meter | undefined,
): Segment {
  const [from, to] = range;
  const own = columns.slice(from, to);
  const start = own[0]?.note.onset;
  const next = columns[to]?.note.onset;
  const chords = bar.chords.flatMap((change, index): ChordMark[] => {
    const before = start && from > 0 && compare(change.onset, start) < 0;
    const after = next && compare(change.onset, next) >= 0;
    return before || after ? [] : [markOf(change, index, own)];
  });
  return {
    bar,
    written,
    from,
    to,
    columns: own,
    chords,
    opens: from === 0,
    closes: to === columns.length,
    meter: from === 0 ? meter : undefined,
  };
}

function markOf({ onset, chord }: ChordChange, index: number, columns: readonly Column[]): ChordMark {
  let column = 0;
  columns.forEach(({ note }, at) => {
    if (compare(note.onset, onset) <= 0) column = at;
  });
  const numeral = chord.numeral === undefined ? '' : printedNumeral(chord.numeral);
  return { index, onset, name: printedChord(chord), numeral, column };
}

/** The width of a chord symbol in pixels of the drawing. */
export const chordWidth = ({ name, numeral }: ChordMark): number =>
  textWidth(name, SIZE.chord, true) + (numeral ? 4 + textWidth(numeral, SIZE.numeral) : 0);

/** Whether a column shows hole numbers: an attack, not the rest of a tie. */
export const isAttack = ({ event, first }: Column): boolean => first && event.kind === 'sound' && !event.tied;

/** Roles of several holes that differ are named one by one beside them. */
export const labelsApart = ({ roles }: Column): boolean =>
  roles.length > 1 && roles.some((role) => role?.label !== roles[0]?.label);

/** VexFlow's names and the code points of accidentals, by half steps. */
export const SIGNS: Readonly<Record<number, { readonly name: string; readonly code: number }>> = {
  [-2]: { name: 'bb', code: 0xe264 },
  [-1]: { name: 'b', code: 0xe260 },
  0: { name: 'n', code: 0xe261 },
  1: { name: '#', code: 0xe262 },
  2: { name: '##', code: 0xe263 },
};

/** Whether one sound glides into another. */
export const glidesInto = (from: Column, to: Column): boolean =>
  from.event.kind === 'sound' && from.event.glides && to.event.kind === 'sound' && !to.event.tied;
