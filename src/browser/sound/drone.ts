/** A held chord or single note to bend against, continuing until it is changed or hushed. */
import { gainOf, type Studio } from './mixing-desk.ts';

export interface Drone {
  /** Changes over to these frequencies; none hushes it. */
  readonly hold: (hertz: readonly number[]) => void;
}

/** Seconds of the change from one chord to the next. */
const CHANGE = 0.12;

export function createDrone(studio: Studio): Drone {
  let hush: (() => void) | undefined;
  return {
    hold: (hertz) => {
      hush?.();
      hush = hertz.length > 0 ? start(studio, hertz) : undefined;
    },
  };
}

function start({ context, input, waves }: Studio, hertz: readonly number[]): () => void {
  const now = context.currentTime;
  const loudness = gainOf(context, 0, input.drone);
  loudness.gain.setTargetAtTime(1 / Math.sqrt(hertz.length), now, CHANGE / 3);
  const reeds = hertz.map((frequency) => {
    const reed = context.createOscillator();
    reed.setPeriodicWave(waves.drone);
    reed.frequency.value = frequency;
    reed.connect(loudness);
    reed.start();
    return reed;
  });
  return () => {
    const end = context.currentTime;
    loudness.gain.cancelScheduledValues(end);
    loudness.gain.setTargetAtTime(0, end, CHANGE / 4);
    for (const reed of reeds) {
      reed.stop(end + 2 * CHANGE);
      reed.onended = () => {
        reed.disconnect();
        loudness.disconnect();
      };
    }
  };
}
