/** How deep the holes of a harp bend, and what each hole sounds. */
import { type Breath, type Harp, type HoleNote, holeCount, reed } from './harp.ts';
import { endsInQuarter, QUARTER } from './quarter-step.ts';

/** What a hole can do beyond its two reeds, with the slide in or out. */
export interface HoleBends {
  /** The breath whose reed is the higher one: only it bends. Undefined where both reeds are the same, or valved. */
  readonly bends: Breath | undefined;
  /** Half-step bends down to just above the lower reed. */
  readonly deepest: number;
  /** The breath of the overbend (overblow or overdraw), a half step above the higher reed. */
  readonly overbends: Breath | undefined;
}

/**
 * The dual-reed rule: the higher reed of a hole bends down to a half step above the lower one, and on the other
 * breath the higher reed can be made to open and sounds about a half step above itself.
 * Source: Bahnson, Antaki & Beery, J. Acoust. Soc. Am. 103(4), 1998 (the three modes); the half steps are common
 * practice, no source.
 *
 * A valved reed sounds alone, so the rule has nothing to say of it: a player still shades it down, but to no fixed
 * half step. On such a harp the tab writes that as a mark (a dip, a fall), not as a bend.
 */
export function bendsOfHole(harp: Harp, hole: number): HoleBends {
  const blow = reed(harp, hole, 'blow');
  const draw = reed(harp, hole, 'draw');
  if (harp.tuning.valves || blow === draw) return { bends: undefined, deepest: 0, overbends: undefined };
  return {
    bends: draw > blow ? 'draw' : 'blow',
    deepest: Math.abs(draw - blow) - 1,
    overbends: draw > blow ? 'blow' : 'draw',
  };
}

/**
 * The deepest bend of a hole that ends in a quarter step, in half steps; 0 where none does. A quarter step lies between two notes
 * that the hole plays, its reed and its half-step bends: `-2q` and `-2'q`, but not `-2''q`, since the reed is at its floor after the
 * last half step. A hole whose reeds are a half step apart has no half-step bend, and yet its higher reed gives way by a quarter
 * step before the lower one holds it: draw 5 and blow 7 of a richter harp. Common practice, no source.
 */
export const deepestQuarterStep = ({ bends, deepest }: HoleBends): number =>
  bends === undefined ? 0 : Math.max(deepest, 1) - QUARTER;

/** The holes that bend at least a half step on a breath, from the low end. */
export const bendingHoles = (harp: Harp, breath: Breath): readonly number[] =>
  Array.from({ length: holeCount(harp) }, (_, index) => index + 1).filter((hole) => {
    const { bends, deepest } = bendsOfHole(harp, hole);
    return bends === breath && deepest > 0;
  });

/** Why a note cannot be played on a harp. */
export type UnplayableReason =
  | 'no-hole'
  | 'no-bend'
  | 'bend-too-deep'
  | 'quarter-too-deep'
  | 'no-overbend'
  | 'no-slide';
/** The pitch a hole gives, as a MIDI number (ending in .5 for a quarter step), or why it cannot give it. */
export type Sounding = { readonly midi: number } | { readonly fault: UnplayableReason };

/** The sound of one hole on one breath, or why the reeds do not give it. */
export function sounding(harp: Harp, breath: Breath, note: HoleNote): Sounding {
  if (!Number.isInteger(note.hole) || note.hole < 1 || note.hole > holeCount(harp)) return { fault: 'no-hole' };
  const { slide } = harp.tuning;
  if (note.slide && slide === undefined) return { fault: 'no-slide' };
  const raised = note.slide ? (slide ?? 0) : 0;
  const own = reed(harp, note.hole, breath) + raised;
  const bends = bendsOfHole(harp, note.hole);
  if (note.over) {
    if (bends.overbends !== breath) return { fault: 'no-overbend' };
    return { midi: reed(harp, note.hole, breath === 'blow' ? 'draw' : 'blow') + raised + 1 };
  }
  if (note.bend === 0) return { midi: own };
  if (bends.bends !== breath) return { fault: 'no-bend' };
  const quarter = endsInQuarter(note.bend);
  if (quarter && note.bend <= deepestQuarterStep(bends)) return { midi: own - note.bend };
  if (bends.deepest === 0) return { fault: 'no-bend' };
  if (Math.floor(note.bend) > bends.deepest) return { fault: 'bend-too-deep' };
  if (quarter) return { fault: 'quarter-too-deep' };
  return { midi: own - note.bend };
}
