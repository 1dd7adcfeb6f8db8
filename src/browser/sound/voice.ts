/** A sound that has been scheduled and can still be called off. */
export interface Voice {
  /** When it will have ended by itself. */
  readonly until: number;
  /** Ends it at a time, at once if need be; the gate has faded it out before. */
  readonly stop: (at: number) => void;
}

/** A voice made of sources that all stop together, and of nodes that are unplugged when the first of them has ended. */
export function voiceOf(
  sources: readonly AudioScheduledSourceNode[],
  nodes: readonly AudioNode[],
  until: number,
): Voice {
  const first = sources[0];
  if (first) {
    first.onended = () => {
      for (const node of [...sources, ...nodes]) node.disconnect();
    };
  }
  for (const source of sources) source.stop(until);
  return {
    until,
    stop: (at) => {
      for (const source of sources) source.stop(at);
    },
  };
}
