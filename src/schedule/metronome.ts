/** The metronome: a click on every beat of a round. */
import { meterOf, type Playback } from '../score/playback.ts';
import { beatsInBar } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import type { HitCue } from './cue.ts';
import type { Round } from './round.ts';

/** A click on every beat of a round, the first of each bar accented. */
export function metronomeOf(playback: Playback, round: Round): HitCue[] {
  return round.measures.flatMap(({ bar, at, grid }) => {
    const beats = Math.ceil(beatsInBar(meterOf(playback, itemAt(playback.bars, bar))));
    return Array.from({ length: beats }, (_, beat) => beat).flatMap((beat) => {
      const place = grid.beat(beat, 0, 1);
      return place === undefined ? [] : [clickAt(at + place, beat === 0)];
    });
  });
}

/** One click `at` a time of the round, in seconds; the first beat of a bar is accented. */
export const clickAt = (at: number, accent: boolean): HitCue => ({
  kind: 'hit',
  at,
  piece: accent ? 'accent' : 'click',
  level: accent ? 1 : 0.8,
});
