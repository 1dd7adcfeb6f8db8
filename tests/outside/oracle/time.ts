// When things sound: pieces of held notes, chord changes, swing, and the order of repeats.

import type { Chord } from './chords.ts';
import { sameChord } from './chords.ts';
import type { Frac } from './frac.ts';
import { add, cmp, div, floor, frac, mul, sub, ZERO } from './frac.ts';

/** One share of time: a note begins, is held, or there is silence. */
export type Item =
  | { kind: 'note'; midi: number[]; length: Frac }
  | { kind: 'hold'; length: Frac }
  | { kind: 'rest'; length: Frac };

/** A stretch of one note inside one bar, not yet cut at chord changes. */
export interface Stretch {
  onset: Frac;
  length: Frac;
  midi: number[];
  first: number; // which attack, numbered over the page
  continued: boolean; // comes from the bar before
}

export function stretches(bars: Item[][]): Stretch[][] {
  let attack = -1;
  let sounding: { midi: number[] } | undefined;
  return bars.map((items) => {
    const out: Stretch[] = [];
    let at = ZERO;
    let open: Stretch | undefined;
    for (const item of items) {
      if (item.kind === 'note') {
        attack++;
        sounding = { midi: item.midi };
        open = { onset: at, length: item.length, midi: item.midi, first: attack, continued: false };
        out.push(open);
      } else if (item.kind === 'rest') {
        sounding = undefined;
        open = undefined;
      } else if (open !== undefined) {
        open.length = add(open.length, item.length);
      } else {
        if (sounding === undefined) throw new Error('a hold without a note');
        open = { onset: at, length: item.length, midi: sounding.midi, first: attack, continued: true };
        out.push(open);
      }
      at = add(at, item.length);
    }
    return out;
  });
}

export interface ChordAt {
  onset: Frac;
  chord: Chord;
}

/** Leave out chords that only name again what already sounds. */
export function realChanges(list: ChordAt[]): ChordAt[] {
  return list.filter((c, i) => i === 0 || !sameChord(list[i - 1]!.chord, c.chord));
}

export function chordAt(list: ChordAt[], at: Frac): Chord | undefined {
  let found: Chord | undefined;
  for (const c of list) if (cmp(c.onset, at) <= 0) found = c.chord;
  return found;
}

/** A stretch cut where the chord changes under it. */
export function cut(stretch: Stretch, chords: ChordAt[]): { onset: Frac; length: Frac }[] {
  const end = add(stretch.onset, stretch.length);
  const points = chords.map((c) => c.onset).filter((o) => cmp(o, stretch.onset) > 0 && cmp(o, end) < 0);
  const edges = [stretch.onset, ...points, end];
  return edges.slice(1).map((edge, i) => ({ onset: edges[i]!, length: sub(edge, edges[i]!) }));
}

/**
 * Swing: the first half of each beat takes `first` of it, the second the rest; time between is stretched evenly. The beat is the quarter note; only meters over 4 are swung here. Counted from a bar line.
 */
export function swung(at: Frac, first: Frac | undefined): Frac {
  if (first === undefined) return at;
  const beat = frac(1, 4);
  const count = floor(div(at, beat));
  const inside = sub(div(at, beat), frac(count)); // 0 … 1
  const half = frac(1, 2);
  const moved =
    cmp(inside, half) <= 0
      ? mul(div(inside, half), first)
      : add(first, mul(div(sub(inside, half), half), sub(frac(1), first)));
  return mul(beat, add(frac(count), moved));
}

export interface Attack {
  at: Frac;
  duration: Frac;
  midi: number[];
}

export interface TimedBar {
  length: Frac;
  offset: Frac; // where the bar begins in the beat grid: a pickup is the end of a whole bar
  stretches: Stretch[];
}

export function play(bars: TimedBar[], order: number[], first: Frac | undefined): Attack[] {
  const out: Attack[] = [];
  let start = ZERO;
  for (const index of order) {
    const bar = bars[index]!;
    const begin = swung(bar.offset, first);
    const place = (at: Frac): Frac => sub(swung(add(bar.offset, at), first), begin);
    for (const s of bar.stretches) {
      const from = place(s.onset);
      const duration = sub(place(add(s.onset, s.length)), from);
      if (s.continued) {
        const attack = out[out.length - 1]!;
        attack.duration = add(attack.duration, duration);
      } else out.push({ at: add(start, from), duration, midi: s.midi });
    }
    start = add(start, place(bar.length));
  }
  return out;
}
