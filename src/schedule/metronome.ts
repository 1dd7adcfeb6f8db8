/** The metronome: a click on every beat of a round. */
import type { Playback } from '../score/playback.ts';
import { beatsInBar } from '../time/meter.ts';
import type { HitCue } from './cue.ts';
import type { Round } from './round.ts';

/** A click on every beat of a round, the first of each bar accented. */
export function metronomeOf(playback: Playback, round: Round): HitCue[] {
  const beats = Math.ceil(beatsInBar(playback.meter));
  return round.measures.flatMap(({ at, grid }) =>
    Array.from({ length: beats }, (_, beat) => ({ beat, place: grid.beat(beat, 0, 1) }))
      .filter(({ place }) => place >= 0 && place < grid.length)
      .map(({ beat, place }) => clickAt(at + place * round.secondsPerTick, beat === 0)),
  );
}

/** One click `at` a time of the round, in seconds; the first beat of a bar is accented. */
export const clickAt = (at: number, accent: boolean): HitCue => ({
  kind: 'hit',
  at,
  piece: accent ? 'accent' : 'click',
  level: accent ? 1 : 0.8,
});
