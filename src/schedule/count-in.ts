/** The count-in before playing starts. */
import type { Playback } from '../score/playback.ts';
import { beatsInBar } from '../time/meter.ts';
import type { HitCue } from './cue.ts';
import { beatTicks } from './grid.ts';
import { clickAt } from './metronome.ts';
import type { Round } from './round.ts';

/** The clicks before the music, and how long they take. */
export interface CountIn {
  readonly seconds: number;
  readonly cues: readonly HitCue[];
}

/**
 * The count before a measure of a round: a bar, or two where a bar has fewer than three beats, and before a pickup as much
 * more as the pickup leaves out of its bar.
 */
export function countInTo(playback: Playback, round: Round, measure: number): CountIn {
  const beats = Math.ceil(beatsInBar(playback.meter));
  const beat = beatTicks(playback) * round.secondsPerTick;
  const target = round.measures[measure];
  // The grid, not the written offset: a pickup of a swung half comes later than written.
  const left = target ? -target.grid.beat(0, 0, 1) * round.secondsPerTick : 0;
  const whole = beats * (beats < 3 ? 2 : 1);
  const seconds = whole * beat + left;
  const cues: HitCue[] = [];
  for (let count = 0; count * beat < seconds - 1e-9; count++)
    cues.push({ ...clickAt(count * beat, count % beats === 0), counts: true });
  return { seconds, cues };
}
