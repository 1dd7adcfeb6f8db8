/** Which passage of a clip is on, and where it ends: cues follow one another, and each lasts to the next or to its own end. */

/** A cue as the page holds it. */
export interface CueOnPage {
  /** Seconds. */
  readonly at: number;
  readonly until?: number;
  readonly block: string;
  /** Indices of the block's bars, both included. */
  readonly first: number;
  readonly last: number;
}

/** The number of the cue whose passage holds a time; undefined before the first and after the end of one. */
export function passageAt(cues: readonly CueOnPage[], time: number): number | undefined {
  const index = cues.findLastIndex(({ at }) => at <= time);
  const cue = cues[index];
  return cue && (cue.until === undefined || time < cue.until) ? index : undefined;
}

/** Where a passage ends: at its own end, at the next cue that begins later, or with the recording. */
export function passageEnd(cues: readonly CueOnPage[], index: number, duration: number): number {
  const cue = cues[index];
  if (!cue) return duration;
  const next = cues.find(({ at }) => at > cue.at)?.at;
  return Math.min(cue.until ?? Number.POSITIVE_INFINITY, next ?? duration);
}
