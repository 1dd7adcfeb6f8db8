/** Everything a round sounds and shows, in order of time. */
import type { Playback } from '../../score/playback.ts';
import { bandOf } from './band/band.ts';
import { clicksOf } from './clicks.ts';
import { byTime, type Cue } from './cue.ts';
import { type Round, roundOf } from './round.ts';
import type { PlaySettings } from './settings.ts';
import { tuneOf } from './tune.ts';

export interface Plan {
  readonly round: Round;
  readonly cues: readonly Cue[];
  /** What to show from when on. */
  readonly moments: readonly Moment[];
}

export interface Moment {
  readonly at: number;
  /** Index into the round's measures, and the bar played there. */
  readonly measure: number;
  readonly bar: number;
  readonly answer: boolean;
  /** The event that begins, as its place in the bar's events; undefined in a bar without any or left free. */
  readonly event?: number;
}

export function planOf(playback: Playback, settings: PlaySettings, number: number): Plan {
  const round = roundOf(playback, settings, number);
  const cues: Cue[] = [...tuneOf(playback, round), ...bandOf(playback, settings, round), ...clicksOf(playback, round)];
  return { round, cues: cues.sort(byTime), moments: momentsOf(playback, round) };
}

function momentsOf(playback: Playback, round: Round): Moment[] {
  return round.measures.flatMap((measure, index): Moment[] => {
    const { bar, answer, at, grid } = measure;
    const events = answer ? [] : (playback.bars[bar]?.events ?? []);
    const shared = { measure: index, bar, answer };
    if (events.length === 0) return [{ ...shared, at }];
    return events.map((event, place) => ({
      ...shared,
      at: at + grid.played(event.at) * round.secondsPerTick,
      event: place,
    }));
  });
}

/** The moment that is on at a time: the last one begun. */
export function momentAt(moments: readonly Moment[], at: number): Moment | undefined {
  let low = 0;
  let high = moments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((moments[middle] as Moment).at <= at) low = middle + 1;
    else high = middle;
  }
  return moments[low - 1];
}
