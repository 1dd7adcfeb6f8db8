/** The order in which the bars of a score are played: repeats and endings written out. */
import { compare } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { isSameEnding } from './queries.ts';
import type { Bar } from './score.ts';
import { withVerses } from './verses.ts';

type Playable = Pick<Bar, 'repeatStart' | 'repeatEnd' | 'times' | 'endings' | 'length'>;

/**
 * Indices into `score.bars`, in playing order. A repeat is played twice, or as often as its sign or its endings say.
 * A repeat end without a start goes back to the last repeat's end, or to the first full bar; to the pickup, where the bar of
 * the repeat end is the shorter for it.
 */
export function playOrder(score: { readonly bars: readonly Playable[]; readonly pickup?: unknown }): number[] {
  return runsOf(score).flatMap(({ passes }) => passes.flat());
}

/** For each bar of {@link playOrder}, which time through its repeat it is played in: from 1, and 1 outside of repeats. */
export function passesOf(score: { readonly bars: readonly Playable[]; readonly pickup?: unknown }): number[] {
  return runsOf(score).flatMap(({ passes }) => passes.flatMap((bars, index) => bars.map(() => index + 1)));
}

/**
 * The bars with every repeat that is played more than twice as one that is played twice, and its further times written out: for formats
 * without a sign for it.
 */
export function withRepeatsOfTwo(score: { readonly bars: readonly Bar[]; readonly pickup?: unknown }): Bar[] {
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
  const order = playOrder(score);
  // Playing goes back only where a section begins again.
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
