import { CONCERT_A, centsOf, EQUAL, frequencyOfMidi, type Pitching } from '../../instrument/temperament.ts';
import { holeNoteOf, type Playback } from '../../score/playback.ts';
import type { Pitches } from './reed.ts';

/** The frequencies of a block's notes on its harp. The band stays in equal temperament at the same concert pitch. */
export function pitchesOf(
  { harp }: Pick<Playback, 'harp'>,
  { concertA = CONCERT_A, temperament = EQUAL }: Pitching = {},
): Pitches {
  const ofMidi = (midi: number): number => frequencyOfMidi(midi, concertA);
  return {
    ofMidi,
    ofNote: (breath, note) => ofMidi(note.midi + centsOf(harp, breath, holeNoteOf(note), temperament) / 100),
  };
}
