/** Questions a score answers. */
import type { Chord } from '../harmony/chord.ts';
import type { SongKey } from '../harmony/key.ts';
import { type Role, roleOf } from '../harmony/role.ts';
import { compare, type Fraction } from '../time/fraction.ts';
import type { Bar, Event, Note, Score, Sound } from './score.ts';

/** The chord that sounds at an onset of a bar, or undefined where none was given. */
export function chordAt(bar: Pick<Bar, 'chords'>, onset: Fraction): Chord | undefined {
  let sounding: Chord | undefined;
  for (const change of bar.chords) if (compare(change.onset, onset) <= 0) sounding = change.chord;
  return sounding;
}

/** What a note does to the chord it sounds over, in a song of a key; undefined without a chord. */
export function roleIn(key: SongKey, bar: Bar, event: Sound, note: Note): Role | undefined {
  const chord = chordAt(bar, event.onset);
  return chord && roleOf(note.pitch.midi, chord, key);
}

/** Whether an event sounds, and is not a rest. */
export const isSoundEvent = (event: Event): event is Sound => event.kind === 'sound';

/** All sounding events of a score in the order they are written. */
export const soundsOf = (score: Pick<Score, 'bars'>): Sound[] =>
  score.bars.flatMap((bar) => bar.events.filter(isSoundEvent));
