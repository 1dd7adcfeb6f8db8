/** Numbers of General MIDI. Source: “General MIDI System Level 1”, MIDI Manufacturers Association, 1991; counted from 0. */
import type { Piece } from '../../schedule/cue.ts';

/** Programs, one for each part. */
export const PROGRAMS = { harmonica: 22, bass: 33, chords: 26 } as const;

/** The channel of percussion. */
export const PERCUSSION = 9;

/** Keys of the percussion map. The metronome's clicks are in no file. */
export const DRUMS: Readonly<Partial<Record<Piece, number>>> = { kick: 36, snare: 38, stick: 37, hat: 42, ride: 51 };

/** Controllers. */
export const CONTROLLERS = {
  modulation: 1,
  dataEntry: 6,
  dataEntryFine: 38,
  parameterFine: 100,
  parameter: 101,
} as const;
