/** The page's audio context. It is created in the click that asks for sound, as browsers require. */
let context: AudioContext | undefined;

declare global {
  interface Navigator {
    /** Of some browsers. */
    readonly audioSession?: { type: string };
  }
}

/** Seconds: short enough for a note that is pressed, and half the processor time of the shortest setting. */
const LATENCY = 0.05;

/**
 * Makes or wakes the page's audio context; undefined where the browser cannot make sound, or has given all it can to other pages.
 * Call it in a click's handler.
 */
export function wakeSound(): AudioContext | undefined {
  if (!context || context.state === 'closed') {
    try {
      // Otherwise a phone's mute switch silences a page's sound, though not its videos.
      if (navigator.audioSession) navigator.audioSession.type = 'playback';
      context = new AudioContext({ latencyHint: LATENCY });
    } catch {
      return undefined;
    }
  }
  // A browser that does not allow sound yet leaves the promise pending; the player looks at the state instead.
  if (context.state !== 'running') context.resume().catch(() => {});
  return context;
}
