/**
 * The written rhythm of a bar: which note values, dots, ties, tuplets and beams show its exact onsets and durations.
 * A score holds only what sounds; this is how musicians write it. The engraver reads it.
 */
import { add, compare, type Fraction, format, fraction, subtract } from '../time/fraction.ts';
import { barLength, type Meter } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { beamGroups } from './beam.ts';
import { type Grid, gridOf, type TickRange } from './grid.ts';
import type { Bar, Event, Score } from './score.ts';
import { findTuplets, type Region } from './tuplet.ts';

/** A bar in note values, with its beams and tuplets. */
export interface WrittenBar {
  /** In time order; together they fill the bar. */
  readonly notes: readonly WrittenNote[];
  readonly tuplets: readonly WrittenTuplet[];
  /** How many beam groups there are: notes name theirs by a number below it. */
  readonly beams: number;
}

/** One notehead (or stack of them) or rest on paper. */
export interface WrittenNote {
  /** Position among the bar's events; of a rest that stands for several, the first of them. */
  readonly event: number;
  readonly rest: boolean;
  /** A fraction of a whole note from the bar's start. */
  readonly onset: Fraction;
  /** What it lasts, tuplet included. */
  readonly duration: Fraction;
  /** 1 a whole note, 4 a quarter, 8 an eighth …; 0.5 a double whole note. */
  readonly value: number;
  readonly dots: 0 | 1;
  /** A rest for the whole bar, written as a whole rest whatever the bar's length. */
  readonly wholeBar: boolean;
  /** Goes on from the note before: a part of the same event, or an event tied to the one before. */
  readonly tiedFromPrevious: boolean;
  readonly tiedToNext: boolean;
  /** Index into the bar's tuplets. */
  readonly tuplet?: number;
  /** Notes that share a number share a beam; the number is below the bar's `beams`. */
  readonly beam?: number;
}

/** `actual` notes in the time of `normal`: 3 and 2 for a triplet. */
export interface WrittenTuplet {
  readonly actual: number;
  readonly normal: number;
  readonly onset: Fraction;
  readonly duration: Fraction;
}

/** The written rhythm of every bar. */
export const writtenScore = (score: Pick<Score, 'bars' | 'pickup'>): readonly WrittenBar[] =>
  score.bars.map((bar, index) =>
    writtenBar(bar, bar.meter, {
      pickup: index === 0 && score.pickup !== undefined,
      tiedOut: startsTied(score.bars[index + 1]),
    }),
  );

const startsTied = (bar: Bar | undefined): boolean => {
  const first = bar?.events[0];
  return first?.kind === 'sound' && first.tied;
};

/** What of a bar’s surroundings decides how it is written. */
export interface BarPlace {
  /** Beats of a pickup count from the bar's end. */
  readonly pickup?: boolean;
  /** Whether the next bar begins tied to this one. */
  readonly tiedOut?: boolean;
}

/** One piece of an event within a tuplet, or outside of all of them, in ticks. */
interface Piece {
  readonly event: number;
  readonly from: number;
  readonly to: number;
  readonly region: Region | undefined;
}

/** One bar as it is written down, with ties, dots, tuplets and beams. Rests are merged where notation does so. */
export function writtenBar(bar: Pick<Bar, 'events' | 'length'>, meter: Meter, place: BarPlace = {}): WrittenBar {
  const { events } = bar;
  if (events.length === 0) return { notes: [], tuplets: [], beams: 0 };
  if (events.every((event) => event.kind === 'rest') && !place.pickup) return wholeBarRest(bar.length);
  const full = barLength(meter);
  const late = place.pickup && compare(bar.length, full) < 0 ? subtract(full, bar.length) : undefined;
  const grid = gridOf(meter, events, late);
  const regions = findTuplets(grid);
  const notes = joinRests(cut(grid, regions), events).flatMap((piece) => write(piece, grid, events));
  const ties = tieNotes(notes, events, place.tiedOut === true);
  const tuplets = regions.map((region) => ({
    actual: region.actual,
    normal: region.normal,
    onset: grid.onset(region.from),
    duration: grid.length(region.to - region.from),
  }));
  const beamOf = beamGroups(ties, grid, regions);
  const writtenNotes = ties.map(({ from: _from, to: _to, region, ...note }, index): WrittenNote => {
    const beam = beamOf.get(index);
    return {
      ...note,
      ...(region ? { tuplet: regions.indexOf(region) } : {}),
      ...(beam === undefined ? {} : { beam }),
    };
  });
  return { tuplets, notes: writtenNotes, beams: new Set(beamOf.values()).size };
}

