/** Turns a cue into sound. */
import type { Cue } from '../../schedule/cue.ts';
import { soundBass, soundChord, soundHit } from './band.ts';
import type { MixingDesk } from './mixing-desk.ts';
import { type Pitches, soundLine } from './reed.ts';
import type { Voice } from './voice.ts';

/** Schedules a cue to sound at a time of the context's clock. */
export function sound(desk: MixingDesk, cue: Cue, at: number, pitches: Pitches): Voice {
  switch (cue.kind) {
    case 'line':
      return soundLine(desk, cue, at, pitches);
    case 'bass':
      return soundBass(desk, cue, at, pitches);
    case 'chord':
      return soundChord(desk, cue, at, pitches);
    case 'hit':
      return soundHit(desk, cue, at);
  }
}
