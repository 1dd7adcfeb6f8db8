/** Written time that passes faster or slower, and waits: ticks of a bar as seconds and back. */

/** How fast the ticks of a bar pass at its start and at its end, in ticks a second, evenly between them; and where time waits. */
export interface BarPace {
  readonly ticks: number;
  readonly from: number;
  readonly to: number;
  /** In order of time; both in ticks. */
  readonly waits: readonly { readonly at: number; readonly length: number }[];
}

/** Seconds from the bar's start to a tick. What ends at a wait lasts through it, and what begins there comes after it. */
export const secondsTo = (pace: BarPace, tick: number): number =>
  flowing(pace, tick) +
  pace.waits.reduce((sum, wait) => (wait.at <= tick + NEAR ? sum + secondsOfWait(pace, wait) : sum), 0);

/** The tick at a time from the bar's start: the inverse of {@link secondsTo}. */
export function tickAfter(pace: BarPace, seconds: number): number {
  let left = seconds;
  for (const wait of pace.waits) {
    const at = flowing(pace, wait.at);
    if (left <= at) break;
    // Within the wait, time stands still.
    left = Math.max(at, left - secondsOfWait(pace, wait));
  }
  const { ticks, from, to } = pace;
  const rate = (to - from) / ticks;
  return rate === 0 || ticks === 0 ? left * from : (from / rate) * Math.expm1(rate * left);
}

/** Rounding of places that swing. */
const NEAR = 1e-6;

/** Seconds of a wait: as long as its ticks take at the tempo where it is. */
const secondsOfWait = ({ ticks, from, to }: BarPace, { at, length }: BarPace['waits'][number]): number =>
  length / (ticks === 0 ? from : from + ((to - from) * at) / ticks);

/** Seconds without waits: the rate changes evenly with the ticks, so the time is a logarithm of it. */
function flowing({ ticks, from, to }: BarPace, tick: number): number {
  const rate = (to - from) / ticks;
  return rate === 0 || ticks === 0 ? tick / from : Math.log1p((rate * tick) / from) / rate;
}
