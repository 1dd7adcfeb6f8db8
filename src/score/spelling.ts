/** What is on the staff: each note's spelled pitch, and the accidental it needs after the signature and the bar so far. */
import { signatureAlter } from '../harmony/key.ts';
import type { Pitch } from '../instrument/pitch.ts';
import type { Score, Sound } from './score.ts';

/** A note as the staff shows it. */
export interface StaffNote {
  /** The pitch as written: a tied note keeps the name it began with, whatever the chord of the moment would call it. */
  readonly pitch: Pitch;
  /** Half steps of the sign to print (0 is a natural), or undefined for none. */
  readonly accidental?: number;
}

/**
 * The staff's notes of every event, by the event's index (a rest has none). An accidental holds for its letter and
 * octave to the end of the bar. A note tied over a bar line takes none, and leaves none behind for the notes after it.
 */
export function staffNotes(score: Pick<Score, 'bars' | 'key'>): readonly (readonly StaffNote[])[] {
  const byEvent: StaffNote[][] = [];
  let held: readonly StaffNote[] = [];
  for (const bar of score.bars) {
    const signs = new Map<string, number>();
    for (const event of bar.events) {
      held = event.kind === 'rest' ? [] : event.tied ? tied(event, held) : attacked(event, score.key, signs);
      byEvent[event.index] = [...held];
    }
  }
  return byEvent;
}

function tied(event: Sound, held: readonly StaffNote[]): StaffNote[] {
  return event.notes.map(({ pitch }) => ({
    pitch: held.find((note) => note.pitch.midi === pitch.midi)?.pitch ?? pitch,
  }));
}

function attacked(event: Sound, key: Score['key'], signs: Map<string, number>): StaffNote[] {
  return event.notes.map(({ pitch }) => {
    const place = pitch.letter + pitch.octave;
    const sounding = signs.get(place) ?? signatureAlter(key, pitch.letter);
    if (sounding === pitch.alter) return { pitch };
    signs.set(place, pitch.alter);
    return { pitch, accidental: pitch.alter };
  });
}
