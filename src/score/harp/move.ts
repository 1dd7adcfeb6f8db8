/** The same tab on another harp: every hole, bend and length stays, every pitch and chord follows the harp. */
import { keyInPosition, type SongKey } from '../../harmony/key.ts';
import { moveChord } from '../../harmony/numeral.ts';
import { spell } from '../../harmony/role.ts';
import { sounding } from '../../instrument/bend.ts';
import type { Harp } from '../../instrument/harp.ts';
import { chordAt, isSoundEvent } from '../queries.ts';
import type { Bar, BarSettings, Event, Note, Score, Sound } from '../score.ts';

/** The keys and chords of a score on another harp; its notes are left as they are. */
export function keysMoved(score: Score, harp: Harp): Score {
  const keyOn = ({ position, key }: BarSettings): SongKey => keyInPosition(harp.key, position, key.mode);
  const bars = score.bars.map((bar): Bar => {
    const key = keyOn(bar);
    const chords = bar.chords.map(({ onset, chord }) => ({
      onset,
      chord: chord === 'none' ? chord : moveChord(chord, bar.key, key),
    }));
    return { ...bar, key, chords };
  });
  return { ...score, harp, key: keyOn(score), bars };
}

/**
 * Moves a score to a harp of the same tuning.
 * Throws a RangeError where the new harp lacks a note of it, which reeds of the same tuning never do.
 */
export function moveToHarp(score: Score, harp: Harp): Score {
  const moved = keysMoved(score, harp);
  const bars = moved.bars.map(
    (bar): Bar => ({
      ...bar,
      events: bar.events.map((event): Event => (isSoundEvent(event) ? moveSound(event, bar) : event)),
    }),
  );
  return { ...moved, bars };

  function moveSound(event: Sound, bar: Bar): Sound {
    const chord = chordAt(bar, event.onset);
    const notes = event.notes.map((note): Note => {
      const sound = sounding(harp, event.breath, note);
      if ('fault' in sound) throw new RangeError(`${sound.fault} at hole ${note.hole}`);
      return { ...note, pitch: spell(sound.midi, chord, bar.key) };
    });
    return { ...event, notes };
  }
}
