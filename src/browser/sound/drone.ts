/** A held chord or single note to bend against, until it is changed or stopped. */
import { gainOf, type MixingDesk } from './mixing-desk.ts';

/** Notes held until they are changed or stopped. */
export interface Drone {
  /** Changes to these frequencies; none stops it. */
  readonly hold: (hertz: readonly number[]) => void;
}

/** Seconds of the change from one chord to the next. */
const DRONE_CROSSFADE = 0.12;

/** A drone on a mixing desk. */
export function createDrone(desk: MixingDesk): Drone {
  let hush: (() => void) | undefined;
  return {
    hold: (hertz) => {
      hush?.();
      hush = hertz.length > 0 ? start(desk, hertz) : undefined;
    },
  };
}

function start({ context, input, waves }: MixingDesk, hertz: readonly number[]): () => void {
  const now = context.currentTime;
  const loudness = gainOf(context, 0, input.drone);
  loudness.gain.setTargetAtTime(1 / Math.sqrt(hertz.length), now, DRONE_CROSSFADE / 3);
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
    loudness.gain.setTargetAtTime(0, end, DRONE_CROSSFADE / 4);
    for (const reed of reeds) {
      reed.stop(end + 2 * DRONE_CROSSFADE);
      reed.onended = () => {
        reed.disconnect();
        loudness.disconnect();
      };
    }
  };
}
