/** What leaves the loudspeaker at this moment, as a time of the context's clock in seconds. */

/**
 * The clock itself continues by a whole buffer at a time, a twentieth of a second or more, and is ahead of what is heard; its
 * output timestamp says when a sample of it was heard, and the time since then is what the page's own clock says.
 */
export function audibleTimeOf(
  context: Pick<AudioContext, 'currentTime' | 'outputLatency' | 'baseLatency' | 'getOutputTimestamp'>,
  now: number = performance.now(),
): number {
  const { contextTime, performanceTime } = context.getOutputTimestamp?.() ?? {};
  // Zero before the first sound, and in browsers that do not know.
  if (!contextTime || !performanceTime) {
    return context.currentTime - (context.outputLatency || context.baseLatency || 0);
  }
  // Nothing is heard that has not been made: in a context that sleeps, both its clocks are stopped.
  return Math.min(context.currentTime, contextTime + (now - performanceTime) / 1000);
}
