/** How much room a segment's columns need: on the staff, in the lanes, and for what is written over and under them. */
import type { Sound } from '../score/score.ts';
import { lyricIn, versesIn } from '../score/verses.ts';
import { toNumber } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { type Column, isAttack, SIZE } from './columns.ts';
import { startRoom } from './row-head.ts';
import { CHORD_END, CHORD_GAP, CHORD_LEAD, chordsFrom, chordWidth, type Segment } from './segment.ts';
import type { Apart, Spacing } from './spacing.ts';
import { distance, glyphBox, type InkBox } from './staff/box.ts';
import { inkOf, type NoteShape } from './staff/note.ts';
import { textWidth } from './text-width.ts';
import { halfOfText, syllableOf, type TextOf, textAt } from './under/text-under.ts';

/** A tie shorter than this cannot be seen. */
const TIE_ROOM = 26;
/** The ties of a chord are between its heads; those of one note are over them. */
const CHORD_TIE = 13;
/** Between what two columns have on the staff. */
const STAFF_GAP = 3;
/** From one head to the next at least. */
const HEAD_GAP = 14;
/** Half of a fermata, which is wider than its head. */
const FERMATA_HALF = 12.5;
/** Between two shapes of the lanes, their outlines included, and for a glide’s line between them. */
const SHAPE_GAP = 4.8;
const GLIDE_ROOM = 13;
/** Room behind the bar line before a bar, and before the one that closes it. */
const EDGE = 6;
const BEFORE_BAR_LINE = 8;
/** Where a bar goes on in the next tile. */
const SEAM = 1;
/** What shapes need beside it. */
const BESIDE_SEAM = SHAPE_GAP / 2 - SEAM;
/** From a syllable to where its bar goes on in the next tile; and what a hyphen behind it takes. */
const TEXT_TO_SEAM = 1.5;
const HYPHEN = 7;
const REPEAT_ROOM = 15;
const DOUBLE_ROOM = 5;

/** What the spacing of a segment must respect, whatever its width. */
export type Needs = Omit<Spacing, 'width' | 'beyond'>;

