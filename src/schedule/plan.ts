/** Everything a round sounds and shows, in order of time. */
import type { Playback } from '../score/playback.ts';
import { itemAt } from '../values/checked.ts';
import { bandOf } from './band/band.ts';
import { byTime, type Cue, type LineCue } from './cue.ts';
import { metronomeOf } from './metronome.ts';
import { type Round, roundOf } from './round.ts';
import type { PlaySettings } from './settings.ts';
import { tuneOf } from './tune.ts';

/** Everything that sounds and shows in one round. */
export interface Plan {
  readonly round: Round;
  readonly cues: readonly Cue[];
  /** What to show from when on. */
  readonly moments: readonly Moment[];
}

/** What the page shows from a time on. */
export interface Moment {
  readonly at: number;
  /** Index into the round's measures, and the bar played there. */
  readonly measure: number;
  readonly bar: number;
  readonly answer: boolean;
  /** Written ticks into the bar. */
  readonly tick: number;
  /** The event that begins, as its place in the bar's events; undefined where only a chord does: in a bar left free. */
  readonly event?: number;
  /** Whether what sounds continues without a new attack. */
  readonly held: boolean;
}

/** Everything that sounds and lights up in one round, in order of time. */
export function roundPlan(playback: Playback, settings: PlaySettings, number: number): Plan {
  const round = roundOf(playback, settings, number);
  const tune = tuneOf(playback, round);
  // What is not heard is shown as what would sound.
  const heard = settings.layer ? tuneOf(playback, round, settings.layer) : tune;
  const cues: Cue[] = [...heard, ...bandOf(playback, settings, round), ...metronomeOf(playback, round)];
  return { round, cues: cues.sort(byTime), moments: momentsOf(playback, round, tune) };
}

function momentsOf(playback: Playback, round: Round, tune: readonly LineCue[]): Moment[] {
  const attacks = new Set(tune.map(({ at }) => at));
  return round.measures.flatMap(({ bar, answer, at, grid }, measure): Moment[] => {
    const { events = [], chords = [] } = playback.bars[bar] ?? {};
    const begun = (tick: number): Omit<Moment, 'held'> => ({
      at: at + grid.at(tick),
      measure,
      bar,
      answer,
      tick,
    });
    if (answer || events.length === 0) {
      const changes = new Set([0, ...chords.map((chord) => chord.at)]);
      return [...changes].map((tick) => ({ ...begun(tick), held: false }));
    }
    return events.map((event, place) => {
      const moment = begun(event.at);
      return { ...moment, event: place, held: event.notes !== undefined && !attacks.has(moment.at) };
    });
  });
}

/** The moment that is on at a time: the last one begun. */
export function momentAt(moments: readonly Moment[], at: number): Moment | undefined {
  let low = 0;
  let high = moments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (itemAt(moments, middle).at <= at) low = middle + 1;
    else high = middle;
  }
  return moments[low - 1];
}