const wholeBarRest = (length: Fraction): WrittenBar => ({
  notes: [
    {
      event: 0,
      rest: true,
      onset: fraction(0),
      duration: length,
      value: 1,
      dots: 0,
      wholeBar: true,
      tiedFromPrevious: false,
      tiedToNext: false,
    },
  ],
  tuplets: [],
  beams: 0,
});

/** Cuts the events where tuplets begin and end. */
function cut(grid: Grid, regions: readonly Region[]): Piece[] {
  const pieces: Piece[] = [];
  let next = 0;
  grid.spans.forEach(({ from, to }, event) => {
    let at = from;
    while (at < to) {
      while (next < regions.length && itemAt(regions, next).to <= at) next++;
      const region = regions[next];
      const inside = region !== undefined && region.from <= at;
      const end = Math.min(to, region === undefined ? to : inside ? region.to : region.from);
      pieces.push({ event, from: at, to: end, region: inside ? region : undefined });
      at = end;
    }
  });
  return pieces;
}

/** Rests side by side are written as one silence: its values follow the beats, not the slots. */
function joinRests(pieces: readonly Piece[], events: readonly Event[]): Piece[] {
  const joined: Piece[] = [];
  for (const piece of pieces) {
    const last = joined.at(-1);
    const rests = events[piece.event]?.kind === 'rest' && last !== undefined && events[last.event]?.kind === 'rest';
    if (rests && last.region === piece.region) joined[joined.length - 1] = { ...last, to: piece.to };
    else joined.push(piece);
  }
  return joined;
}

type Untied = Omit<WrittenNote, 'tiedFromPrevious' | 'tiedToNext' | 'tuplet' | 'beam'> & {
  readonly from: number;
  readonly to: number;
  readonly region: Region | undefined;
};

function write(piece: Piece, grid: Grid, events: readonly Event[]): Untied[] {
  const rest = events[piece.event]?.kind === 'rest';
  const { region } = piece;
  const parts = region ? cutInTuplet(piece, region, grid) : cutAtBeats(piece.from, piece.to, rest, grid);
  return parts.map(({ from, to }) => {
    const written = region ? ((to - from) * region.actual) / region.normal : to - from;
    const value = grid.noteValue(written);
    if (!value) throw new Error(`no note value for ${format(grid.length(to - from))}`);
    const time = { onset: grid.onset(from), duration: grid.length(to - from) };
    return { event: piece.event, rest, ...time, ...value, wholeBar: false, from, to, region };
  });
}

/** Splits at the strongest beats until each part is a note value that hides none of them. */
function cutAtBeats(from: number, to: number, rest: boolean, grid: Grid): TickRange[] {
  const fits = rest ? grid.restFits(from, to) : grid.noteFits(from, to);
  const inner = fits ? undefined : grid.strongest(from, to);
  if (!inner) return [{ from, to }];
  // A note that begins on a beat keeps all the whole beats it can; one that begins off it first reaches the beat.
  const at = grid.level(from) <= inner.level ? inner.last : inner.first;
  return [...cutAtBeats(from, at, rest, grid), ...cutAtBeats(at, to, rest, grid)];
}

/** Splits a part of a tuplet into the fewest note values, longest first. */
function cutInTuplet(piece: Piece, region: Region, grid: Grid): TickRange[] {
  const parts: TickRange[] = [];
  let at = piece.from;
  while (at < piece.to) {
    const written = ((piece.to - at) * region.actual) / region.normal;
    const value = grid.longestWithin(written);
    const to = at + (value * region.normal) / region.actual;
    parts.push({ from: at, to });
    at = to;
  }
  return parts;
}

function tieNotes(notes: readonly Untied[], events: readonly Event[], tiedOut: boolean) {
  const joins = notes.map((note, index) => {
    if (note.rest) return false;
    const next = notes[index + 1];
    if (!next) return tiedOut;
    if (next.event === note.event) return true;
    const follower = events[next.event];
    return follower?.kind === 'sound' && follower.tied;
  });
  const first = events[0];
  return notes.map((note, index) => ({
    ...note,
    tiedFromPrevious: index === 0 ? first?.kind === 'sound' && first.tied : joins[index - 1] === true,
    tiedToNext: joins[index] === true,
  }));
}

/** Where a written note ends. */
export const endOf = (note: Pick<WrittenNote, 'onset' | 'duration'>): Fraction => add(note.onset, note.duration);
