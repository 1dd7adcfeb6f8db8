/** Turns a cue into sound. */
import type { Cue } from '../schedule/cue.ts';
import { soundBass, soundChord, soundHit } from './band.ts';
import type { MixingDesk } from './mixing-desk.ts';
import { type Pitches, soundLine } from './reed.ts';
import type { Voice } from './voice.ts';

/** Schedules a cue to sound at a time of the context's clock. */
export function sound(studio: MixingDesk, cue: Cue, at: number, pitches: Pitches): Voice {
  switch (cue.kind) {
    case 'line':
      return soundLine(studio, cue, at, pitches);
    case 'bass':
      return soundBass(studio, cue, at, pitches);
    case 'chord':
      return soundChord(studio, cue, at, pitches);
    case 'hit':
      return soundHit(studio, cue, at);
  }
}
