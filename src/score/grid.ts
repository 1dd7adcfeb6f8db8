/** A bar's time in whole ticks, with its beats: how strong each point of it is, and which notes would hide which beats. */
import { add, type Fraction, fraction, lcm } from '../time/fraction.ts';
import { isCompound, type Meter } from '../time/meter.ts';
import { itemAt, lastOf } from '../values/checked.ts';

/** The strongest points within a stretch: their level, and the first and the last of them, which may be one point. */
export interface Strongest {
  readonly level: number;
  readonly first: number;
  readonly last: number;
}

interface Timed {
  readonly onset: Fraction;
  readonly duration: Fraction;
}

/** A stretch of a bar, in ticks from its start. */
export interface TickRange {
  readonly from: number;
  readonly to: number;
}

/** A note value that can be written with one head. */
export interface NoteValue {
  /** 4 for a quarter, 8 for an eighth. */
  readonly value: number;
  readonly dots: 0 | 1;
}

/** The level of a beat: see {@link Grid.level}. */
export const BEAT = 2;

/** All points are ticks from where a full bar would start, which in a pickup lies before its first event. */
export interface Grid {
  /** Ticks of a whole note. */
  readonly whole: number;
  /** Each event's stretch. */
  readonly spans: readonly TickRange[];
  /** A length in ticks as a fraction of a whole note. */
  readonly length: (ticks: number) => Fraction;
  /** Where a point lies from the bar's own start. */
  readonly onset: (tick: number) => Fraction;
  /** Whether a point can be reached without a tuplet. */
  readonly isPlain: (tick: number) => boolean;
  /** A length in the shortest plain value. */
  readonly inFinest: (ticks: number) => number;
  /** The number of the beat a point lies in, from 0. */
  readonly beatAt: (tick: number) => number;
  /** The beat around a point. */
  readonly beatAround: (tick: number) => TickRange;
  /** Ticks of the first beat. */
  readonly beat: number;
  /**
   * 0 for the bar's ends, 1 for its middle, 2 for the beats, 3 for their halves (or, in beats of three, their thirds),
   * and one more for each further halving; Infinity for points that only a tuplet reaches.
   */
  readonly level: (tick: number) => number;
  /** The strongest points strictly between two, or undefined where nothing plain lies between. */
  readonly strongest: (from: number, to: number) => Strongest | undefined;
  /** The note value of a length, or undefined where it takes more than one note. */
  readonly noteValue: (ticks: number) => NoteValue | undefined;
  /** The longest note value, with a dot or without, of at most so many ticks. */
  readonly longestWithin: (ticks: number) => number;
  readonly noteFits: (from: number, to: number) => boolean;
  readonly restFits: (from: number, to: number) => boolean;
}

/**
 * How the beats of a bar group for the eye, in units of the meter's own note: quarters one by one, compound beats in
 * threes, the uneven meters of eighths in twos with a three where the usual count has it.
 */
export function beatGroups(meter: Meter): readonly number[] {
  const { beats, unit } = meter;
  if (isCompound(meter)) return Array.from({ length: beats / 3 }, () => 3);
  if (unit <= 4) return Array.from({ length: beats }, () => 1);
  if (beats <= 3) return [beats];
  if (beats === 5) return [3, 2];
  if (beats === 8) return [3, 3, 2];
  const twos = Array.from({ length: Math.floor(beats / 2) }, () => 2);
  if (beats % 2 === 1) twos[twos.length - 1] = 3;
  return twos;
}

/** After how many groups a bar has a stronger inner point: in the middle of four, after three of five. */
function strongGroup(count: number): number | undefined {
  if (count === 5) return 3;
  if (count === 7) return 4;
  return count >= 4 && count % 2 === 0 ? count / 2 : undefined;
}

const isOne = ({ first, last }: Strongest): boolean => first === last;

/** What is left of a whole number when all its factors of two are divided out. */
export function oddPart(n: number): number {
  let odd = n;
  while (odd % 2 === 0) odd /= 2;
  return odd;
}

