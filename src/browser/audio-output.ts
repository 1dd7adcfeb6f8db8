/** What the transport plays on: the mixing desk, on its audio context's clock. */
import type { MixingDesk } from './sound/mixing-desk.ts';
import type { Pitches } from './sound/reed.ts';
import { sound } from './sound/sound.ts';
import { type AudioOutput, TICK } from './transport.ts';

/** `pitches` are asked for with each cue, since the student may take another harp. */
export const audioOutputOf = (desk: MixingDesk, pitches: () => Pitches): AudioOutput => ({
  now: () => desk.context.currentTime,
  sound: (cue, at) => sound(desk, cue, at, pitches()),
  shut: desk.shut,
  open: desk.open,
  tick: (call) => {
    const timer = setInterval(call, TICK);
    return () => clearInterval(timer);
  },
});
