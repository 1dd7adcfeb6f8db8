/** Repeats and endings: which bars each ending takes, and whether every one has its other end. */
import type { Diagnostic } from '../../diagnostics/diagnostic.ts';
import { itemAt } from '../../values/checked.ts';
import type { DraftBar } from '../bars.ts';
import { report } from '../problems.ts';
import type { EndingMisplaced } from './jump-problems.ts';

/** Says which bars each ending takes, and that every ending and repeat has its other end; then numbers the bars. */
export function closeRepeats(bars: readonly DraftBar[], hasPickup: boolean, diagnostics: Diagnostic[]): void {
  let firstFrom = 0;
  let firstCount = 0;
  /** The times for which the repeat has endings so far. */
  let passes = new Set<number>();
  /** Bars whose endings are part of a mistake that has been reported. */
  const misplaced = new Set<number>();
  bars.forEach((bar, index) => {
    if (bar.repeatStart && !endsBeforeNextStart(bars, index)) diagnostics.push(report('repeat-unclosed', bar.span, {}));
    const { opens } = bar;
    if (opens === undefined) return;
    const isFirst = opens.includes(1);
    if (isFirst) passes = new Set();
    const before = bars[index - 1];
    const follows = before?.repeatEnd && before.endings !== undefined && opens[0] === firstWithout(passes);
    const belongs = isFirst || (follows && !opens.some((pass) => passes.has(pass)));
    const run = belongs ? endingRun(bars, index, isFirst ? undefined : firstCount) : undefined;
    if (run === undefined) {
      const others = endingsBehind(bars, index);
      const why: EndingMisplaced =
        isFirst && others.length > 0
          ? 'open'
          : isWrongOrder(opens, others)
            ? 'order'
            : before?.repeatEnd && before.endings !== undefined && Math.min(...opens) > firstWithout(passes)
              ? 'gap'
              : 'alone';
      if (!misplaced.has(index)) diagnostics.push(report('ending-misplaced', bar.span, { endings: opens, why }));
      if (why === 'open' || why === 'order') for (const other of others) misplaced.add(other.at);
      return;
    }
    if (isFirst) [firstFrom, firstCount] = [index, run];
    for (const pass of opens) passes.add(pass);
    for (let i = index; i < index + run; i++) itemAt(bars, i).endings = opens;
    const missing = firstWithout(passes);
    if (bars[index + run]?.opens === undefined && missing < Math.max(...passes))
      diagnostics.push(report('ending-missing', bar.span, { missing }));
  });
  for (const { times, endings, span } of bars)
    if (times !== undefined && endings) diagnostics.push(report('times-with-endings', span, { times }));
  let number = hasPickup ? 0 : 1;
  bars.forEach((bar, index) => {
    const isFirst = bar.opens?.includes(1);
    if (isFirst === false) number = bars[firstFrom]?.number ?? number;
    bar.number = number;
    if (isFirst) firstFrom = index;
    number++;
  });
}

/** An ending, and the bar that opens it. */
interface OpenEnding {
  readonly at: number;
  readonly opens: readonly number[];
}

/** The endings behind that of a bar, up to the next sign at which a repeat starts. */
function endingsBehind(bars: readonly DraftBar[], index: number): OpenEnding[] {
  const found: OpenEnding[] = [];
  for (let at = index + 1; at < bars.length && !bars[at]?.repeatStart && found.length < MOST_ENDINGS; at++) {
    const opens = bars[at]?.opens;
    if (opens) found.push({ at, opens });
  }
  return found;
}

/** A repeat has no more than this. */
const MOST_ENDINGS = 9;

/** Whether the next ending is for an earlier time, and does not begin the endings of another repeat. */
function isWrongOrder(opens: readonly number[], [next, then]: readonly OpenEnding[]): boolean {
  const first = next && Math.min(...next.opens);
  return first !== undefined && first < Math.min(...opens) && !(then && Math.min(...then.opens) > first);
}

/** The first time through a repeat that has no ending yet. */
function firstWithout(passes: ReadonlySet<number>): number {
  let pass = 1;
  while (passes.has(pass)) pass++;
  return pass;
}

function endsBeforeNextStart(bars: readonly DraftBar[], start: number): boolean {
  for (let i = start; i < bars.length; i++) {
    if (i > start && bars[i]?.repeatStart) return false;
    if (bars[i]?.repeatEnd) return true;
  }
  return false;
}

/**
 * How many bars an ending takes. The first one (`like` undefined) leads up to its repeat sign; the others too, or to a
 * closing line, or else are as long as the first. Undefined for a first ending without a repeat sign.
 */
function endingRun(bars: readonly DraftBar[], index: number, like: number | undefined): number | undefined {
  for (let i = index; i < bars.length; i++) {
    const bar = itemAt(bars, i);
    if (i > index && (bar.opens !== undefined || bar.repeatStart)) return like === undefined ? undefined : i - index;
    if (bar.repeatEnd || (like !== undefined && bar.close)) return i - index + 1;
    if (like !== undefined && i - index + 1 === like && !leadsToRepeat(bars, i + 1)) return like;
  }
  return like === undefined ? undefined : bars.length - index;
}

function leadsToRepeat(bars: readonly DraftBar[], from: number): boolean {
  for (let i = from; i < bars.length; i++) {
    const bar = itemAt(bars, i);
    if (bar.opens !== undefined || bar.repeatStart || bar.close) return false;
    if (bar.repeatEnd) return bars[i + 1]?.opens !== undefined;
  }
  return false;
}
