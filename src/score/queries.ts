/** Questions a score answers. */
import type { Chord } from '../harmony/chord.ts';
import type { ChordChange } from '../harmony/form.ts';
import { type Role, roleOf } from '../harmony/role.ts';
import { sounding } from '../instrument/bend.ts';
import type { Harp } from '../instrument/harp.ts';
import { compare, type Fraction } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { graceAmong, type SmallNote } from './mark.ts';
import type { Bar, Event, Note, Score, Sound } from './score.ts';

/** The chord that sounds at an onset of a bar, or undefined where none was given or none sounds. */
export function chordAt(bar: Pick<Bar, 'chords'>, onset: Fraction): Chord | undefined {
  // By halves: a bar of thousands of chords is a mistake, but not one to wait for.
  let [from, to] = [0, bar.chords.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (compare(itemAt(bar.chords, middle).onset, onset) <= 0) from = middle + 1;
    else to = middle;
  }
  const chord = bar.chords[from - 1]?.chord;
  return chord === 'none' ? undefined : chord;
}

/** What a note of a bar does to the chord it sounds over; undefined without a chord. */
export function roleIn(bar: Pick<Bar, 'chords' | 'key'>, event: Sound, note: Note): Role | undefined {
  const chord = chordAt(bar, event.onset);
  return chord && roleOf(note.pitch.midi, chord, bar.key);
}

/** What the grace note of a sound does to the chord it sounds over. */
export function graceRole(bar: Pick<Bar, 'chords' | 'key'>, event: Sound, harp: Harp): Role | undefined {
  const chord = chordAt(bar, event.onset);
  const grace = graceAmong(event.marks);
  return grace && chord && roleOf(midiOfGrace(harp, grace), chord, bar.key);
}

/** The MIDI number of a grace note. Throws a RangeError where the harp has no such note. */
export function midiOfGrace(harp: Harp, grace: SmallNote): number {
  const sound = sounding(harp, grace.breath, grace);
  if ('fault' in sound) throw new RangeError(`${sound.fault} at hole ${grace.hole}`);
  return sound.midi;
}

/**
 * The chords of a bar in turn: each call gives those that come in before `end` and were not given yet, all that are left
 * without an end.
 */
export function chordsInTurn({ chords }: Pick<Bar, 'chords'>): (end?: Fraction) => readonly ChordChange[] {
  let next = 0;
  return (end) => {
    const from = next;
    while (next < chords.length && (end === undefined || compare(itemAt(chords, next).onset, end) < 0)) next++;
    return chords.slice(from, next);
  };
}

type InEnding = Pick<Bar, 'endings'> | undefined;

/** Whether two bars beside each other are in one ending, or both in none. */
export const isSameEnding = (bar: InEnding, next: InEnding): boolean => bar?.endings?.[0] === next?.endings?.[0];

/** The ending that begins with a bar, as the times in which it is played; undefined where none does. */
export const endingOpenedBy = ({ bars }: Pick<Score, 'bars'>, bar: Bar): readonly number[] | undefined =>
  isSameEnding(bars[bar.index - 1], bar) ? undefined : bar.endings;

/** Whether an event sounds, and is not a rest. */
export const isSoundEvent = (event: Event): event is Sound => event.kind === 'sound';

/** All sounding events of a score in the order they are written. */
export const soundsOf = (score: Pick<Score, 'bars'>): Sound[] =>
  score.bars.flatMap((bar) => bar.events.filter(isSoundEvent));
