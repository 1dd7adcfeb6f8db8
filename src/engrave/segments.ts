/** A score's bars as segments: one a bar, or several where a bar is too crowded for a tile. */
import { barsShownAsSign } from '../score/bar-repeat.ts';
import { changesOf } from '../score/changes.ts';
import { marksAfter } from '../score/marks-after.ts';
import type { Score } from '../score/score.ts';
import { slursOf } from '../score/slurs.ts';
import { onStaff } from '../score/spelling.ts';
import { writtenScore } from '../score/written.ts';
import { divide, isWhole } from '../time/fraction.ts';
import { beatLength } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { changeWords } from './change-words.ts';
import type { Clef } from './clef.ts';
import { type Column, columnsOf, signColumn } from './columns.ts';
import { type Segment, segmentOf } from './segment.ts';
import { leastWidth } from './spacing.ts';
import { type Needs, spacingNeeds } from './spacing-needs.ts';
import { staffContent } from './staff/content.ts';
import { jumpWidth } from './staff/jump-signs.ts';

/** A segment with the room it needs. */
export interface MeasuredSegment {
  readonly segment: Segment;
  readonly needs: Needs;
  /** The width below which its columns would be spaced unevenly. */
  readonly least: number;
}

/** A bar, measured whole and in the parts in which it can be broken. */
export interface MeasuredBar {
  readonly whole: MeasuredSegment;
  /** The bar in as many segments as a tile's width asks for, as far as it can be cut. */
  readonly within: (width: number) => readonly MeasuredSegment[];
}

/** The bars of a score as segments with their columns and least widths. */
export function measureBars(score: Score, clef: Clef): MeasuredBar[] {
  const context = {
    harp: score.harp,
    ...onStaff(score),
    after: marksAfter(score),
  };
  const written = writtenScore(score);
  const slurs = slursOf(score);
  const changes = changesOf(score);
  const signs = barsShownAsSign(score);
  const inBars = score.bars.map((bar, index) =>
    signs.has(index) ? [signColumn(bar)] : columnsOf(bar, itemAt(written, index), context),
  );
  return score.bars.map((bar, index) => {
    const tuplets = signs.has(index) ? [] : itemAt(written, index).tuplets;
    const columns = itemAt(inBars, index);
    const own = itemAt(changes, index);
    const words = changeWords(own, bar.meter).join(' · ');
    const segment = (from: number, to: number): MeasuredSegment => {
      const before = columns[from - 1] ?? inBars[index - 1]?.at(-1);
      const after = columns[to] ?? inBars[index + 1]?.[0];
      const content = staffContent(columns.slice(from, to), tuplets, slurs, clef);
      const place = { before, after, isLast: index === score.bars.length - 1, changes: own, words };
      const cut = segmentOf(bar, columns, [from, to], content, place);
      const needs = spacingNeeds(cut);
      return { segment: cut, needs, least: Math.max(leastWidth(needs), jumpWidth(cut, score.bars)) };
    };
    const beat = beatLength(bar.meter);
    const isBeat = (at: number): boolean => isWhole(divide(itemAt(columns, at).note.onset, beat));

    function cut(all: MeasuredSegment, width: number): MeasuredSegment[] {
      if (all.least <= width) return [all];
      const { from, to } = all.segment;
      const places = cutsWithin(columns, from, to);
      const beats = places.filter(isBeat);
      // On a beat if there is one to cut at.
      const best = evenest(beats.length > 0 ? beats : places, (at) => [segment(from, at), segment(at, to)]);
      return best ? best.flatMap((part) => cut(part, width)) : [all];
    }
    const whole = segment(0, columns.length);
    return { whole, within: (width) => cut(whole, width) };
  });
}

type Parts = readonly [MeasuredSegment, MeasuredSegment];

/**
 * The parts whose wider one is as narrow as can be. The later a cut is, the wider is the first part
 * and the narrower the second, so that from the middle there is one direction to go.
 */
function evenest(places: readonly number[], partsAt: (at: number) => Parts): Parts | undefined {
  const middle = places.length >> 1;
  const start = places[middle];
  if (start === undefined) return undefined;
  let best = partsAt(start);
  const step = best[0].least >= best[1].least ? -1 : 1;
  for (let next = middle + step; ; next += step) {
    const at = places[next];
    if (at === undefined) return best;
    const parts = partsAt(at);
    // Of equals, the earliest.
    if (step > 0 ? widest(parts) >= widest(best) : widest(parts) > widest(best)) return best;
    best = parts;
  }
}

const widest = (parts: Parts): number => Math.max(parts[0].least, parts[1].least);

/** Before which columns a segment may be cut: between two events, and within no tuplet. */
function cutsWithin(columns: readonly Column[], from: number, to: number): number[] {
  const places: number[] = [];
  for (let at = from + 1; at < to; at++) {
    const { note, first } = itemAt(columns, at);
    const before = itemAt(columns, at - 1).note;
    if (first && (note.tuplet === undefined || note.tuplet !== before.tuplet)) places.push(at);
  }
  return places;
}
