/**
 * Waits for the sound device. A browser may take seconds to wake it, an idle sound server or wireless headphones most; until it runs, nothing
 * is heard of what is played, so playing starts when it does.
 */

/** Milliseconds that a device may take to wake before the page says that nothing is heard. */
export const WAKE_UP_TIME = 3000;

/** What is done when the device wakes or falls asleep. */
export interface WakingActions {
  readonly play: () => void;
  /** The device fell asleep while something may be playing. */
  readonly interrupted: () => void;
  /** `on` while the page says that nothing is heard. */
  readonly complain: (on: boolean) => void;
}

/** Playing that waits for its device. */
export interface Waking {
  /** Plays at once, or as soon as the device runs. */
  readonly start: () => void;
  /** Waits no more. */
  readonly cancel: () => void;
  /** Whether it waits and has not complained yet. */
  readonly waits: () => boolean;
}

/** Follows the state of an audio context until `signal` ends it. */
export function createWaking(
  context: Pick<AudioContext, 'state' | 'addEventListener'>,
  { play, interrupted, complain }: WakingActions,
  signal: AbortSignal,
): Waking {
  let asked = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function cancel(): void {
    clearTimeout(timer);
    timer = undefined;
    asked = false;
    complain(false);
  }

  function start(): void {
    cancel();
    if (context.state === 'running') {
      play();
      return;
    }
    asked = true;
    timer = setTimeout(() => {
      timer = undefined;
      complain(true);
    }, WAKE_UP_TIME);
  }

  context.addEventListener(
    'statechange',
    () => {
      if (context.state !== 'running') {
        if (!asked) interrupted();
        return;
      }
      const late = asked;
      cancel();
      if (late) play();
    },
    { signal },
  );
  signal.addEventListener('abort', cancel);
  return { start, cancel, waits: () => timer !== undefined };
}
