import { CONCERT_A, centsOfMidi, EQUAL, frequencyOfMidi, type Pitching } from '../../instrument/temperament.ts';
import type { Playback } from '../../score/playback.ts';
import type { Pitches } from './reed.ts';

/**
 * The frequencies of a block's notes on its harp. The band stays in equal temperament at the same concert pitch, as any
 * band does that a harp of whatever temperament joins (common practice, no source): a justly tuned harp's own chords
 * are still without beats, and against the band it lies where it would lie on a stage.
 */
export function pitchesOf(
  { harp }: Pick<Playback, 'harp'>,
  { concertA = CONCERT_A, temperament = EQUAL }: Pitching = {},
): Pitches {
  const ofMidi = (midi: number): number => frequencyOfMidi(midi, concertA);
  return {
    ofMidi,
    ofNote: (breath, note) => ofMidi(note.midi + centsOfMidi(harp, breath, note, temperament) / 100),
  };
}
