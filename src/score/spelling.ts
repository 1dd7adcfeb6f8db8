/** What is on the staff: each note's spelled pitch, and the accidental it needs after the signature and the bar so far. */
import { signatureAlter } from '../harmony/key.ts';
import { spell } from '../harmony/role.ts';
import type { Pitch } from '../instrument/pitch.ts';
import { graceAmong } from './mark.ts';
import { chordAt, midiOfGrace } from './queries.ts';
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
 * octave to the end of the bar. A note tied over a bar line takes none; where the signature has another form of it, the next
 * note of its letter and octave shows its own sign, since a reader could take either.
 */
export const staffNotes = (score: Written): readonly (readonly StaffNote[])[] => onStaff(score).staff;

/** All notes of the staff. */
export interface OnStaff {
  /** As {@link staffNotes}. */
  readonly staff: readonly (readonly StaffNote[])[];
  /** The grace notes, by the index of the event they are before. */
  readonly graces: ReadonlyMap<number, StaffNote>;
}

type Written = Pick<Score, 'bars' | 'harp'>;

/** The staff's notes with the grace notes, whose accidentals hold for the notes after them. */
export function onStaff(score: Written): OnStaff {
  const byEvent: StaffNote[][] = [];
  const graces = new Map<number, StaffNote>();
  let held: readonly StaffNote[] = [];
  for (const bar of score.bars) {
    const signs: Signs = new Map();
    for (const event of bar.events) {
      const small = event.kind === 'sound' && !event.tied ? graceAmong(event.marks) : undefined;
      if (small) {
        const chord = chordAt(bar, event.onset);
        const pitch = spell(midiOfGrace(score.harp, small), chord, bar.key);
        graces.set(event.index, shown(pitch, bar.key, signs));
      }
      held =
        event.kind === 'rest' ? [] : event.tied ? tied(event, held, bar.key, signs) : attacked(event, bar.key, signs);
      byEvent[event.index] = [...held];
    }
  }
  return { staff: byEvent, graces };
}

/** The accidental in force at each letter and octave of a bar so far; undefined where the next note shows its own. */
type Signs = Map<string, number | undefined>;

const placeOf = ({ letter, octave }: Pitch): string => letter + octave;

function tied(event: Sound, held: readonly StaffNote[], key: Score['key'], signs: Signs): StaffNote[] {
  return event.notes.map(({ pitch: own }) => {
    const pitch = held.find((note) => note.pitch.midi === own.midi)?.pitch ?? own;
    const place = placeOf(pitch);
    if (!signs.has(place) && pitch.alter !== signatureAlter(key, pitch.letter)) signs.set(place, undefined);
    return { pitch };
  });
}

function attacked(event: Sound, key: Score['key'], signs: Signs): StaffNote[] {
  return event.notes.map(({ pitch }) => shown(pitch, key, signs));
}

/** A note as it is attacked, which changes what is in force. */
function shown(pitch: Pitch, key: Score['key'], signs: Signs): StaffNote {
  const place = placeOf(pitch);
  const sounding = signs.has(place) ? signs.get(place) : signatureAlter(key, pitch.letter);
  if (sounding === pitch.alter) return { pitch };
  signs.set(place, pitch.alter);
  return { pitch, accidental: pitch.alter };
}
