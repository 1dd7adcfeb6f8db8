/** The order in which the bars of a score are played: repeats, endings and jumps written out. */
import { compare } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { isJumpBack } from './jump.ts';
import { isSameEnding } from './queries.ts';
import type { Bar } from './score.ts';
import { withVerses } from './verses.ts';

type Playable = Pick<Bar, 'repeatStart' | 'repeatEnd' | 'times' | 'endings' | 'length' | 'target' | 'jump'>;

/**
 * Indices into `score.bars`, in playing order. A repeat is played twice, or as often as its sign or its endings say.
 * A repeat end without a start goes back to the last repeat's end, or to the first full bar; to the pickup, where the bar of
 * the repeat end is the shorter for it.
 *
 * A jump back is taken once, after all repeats before it. From then on no repeat is taken and of endings the last one is played
 * (common practice, no source), up to `fine`, or from `to-coda` to the coda and its end. `D.C.` goes back to the pickup as a repeat does.
 */
export function playOrder(score: { readonly bars: readonly Playable[]; readonly pickup?: unknown }): number[] {
  const runs = runsOf(score);
  const order = orderOf(runs);
  const jump = score.bars.findIndex((bar) => isJumpBack(bar.jump));
  const last = order.lastIndexOf(jump);
  return last === -1 ? order : [...order.slice(0, last + 1), ...orderAfterJump(score, runs, jump)];
}

/** The order of repeats and endings alone. */
const orderOf = (runs: readonly Run[]): number[] => runs.flatMap(({ passes }) => passes.flat());

/** The bars of the last time through each repeat: what is played where no repeat is taken. */
const playedOnce = (runs: readonly Run[]): number[] =>
  runs.flatMap(({ from, passes }) => (passes.at(-1) ?? []).filter((index) => index >= from));

/** What is played behind the jump back of a bar. */
function orderAfterJump(
  { bars, pickup }: { readonly bars: readonly Playable[]; readonly pickup?: unknown },
  runs: readonly Run[],
  jump: number,
): number[] {
  const once = playedOnce(runs);
  const from = itemAt(bars, jump);
  const [, full] = bars;
  const start =
    from.jump === 'D.S.'
      ? bars.findIndex(({ target }) => target === 'segno')
      : pickup && full && !isShorter(from, full)
        ? 1
        : 0;
  const coda = bars.findIndex(({ target }) => target === 'coda');
  const again = once.filter((index) => index >= start);
  const leaves = again.findIndex((index) => coda !== -1 && itemAt(bars, index).jump === 'to-coda');
  const played = leaves === -1 ? again : [...again.slice(0, leaves + 1), ...once.filter((index) => index >= coda)];
  const end = played.findIndex((index) => itemAt(bars, index).jump === 'fine');
  return end === -1 ? played : played.slice(0, end + 1);
}

/** What of its jumps a score has to say clearly. */
export interface JumpPlaces {
  /** The last bars of repeats, and all bars that are in none: behind them nothing is left to be repeated. */
  readonly repeatsDone: ReadonlySet<number>;
  /** The bars that are played where no repeat is taken. */
  readonly playedOnce: ReadonlySet<number>;
  /** The bars behind the jump back, in playing order. */
  readonly afterJump: readonly number[];
}

/** Where jumps of a score may be, and what is played behind the jump back at the end of bar `jump`. */
export function jumpPlaces(
  score: { readonly bars: readonly Playable[]; readonly pickup?: unknown },
  jump: number,
): JumpPlaces {
  const runs = runsOf(score);
  return {
    repeatsDone: new Set(runs.map(({ to }) => to - 1)),
    playedOnce: new Set(playedOnce(runs)),
    afterJump: orderAfterJump(score, runs, jump),
  };
}

/**
 * For each bar of {@link playOrder}, which time through its repeat it is played in, from 1. Behind a jump that is the last one; a bar
 * outside of repeats is played for the second time there, if it was played before.
 */
export function passesOf(score: { readonly bars: readonly Playable[]; readonly pickup?: unknown }): number[] {
  const runs = runsOf(score);
  const passes = runs.flatMap(({ passes: times }) => times.flatMap((bars, index) => bars.map(() => index + 1)));
  const order = playOrder(score);
  const jump = score.bars.findIndex((bar) => isJumpBack(bar.jump));
  const until = jump === -1 ? order.length : orderOf(runs).lastIndexOf(jump) + 1;
  const before = new Set(order.slice(0, until));
  const again = order.slice(until).map((index) => {
    const run = runs.find(({ from, to }) => index >= from && index < to);
    const times = run?.passes.length ?? 1;
    return times > 1 ? times : before.has(index) ? 2 : 1;
  });
  return [...passes.slice(0, until), ...again];
}

/**
 * The bars with every repeat that is played more than twice as one that is played twice, and its further times written out: for formats
 * without a sign for it.
 */