/** `late` is how much of a full bar a pickup leaves out at its start. */
export function gridOf(meter: Meter, events: readonly Timed[], late?: Fraction): Grid {
  let whole = lcm(128, late?.d ?? 1);
  for (const { onset, duration } of events) whole = lcm(lcm(whole, onset.d), duration.d);
  const ticks = (time: Fraction): number => (time.n * whole) / time.d;
  const length = (time: number): Fraction => fraction(time, whole);
  // Halves, quarters … of a whole note are the multiples of what is left when all its twos are gone.
  const finest = oddPart(whole);
  const shift = late ? ticks(late) : 0;
  const unit = whole / meter.unit;
  const binary = meter.unit <= 4;
  const firstStep = binary ? unit / 2 : unit;

  const groups = beatGroups(meter);
  const beats = [0];
  for (const group of groups) beats.push(lastOf(beats) + group * unit);
  const end = lastOf(beats);
  const middle = strongGroup(groups.length);
  const strong = middle === undefined ? undefined : beats[middle];

  const isPlain = (tick: number): boolean => tick % finest === 0;

  function beatAt(tick: number): number {
    let beat = 0;
    while (beat + 2 < beats.length && itemAt(beats, beat + 1) <= tick) beat++;
    return beat;
  }

  function beatAround(tick: number): TickRange {
    const beat = beatAt(tick);
    return { from: itemAt(beats, beat), to: itemAt(beats, beat + 1) };
  }

  function level(tick: number): number {
    if (tick === 0 || tick === end) return 0;
    if (tick === strong) return 1;
    const start = beatAround(tick).from;
    if (tick === start) return BEAT;
    let step = firstStep;
    for (let at = BEAT + 1; step >= finest; at++) {
      if ((tick - start) % step === 0) return at;
      step /= 2;
    }
    return Number.POSITIVE_INFINITY;
  }

  function strongest(from: number, to: number): Strongest | undefined {
    let best: Strongest | undefined;
    for (const at of beats) {
      if (at <= from || at >= to) continue;
      const own = level(at);
      if (!best || own < best.level) best = { level: own, first: at, last: at };
      else if (own === best.level) best = { ...best, last: at };
    }
    if (best) return best;
    const start = beatAround(from).from;
    let step = firstStep;
    for (let own = BEAT + 1; step >= finest; own++) {
      const first = start + (Math.floor((from - start) / step) + 1) * step;
      const last = start + (Math.ceil((to - start) / step) - 1) * step;
      if (first < to) return { level: own, first, last };
      step /= 2;
    }
    return undefined;
  }

  /** The longest undotted value of at most so many ticks. */
  function plainWithin(time: number): number {
    let plain = whole * 2;
    while (plain > time) plain /= 2;
    return plain;
  }

  function noteValue(time: number): NoteValue | undefined {
    const plain = plainWithin(time);
    if (plain === time) return { value: whole / plain, dots: 0 };
    return plain * 1.5 === time ? { value: whole / plain, dots: 1 } : undefined;
  }

  function longestWithin(time: number): number {
    const plain = plainWithin(time);
    return plain * 1.5 <= time ? plain * 1.5 : plain;
  }

  /**
   * Whether one note may stand for a stretch: it has a value, and hides no beat that a reader counts on. It may hide
   * what is weaker than its own start, and one point a step stronger: the quarter in eighth, quarter, eighth.
   */
  function noteFits(from: number, to: number): boolean {
    if (!noteValue(to - from)) return false;
    const inner = strongest(from, to);
    if (!inner) return true;
    const start = level(from);
    const finish = level(to);
    // Beats of three or of uneven length are never left or reached half way by a note that crosses one.
    if (!binary && inner.level <= BEAT && Math.max(start, finish) > BEAT) return false;
    return start <= inner.level || (isOne(inner) && Math.max(start, finish) - inner.level <= 1);
  }

  /** Whether one rest may stand for a stretch: a half bar, a beat, or an even part of a beat; dots only for beats of three. */
  function restFits(from: number, to: number): boolean {
    const value = noteValue(to - from);
    if (!value) return false;
    const inner = strongest(from, to);
    if (!inner) return true;
    if (inner.level <= BEAT) {
      const within = Math.max(level(from), level(to)) < inner.level && isOne(inner);
      return within && (value.dots === 0 || !binary);
    }
    const beat = beatAround(from);
    if (value.dots === 1) return !binary && from === beat.from && to === beat.to;
    return (from - beat.from) % (to - from) === 0;
  }

  return {
    whole,
    spans: events.map(({ onset, duration }) => ({
      from: shift + ticks(onset),
      to: shift + ticks(add(onset, duration)),
    })),
    length,
    onset: (tick) => length(tick - shift),
    isPlain,
    inFinest: (time) => time / finest,
    beatAt,
    beatAround,
    beat: itemAt(beats, 1) - itemAt(beats, 0),
    level,
    strongest,
    noteValue,
    longestWithin,
    noteFits,
    restFits,
  };
}
