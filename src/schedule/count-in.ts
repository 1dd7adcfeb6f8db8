/** The count-in before playing starts. */
import { meterOf, type Playback } from '../score/playback.ts';
import { beatsInBar } from '../time/meter.ts';
import type { HitCue } from './cue.ts';
import { beatTicks, secondsOfTick } from './grid.ts';
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
  const target = round.measures[measure];
  const bar = target && playback.bars[target.bar];
  const meter = bar ? meterOf(playback, bar) : playback.meter;
  const beats = Math.ceil(beatsInBar(meter));
  const beat = (beatTicks(playback, meter) * secondsOfTick(playback, round.tempo)) / (bar?.pace?.from ?? 1);
  const left = target?.grid.missing ?? 0;
  const whole = beats * (beats < 3 ? 2 : 1);
  const seconds = whole * beat + left;
  const cues: HitCue[] = [];
  for (let count = 0; count * beat < seconds - 1e-9; count++)
    cues.push({ ...clickAt(count * beat, count % beats === 0), counts: true });
  return { seconds, cues };
}
