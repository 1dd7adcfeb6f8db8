/**
 * Which passages of a clip are on, and where each ends: at its own end, or where the next begins. Those with an end of
 * their own may overlap, and several may begin at one time.
 */

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

/** The numbers of the cues whose passages hold a time. */
export const passagesAt = (cues: readonly CueOnPage[], time: number): readonly number[] =>
  cues.flatMap(({ at }, index) => (at <= time && time < passageEnd(cues, index) ? [index] : []));

/** Where a passage ends; infinity for one that goes on to the recording's end. */
export function passageEnd(cues: readonly CueOnPage[], index: number): number {
  const cue = cues[index];
  return cue?.until ?? cues.find(({ at }) => cue && at > cue.at)?.at ?? Number.POSITIVE_INFINITY;
}
