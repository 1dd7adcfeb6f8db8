/** A tempo that is tapped. */

/** Milliseconds after which a tap begins a new count. */
const LONGEST_BEAT = 2500;
/** As many beats are averaged: a tempo that changes is followed, and one late tap changes little. */
const BEATS = 4;

/** Hears the times of taps, in milliseconds, and gives beats a minute from the second tap on. */
export function createTapTempo(): (time: number) => number | undefined {
  let taps: number[] = [];
  return (time) => {
    const last = taps.at(-1);
    if (last !== undefined && time - last > LONGEST_BEAT) taps = [];
    taps = [...taps.slice(-BEATS), time];
    const [first = time] = taps;
    return taps.length < 2 || time === first ? undefined : Math.round((60_000 * (taps.length - 1)) / (time - first));
  };
}
