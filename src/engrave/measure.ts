/** What a bar carries before it has a place: its columns, how wide each is on the staff and in the lanes, and its words. */
import { printedChord, printedNumeral } from '../harmony/chord.ts';
import type { ChordChange } from '../harmony/form.ts';
import type { Role } from '../harmony/role.ts';
import { roleIn } from '../score/ask.ts';
import type { Bar, Event, Mark, Sound } from '../score/score.ts';
import type { StaffNote } from '../score/spelling.ts';
import type { WrittenBar, WrittenNote } from '../score/written.ts';
import { compare, type Fraction, toNumber } from '../time/fraction.ts';
import type { Meter } from '../time/meter.ts';
import { glyphAt } from './glyphs/metrics.ts';
import { meterWidth } from './lead.ts';
import { SHAPES } from './role-mark.ts';
import type { Apart, Spacing } from './spacing.ts';
import { textWidth } from './text-width.ts';

/** Sizes of the tile's words; `block.css` sets the same. */
export const SIZE = {
  number: 17,
  narrow: 14,
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
  /** The meter, where it stands at the segment's start. */
  readonly meter: Meter | undefined;
}

/** One written note with all that stands in line with it. */
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

export interface ChordMark {
  /** Its number among the bar's chords. */
  readonly index: number;
  readonly onset: Fraction;
  readonly name: string;
  readonly numeral: string;
  /** The last column that begins no later. */
  readonly column: number;
}

/** Stands for the drawn wave of a vibrato. */
export const WAVE = '~~~~';

/** Marks that are said by a word over the lanes; the others are signs at the note itself. */
const WORDS: Readonly<Partial<Record<Mark['name'], string>>> = {
  slap: 'slap',
  pull: 'pull',
  flutter: 'flutter',
  hand: 'hand',
  vibrato: WAVE,
};

const wordOf = (marks: readonly Mark[]): string =>
  marks.flatMap((mark) => (mark.name === 'shake' ? [`shake ${mark.hole}`] : (WORDS[mark.name] ?? []))).join(' ');

