/** Sound that is made as fast as the machine can, for a file instead of a loudspeaker. */
import type { Cue } from '../../schedule/cue.ts';
import { itemAt } from '../../values/checked.ts';
import type { MixingDesk } from './mixing-desk.ts';
import type { Pitches } from './reed.ts';
import { sound } from './sound.ts';

/** Samples a second. */
export const OFFLINE_RATE = 48_000;

/** A context with one channel for so many seconds. */
export const offlineContext = (seconds: number): OfflineAudioContext =>
  new OfflineAudioContext(1, Math.ceil(seconds * OFFLINE_RATE), OFFLINE_RATE);

/** Sounds cues on the desk of an offline context, `at` seconds from its start. Call before the context is rendered. */
export function soundOffline(
  context: OfflineAudioContext,
  desk: MixingDesk,
  cues: readonly { readonly cue: Cue; readonly at: number }[],
  pitches: Pitches,
): void {
  let given = 0;
  // As in real time, a little is scheduled at a time: thousands of voices waiting at once would cost minutes.
  const give = (until: number): void => {
    for (; given < cues.length && (cues[given]?.at ?? 0) < until; given++) {
      const { cue, at } = itemAt(cues, given);
      sound(desk, cue, at, pitches);
    }
  };
  give(2);
  for (let second = 1; second < context.length / context.sampleRate; second++) {
    void context.suspend(second).then(() => {
      give(second + 2);
      void context.resume();
    });
  }
}
