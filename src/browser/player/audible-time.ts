/** What leaves the loudspeaker at this moment, as a time of the context's clock in seconds. */

/** Seconds: an output timestamp that is further behind the context's clock is not of this device's buffer. */
const LONGEST_DELAY = 2;

/**
 * The clock itself continues by a whole buffer at a time, a twentieth of a second or more, and is ahead of what is heard; its
 * output timestamp says when a sample of it was heard, and the time since then is what the page's own clock says.
 *
 * Not every browser's timestamp means that. WebKit adds the context's time to the page's clock; others report the context's clock
 * itself as heard, or zero before the first sound. Where it cannot be right, the clock and the latency have to do.
 */
export function audibleTimeOf(
  context: Pick<AudioContext, 'currentTime' | 'outputLatency' | 'baseLatency' | 'getOutputTimestamp'>,
  now: number = performance.now(),
): number {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp?.() ?? {};
  const { currentTime } = context;
  const behind = currentTime - contextTime;
  const isSound =
    contextTime > 0 && performanceTime > 0 && performanceTime <= now && behind > 0 && behind < LONGEST_DELAY;
  if (!isSound) return currentTime - (context.outputLatency || context.baseLatency || 0);
  // Nothing is heard that has not been made: in a context that sleeps, both its clocks are stopped.
  return Math.min(currentTime, contextTime + (now - performanceTime) / 1000);
}