export function columnsOf(bar: Bar, written: WrittenBar, staff: readonly (readonly StaffNote[])[]): Column[] {
  return written.notes.map((note, index) => {
    const event = bar.events[note.event] as Event;
    const first = index === 0 || written.notes[index - 1]?.event !== note.event;
    const sound = event.kind === 'sound' ? event : undefined;
    return {
      note,
      event,
      first,
      staff: staff[event.index] ?? [],
      roles: sound ? sound.notes.map((own) => roleIn(bar, sound, own)) : [],
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

export const chordWidth = ({ name, numeral }: ChordMark): number =>
  textWidth(name, SIZE.chord, true) + (numeral ? 4 + textWidth(numeral, SIZE.numeral) : 0);

/** Whether a column shows hole numbers: an attack, not the rest of a tie. */
export const isAttack = ({ event, first }: Column): boolean => first && event.kind === 'sound' && !event.tied;

/** Whether the lanes show anything at a column: numbers, or the bead of a note that is held into a new role. */
const inLanes = (column: Column): boolean => column.first && column.event.kind === 'sound';

/** Roles of several holes that differ are named one by one beside them. */
export const labelsApart = ({ roles }: Column): boolean =>
  roles.length > 1 && roles.some((role) => role?.label !== roles[0]?.label);

const BEAD = 6;

/** How far a column's numbers reach to either side of its middle. */
function laneReach(column: Column): { readonly left: number; readonly right: number } {
  const { event, roles } = column;
  if (!inLanes(column) || event.kind === 'rest') return { left: 0, right: 0 };
  const labels = roles.map((role) => (role ? textWidth(role.label, SIZE.label) : 0));
  const label = Math.max(0, ...labels);
  const half = isAttack(column) ? Math.max(7, ...roles.map((role) => (role ? SHAPES[role.degree].half : 7))) : BEAD;
  if (labelsApart(column)) return { left: half, right: half + label + 2 };
  const slide = event.notes.some((note) => note.slide) ? 7 : 0;
  return { left: Math.max(half, label / 2), right: Math.max(half + slide, label / 2) };
}

/** How far a column reaches on the staff to either side of its head's middle. */
function staffReach(
  { note, event, staff, first }: Column,
  hasFlag: boolean,
): { readonly left: number; readonly right: number } {
  const half = (note.value < 2 ? glyphAt(0xe0a2).advance : glyphAt(0xe0a4).advance) / 2;
  const signs = first && event.kind === 'sound' ? staff.filter((own) => own.accidental !== undefined) : [];
  const sign = signs.reduce(
    (sum, own) => sum + glyphAt(SIGNS[own.accidental as number]?.code ?? 0xe262).advance + 3,
    0,
  );
  const marks = event.kind === 'sound' && first ? event.marks : [];
  const dip = marks.some((mark) => mark.name === 'dip') ? 11 : 0;
  const fall = marks.some((mark) => mark.name === 'fall') ? 14 : 0;
  const seconds = staff.some((own, index) => index > 0 && stepsBetween(own, staff[index - 1] as StaffNote) === 1);
  const flag = hasFlag ? 9 : 0;
  return {
    left: half + Math.max(sign > 0 ? sign + 1 : 0, dip),
    right: half + note.dots * 7 + fall + (seconds ? half * 2 : flag),
  };
}

const LETTERS = 'CDEFGAB';
const stepsBetween = (a: StaffNote, b: StaffNote): number =>
  Math.abs(LETTERS.indexOf(a.pitch.letter) + 7 * a.pitch.octave - LETTERS.indexOf(b.pitch.letter) - 7 * b.pitch.octave);

/** VexFlow's names and the code points of accidentals, by half steps. */
export const SIGNS: Readonly<Record<number, { readonly name: string; readonly code: number }>> = {
  [-2]: { name: 'bb', code: 0xe264 },
  [-1]: { name: 'b', code: 0xe260 },
  0: { name: 'n', code: 0xe261 },
  1: { name: '#', code: 0xe262 },
  2: { name: '##', code: 0xe263 },
};

/** Room at the tile's ends. */
const EDGE = 7;
const REPEAT_ROOM = 15;

/** What the spacing of a segment must respect. */
export function needsOf(segment: Segment): Omit<Spacing, 'width'> {
  const { columns, bar, chords } = segment;
  const staff = columns.map((column) =>
    staffReach(column, column.note.value >= 8 && column.note.beam === undefined && !column.note.rest),
  );
  const lanes = columns.map(laneReach);
  const words = columns.map(({ word }) => textWidth(word, SIZE.word) / 2);
  const lyrics = columns.map(lyricHalf);
  const gaps = columns
    .slice(1)
    .map((_, index) => Math.max(14, (staff[index]?.right ?? 0) + (staff[index + 1]?.left ?? 0) + 3));
  const apart: Apart[] = [];
  const keepApart = (from: number, to: number, least: number): void => {
    if (to === from + 1) gaps[from] = Math.max(gaps[from] as number, least);
    else apart.push({ from, to, least });
  };
  /** Keeps what stands in one row apart, neighbour by neighbour. */
  const row = (shown: (index: number) => boolean, least: (from: number, to: number) => number): void => {
    let before: number | undefined;
    columns.forEach((_, index) => {
      if (!shown(index)) return;
      if (before !== undefined) keepApart(before, index, least(before, index));
      before = index;
    });
  };
  const soundAt = (index: number): Sound | undefined => {
    const column = columns[index] as Column;
    return inLanes(column) ? (column.event as Sound) : undefined;
  };
  for (const breath of ['blow', 'draw'] as const) {
    row(
      (index) => soundAt(index)?.breath === breath,
      (from, to) =>
        (lanes[from]?.right ?? 0) +
        (lanes[to]?.left ?? 0) +
        (soundAt(from)?.glides ? 10 : isAttack(columns[to] as Column) ? 2 : 7),
    );
  }
  row(
    (index) => (words[index] ?? 0) > 0,
    (from, to) => (words[from] ?? 0) + (words[to] ?? 0) + 5,
  );
  row(
    (index) => (lyrics[index] ?? 0) > 0,
    (from, to) => (lyrics[from] ?? 0) + (lyrics[to] ?? 0) + (hyphenAt(columns[from]) ? 11 : 5),
  );
  chords.forEach((chord, index) => {
    const next = chords[index + 1];
    if (next && next.column > chord.column) keepApart(chord.column, next.column, chordWidth(chord) + 8);
  });

  const last = columns.length - 1;
  const lastChord = chords.at(-1);
  const before = Math.max(9, staff[0]?.left ?? 0, lanes[0]?.left ?? 0, (words[0] ?? 0) - 4, (lyrics[0] ?? 0) - 4);
  const after = Math.max(
    9,
    staff[last]?.right ?? 0,
    lanes[last]?.right ?? 0,
    (words[last] ?? 0) - 4,
    (lyrics[last] ?? 0) - 4,
    lastChord && lastChord.column === last ? chordWidth(lastChord) - 10 : 0,
  );
  return {
    before:
      before +
      EDGE +
      (segment.meter ? meterWidth(segment.meter) + 4 : 0) +
      (segment.opens && bar.repeatStart ? REPEAT_ROOM : 0),
    after: after + EDGE + (segment.closes && (bar.repeatEnd || bar.close === 'final') ? REPEAT_ROOM : 0),
    lengths: columns.map(({ note }) => toNumber(note.duration)),
    gaps,
    apart,
  };
}

const lyricOf = (column: Column | undefined) =>
  column?.first && column.event.kind === 'sound' ? column.event.lyric : undefined;

function lyricHalf(column: Column): number {
  const lyric = lyricOf(column);
  return lyric && !lyric.extends ? textWidth(lyric.text, SIZE.lyric) / 2 : 0;
}

const hyphenAt = (column: Column | undefined): boolean => lyricOf(column)?.hyphen === true;

/** Where a crowded bar may be cut in two: as near its middle as a beat allows, between two events, beams and tuplets. */
export function cutOf(
  bar: Bar,
  written: WrittenBar,
  columns: readonly Column[],
  isBeat: (onset: Fraction) => boolean,
): number | undefined {
  const half = toNumber(bar.length) / 2;
  let best: number | undefined;
  columns.forEach(({ note, first }, index) => {
    const before = written.notes[index - 1];
    if (index === 0 || !before || !first || !isBeat(note.onset)) return;
    if (note.tuplet !== undefined && note.tuplet === before.tuplet) return;
    if (note.beam !== undefined && note.beam === before.beam) return;
    const distance = Math.abs(toNumber(note.onset) - half);
    const known = best === undefined ? undefined : columns[best];
    if (!known || distance < Math.abs(toNumber(known.note.onset) - half)) best = index;
  });
  return best;
}
