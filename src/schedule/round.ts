/** A round: the bars to play, once through, laid out in seconds. A loop is one round after another. */
import type { Playback } from '../score/playback.ts';
import { itemAt } from '../values/checked.ts';
import { type BarGrid, barGridOf, secondsOfTick } from './grid.ts';
import { barsToPlay } from './order.ts';
import { type PlaySettings, tempoOfRound } from './settings.ts';

/** One time through the chosen bars. */
export interface Round {
  /** From 0. */
  readonly number: number;
  readonly tempo: number;
  readonly seconds: number;
  readonly measures: readonly Measure[];
}

/** One bar as played in a round. */
export interface Measure {
  /** Index into the playback's bars. */
  readonly bar: number;
  /** Left free for the student's answer: the band continues, the tune does not. */
  readonly answer: boolean;
  /** Seconds from the round's start. */
  readonly at: number;
  readonly seconds: number;
  readonly grid: BarGrid;
}

/** A place in the music that survives a change of tempo or swing: a measure of a round, and written ticks into its bar. */
export interface PlayPosition {
  readonly round: number;
  readonly measure: number;
  readonly tick: number;
}

/** Where playing begins. */
export const START: PlayPosition = { round: 0, measure: 0, tick: 0 };

/** One round of the chosen bars: their times in seconds at the tempo of that round. */
export function roundOf(playback: Playback, settings: PlaySettings, number: number): Round {
  const tempo = tempoOfRound(settings, number);
  const secondsPerTick = secondsOfTick(playback, tempo);
  const grids = playback.bars.map((bar) => barGridOf(playback, bar, settings.swing, secondsPerTick));
  const measures: Measure[] = [];
  let at = 0;
  for (const bar of barsToPlay(playback, settings.range)) {
    const grid = itemAt(grids, bar);
    for (const answer of settings.trade ? [false, true] : [false]) {
      measures.push({ bar, answer, at, seconds: grid.seconds, grid });
      at += grid.seconds;
    }
  }
  return { number, tempo, seconds: at, measures };
}

/** Seconds from the round's start to a position in it. */
export function secondsAt(round: Round, { measure, tick }: PlayPosition): number {
  const found = round.measures[measure];
  return found ? found.at + found.grid.at(tick) : 0;
}

/** The position sounding so many seconds into a round; the nearest end of the round outside it. */
export function positionAt(round: Round, seconds: number): PlayPosition {
  const inside = Math.max(0, Math.min(seconds, round.seconds));
  let measure = 0;
  while (measure + 1 < round.measures.length && itemAt(round.measures, measure + 1).at <= inside) measure++;
  const found = round.measures[measure];
  if (!found) return { round: round.number, measure: 0, tick: 0 };
  return { round: round.number, measure, tick: found.grid.tickAt(inside - found.at) };
}

/**
 * The same place in a round laid out again: in the same bar, the same time round if it is played that often, else the last;
 * at the start where the bar is not played.
 */
export function carryOver(position: PlayPosition, from: Round, to: Round): PlayPosition {
  const start = { ...START, round: position.round };
  const old = from.measures[position.measure];
  if (!old) return start;
  const played = ({ bar, answer }: Measure): boolean => bar === old.bar && !answer;
  const time = from.measures.slice(0, position.measure + 1).filter(played).length;
  const places = to.measures.flatMap((measure, index) => (played(measure) ? [index] : []));
  const place = places[Math.min(time, places.length) - 1];
  if (place === undefined) return start;
  const answering = old.answer && to.measures[place + 1]?.answer;
  return { ...position, measure: answering ? place + 1 : place };
}