/** What the spacing of a segment must respect. */
export function spacingNeeds(segment: Segment): Needs {
  const { columns, bar, chords } = segment;
  const staff = segment.staff.notes.map((note) => inkOf(note));
  const lanes = columns.map(({ reach }) => reach);
  const tiesBeside = (index: number): boolean => {
    const { content } = itemAt(segment.staff.notes, index);
    return content.tied && content.heads.length > 1;
  };
  const words = columns.map(({ word }) => textWidth(word, SIZE.word) / 2);
  const below = linesBelow(columns).map((of) => ({ of, halves: columns.map((column) => halfOfText(column, of)) }));
  const belowAt = (index: number): number => Math.max(0, ...below.map(({ halves }) => halves[index] ?? 0));
  const beamed = new Set(segment.staff.beams.flatMap((members) => members.slice(0, -1)));
  const gaps = columns.slice(1).map((next, index) =>
    Math.max(
      next.first ? HEAD_GAP : TIE_ROOM,
      // A grace note may be on the other side of the lanes than its note.
      next.grace ? itemAt(lanes, index).right + itemAt(lanes, index + 1).left + SHAPE_GAP : 0,
      distance(itemAt(staff, index), itemAt(staff, index + 1), tiesBeside(index) ? CHORD_TIE : STAFF_GAP),
      beamed.has(index) ? pastStem(itemAt(segment.staff.notes, index), itemAt(segment.staff.notes, index + 1)) : 0,
    ),
  );
  const apart: Apart[] = [];
  const keepApart = (from: number, to: number, least: number): void => {
    if (to === from + 1) gaps[from] = Math.max(itemAt(gaps, from), least);
    else apart.push({ from, to, least });
  };
  /** Keeps what is in one row apart, neighbour by neighbour. */
  const row = (shown: (index: number) => boolean, least: (from: number, to: number) => number): void => {
    let before: number | undefined;
    columns.forEach((_, index) => {
      if (!shown(index)) return;
      if (before !== undefined) keepApart(before, index, least(before, index));
      before = index;
    });
  };
  const soundAt = (index: number): Sound | undefined => {
    const { first, event } = itemAt(columns, index);
    return first && event.kind === 'sound' ? event : undefined;
  };
  for (const breath of ['blow', 'draw'] as const) {
    row(
      (index) => soundAt(index)?.breath === breath,
      (from, to) =>
        (lanes[from]?.right ?? 0) +
        (lanes[to]?.left ?? 0) +
        (soundAt(from)?.glides ? GLIDE_ROOM : isAttack(itemAt(columns, to)) ? SHAPE_GAP : 7),
    );
  }
  row(
    (index) => (words[index] ?? 0) > 0,
    (from, to) => (words[from] ?? 0) + (words[to] ?? 0) + 5,
  );
  for (const { of, halves } of below)
    row(
      (index) => (halves[index] ?? 0) > 0,
      (from, to) => (halves[from] ?? 0) + (halves[to] ?? 0) + (textAt(columns[from], of)?.hyphen ? 11 : 5),
    );
  const hasFermata = (index: number): boolean => columns[index]?.endSigns.includes('fermata') === true;
  row(hasFermata, () => 2 * FERMATA_HALF + STAFF_GAP);
  // Several chords may change under one long note: all of them are before the next note's.
  const symbols = columns.map((_, index) =>
    chords.reduce((sum, chord) => sum + (chord.column === index ? chordWidth(chord) + CHORD_GAP : 0), 0),
  );
  const last = columns.length - 1;
  const inside = Math.max(
    9,
    hasFermata(0) ? FERMATA_HALF : 0,
    leftOf(staff[0]),
    (lanes[0]?.left ?? 0) + (segment.glidesIn ? GLIDE_ROOM : BESIDE_SEAM),
    (words[0] ?? 0) - 4,
    belowAt(0) + (segment.opens ? -4 : TEXT_TO_SEAM),
  );
  const before =
    inside + (segment.opens ? EDGE : SEAM) + (segment.opens && bar.repeatStart ? REPEAT_ROOM : 0) + startRoom(segment);
  // The first of them begins after the bar’s number.
  if (symbols[0]) symbols[0] += Math.max(0, chordsFrom(segment) - (before - CHORD_LEAD));
  row(
    (index) => (symbols[index] ?? 0) > 0,
    (from) => symbols[from] ?? 0,
  );

  const beforeEnd = segment.closes ? BEFORE_BAR_LINE + roomOfBarLine(segment) : SEAM;
  const toEnd = (index: number): number => (symbols[index] ? symbols[index] - CHORD_GAP - CHORD_LEAD + CHORD_END : 0);
  const endsOpen = below.some(({ of }) => textAt(columns[last], of)?.hyphen);
  const after = Math.max(
    9,
    hasFermata(last) ? FERMATA_HALF : 0,
    rightOf(staff[last]),
    (lanes[last]?.right ?? 0) + (segment.glidesOut ? GLIDE_ROOM : BESIDE_SEAM),
    (words[last] ?? 0) - 4,
    belowAt(last) + (segment.closes ? -4 : TEXT_TO_SEAM) + (endsOpen ? HYPHEN : 0),
    toEnd(last) - beforeEnd,
  );
  const lastSymbol = symbols.findLastIndex((width) => width > 0);
  if (lastSymbol >= 0 && lastSymbol < last) keepApart(lastSymbol, last, toEnd(lastSymbol) - after - beforeEnd);
  return {
    before,
    after: after + beforeEnd,
    lengths: columns.map(({ note }) => toNumber(note.duration)),
    gaps,
    apart,
  };
}

/** How far the next note under a beam must be for its accidentals to be clear of the stem, which reaches up or down to the beam. */
function pastStem({ stem, up }: NoteShape, next: NoteShape): number {
  if (!stem) return 0;
  const { x, base } = stem;
  const line = {
    left: x,
    right: x,
    top: up ? Number.NEGATIVE_INFINITY : base,
    bottom: up ? base : Number.POSITIVE_INFINITY,
  };
  return distance(
    [line],
    [...next.accidentals.values()].map((sign) => glyphBox(sign)),
    STAFF_GAP,
  );
}

function roomOfBarLine({ bar, close }: Segment): number {
  if (bar.repeatEnd || close === 'final') return REPEAT_ROOM;
  return close === 'double' ? DOUBLE_ROOM : 0;
}

const leftOf = (boxes: readonly InkBox[] = []): number => -Math.min(0, ...boxes.map(({ left }) => left));
const rightOf = (boxes: readonly InkBox[] = []): number => Math.max(0, ...boxes.map(({ right }) => right));

/** The lines of text under a segment's columns: its syllables, and each of its verses. */
const linesBelow = (columns: readonly Column[]): TextOf[] => {
  const sounds = columns.flatMap(({ event }) => (event.kind === 'sound' ? [event] : []));
  return [
    syllableOf,
    ...versesIn({ events: sounds }).map(
      (verse): TextOf =>
        (sound) =>
          lyricIn(sound, verse),
    ),
  ];
};