export function withRepeatsOfTwo(score: { readonly bars: readonly Bar[]; readonly pickup?: unknown }): Bar[] {
  // Behind a jump no repeat is taken, but what is written out would be played.
  if (score.bars.some(({ jump }) => isJumpBack(jump)) && score.bars.some(({ times }) => times !== undefined))
    return writtenOut(score);
  const bars = runsOf(score).flatMap(({ from, to, passes }): Bar[] => {
    // What is written out before a repeat would be repeated with it, if it had no sign at its start.
    const isLater = passes.length > 1 && from > (score.pickup ? 1 : 0);
    const written = score.bars
      .slice(from, to)
      .map((bar, index) => (isLater && index === 0 ? { ...bar, repeatStart: true } : bar));
    if (written.every(({ times }) => times === undefined)) return written;
    const twice = written.map(({ times: _, ...bar }) => withVerses(bar, [1, 2]));
    const again = passes.slice(2).flatMap((pass, number) =>
      pass.map((index): Bar => {
        const { times: _, part: __, direction: ___, ...bar } = itemAt(score.bars, index);
        return { ...withVerses(bar, [number + 3]), repeatStart: false, repeatEnd: false };
      }),
    );
    return [...twice, ...again];
  });
  return bars.map((bar, index) => ({ ...bar, index }));
}

/**
 * The bars with a D.C. that leaves the pickup out as a D.S. from the first full bar, for other programs: these play a pickup again
 * after D.C.
 */
export function withPickupOnce(score: { readonly bars: readonly Bar[]; readonly pickup?: unknown }): readonly Bar[] {
  const { bars, pickup } = score;
  const jump = bars.findIndex((bar) => bar.jump === 'D.C.');
  if (!pickup || jump === -1 || jumpPlaces(score, jump).afterJump[0] === 0) return bars;
  return bars.map((bar, index): Bar => {
    const marked: Bar = index === 1 ? { ...bar, target: 'segno' } : bar;
    return index === jump ? { ...marked, jump: 'D.S.' } : marked;
  });
}

/** The bars in the order they are played, without any repeats, endings and jumps. A part begins where it is met first. */
export function writtenOut(score: { readonly bars: readonly Bar[]; readonly pickup?: unknown }): Bar[] {
  const met = new Set<number>();
  return playOrder(score).map((played, index): Bar => {
    const {
      times: _,
      endings: __,
      target: ___,
      jump: ____,
      repeatsLast: _____,
      part,
      direction,
      ...bar
    } = itemAt(score.bars, played);
    const first = met.has(played) ? {} : { ...(part && { part }), ...(direction && { direction }) };
    met.add(played);
    return { ...bar, ...first, index, repeatStart: false, repeatEnd: false };
  });
}

/** Bars that are written one after another, and what is played of them each time. */
interface Run {
  readonly from: number;
  readonly to: number;
  readonly passes: readonly (readonly number[])[];
}

/** A score's bars, each alone or with those of its repeat. */
function runsOf(score: { readonly bars: readonly Playable[]; readonly pickup?: unknown }): Run[] {
  const { bars } = score;
  const runs: Run[] = [];
  let start = score.pickup ? 1 : 0;
  let index = 0;
  while (index < bars.length) {
    const section = sectionFrom(bars, index, start);
    if (!section) {
      runs.push({ from: index, to: index + 1, passes: [[index]] });
      index++;
      continue;
    }
    const passes: number[][] = [];
    for (let pass = 1; pass <= section.passes; pass++) {
      const last = passes.at(-1)?.at(-1);
      const played: number[] = [];
      if (last !== undefined && section.implicit && start === 1 && isShorter(itemAt(bars, last), itemAt(bars, 1)))
        played.push(0);
      for (let i = section.start; i < section.end; i++) {
        const { endings } = itemAt(bars, i);
        if (!endings || endings.includes(pass)) played.push(i);
      }
      passes.push(played);
    }
    runs.push({ from: section.start, to: section.end, passes });
    index = section.end;
    start = section.end;
  }
  return runs;
}

/** Indices of the bars that repeats go back to, with and without a repeat sign at their start. */
export function repeatStarts(score: {
  readonly bars: readonly Playable[];
  readonly pickup?: unknown;
}): ReadonlySet<number> {
  const order = orderOf(runsOf(score));
  // Repeats go back only where a section begins again.
  return new Set(order.filter((bar, place) => place > 0 && bar <= (order[place - 1] ?? 0)));
}

const isShorter = (bar: Playable, other: Playable): boolean => compare(bar.length, other.length) < 0;

interface Section {
  readonly start: number;
  /** Without a repeat sign at its start. */
  readonly implicit: boolean;
  /** Past the last bar of the last ending. */
  readonly end: number;
  readonly passes: number;
}

/** The repeated section that begins at `index` (or, reached at its end, the one that goes back to `start`). */
function sectionFrom(bars: readonly Playable[], index: number, start: number): Section | undefined {
  const from = itemAt(bars, index).repeatStart ? index : index === start ? start : undefined;
  if (from === undefined) return undefined;
  let end = from;
  while (end < bars.length && !itemAt(bars, end).repeatEnd) {
    end++;
    if (bars[end]?.repeatStart) return undefined;
  }
  if (end >= bars.length) return undefined;
  const { endings, times = 2 } = itemAt(bars, end);
  const passes = new Set(endings);
  end++;
  const implicit = !itemAt(bars, from).repeatStart;
  // An ending for a time that another one has is of the next repeat.
  while (
    passes.size > 0 &&
    bars[end]?.endings &&
    (isSameEnding(bars[end - 1], bars[end]) || !bars[end]?.endings?.some((pass) => passes.has(pass)))
  ) {
    for (const pass of bars[end]?.endings ?? []) passes.add(pass);
    end++;
  }
  return { start: from, implicit, end, passes: Math.max(times, ...passes) };
}
