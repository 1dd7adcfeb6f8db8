/** What the transport plays on: a studio, on its context's clock. */

import type { MixingDesk } from './sound/mixing-desk.ts';
import type { Pitches } from './sound/reed.ts';
import { sound } from './sound/sound.ts';
import { type AudioOutput, TICK } from './transport.ts';

/** `pitches` are asked for with each cue, since the student may take another harp. */
export const audioOutputOf = (studio: MixingDesk, pitches: () => Pitches): AudioOutput => ({
  now: () => studio.context.currentTime,
  sound: (cue, at) => sound(studio, cue, at, pitches()),
  shut: studio.shut,
  open: studio.open,
  tick: (call) => {
    const timer = setInterval(call, TICK);
    return () => clearInterval(timer);
  },
});
