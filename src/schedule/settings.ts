/** How a block is to be played: what the student sets, as far as it changes what is heard when. */
import type { Playback } from '../score/playback.ts';
import { shareOf } from '../time/swing.ts';

/** What of playing can be set. */
export interface PlaySettings {
  /** Quarter notes a minute; dotted quarters in compound time. */
  readonly tempo: number;
  /** The share of a beat its first half takes; 1/2 is straight, 2/3 a shuffle. */
  readonly swing: number;
  /** The first and last bar to play, as indices; the whole block with its repeats where there is none. */
  readonly range?: BarRange | undefined;
  readonly loop: boolean;
  readonly countIn: boolean;
  /** Play a bar, leave the same length free to answer. */
  readonly trade: boolean;
  /** A loop that speeds up by `step` each round until it reaches `goal`, both in the tempo's unit. */
  readonly climb?: { readonly step: number; readonly goal: number } | undefined;
  /** Which part of the tune is heard, by a phrase that the block repeats: that alone, or all but that. All of it where there is none. */
  readonly layer?: Layer | undefined;
  /** Chooses among the band's variations; the same seed plays the same. */
  readonly seed: number;
}

/** A part of the tune. */
export interface Layer {
  /** Index into the phrases of the playback. */
  readonly phrase: number;
  readonly heard: 'alone' | 'not';
}

/** A block once through, as it is written. */
export const writtenSettings = (playback: Playback): PlaySettings => ({
  tempo: playback.tempo,
  swing: shareOf(playback.feel),
  loop: false,
  countIn: false,
  trade: false,
  seed: seedOf(playback),
});

/** Each block has variations of its own, which are the same on every harp. */
const seedOf = ({ bars }: Playback): number =>
  bars.reduce((sum, bar) => (sum * 31 + bar.events.length + (bar.events[0]?.notes?.[0]?.hole ?? 0)) % 9973, 7);

/** Indices into the playback's bars, both included. */
export interface BarRange {
  readonly first: number;
  readonly last: number;
}

/** The tempo of a round, counted from 0. */
export function tempoOfRound({ tempo, climb, loop }: PlaySettings, round: number): number {
  if (!climb || !loop || climb.step <= 0 || climb.goal <= tempo) return tempo;
  return Math.min(climb.goal, tempo + round * climb.step);
}

/** Whether new settings leave the layout of a round as it is, so that it need not start again. */
export const sameRound = (a: PlaySettings, b: PlaySettings): boolean =>
  (['tempo', 'swing', 'range', 'trade', 'climb', 'layer', 'seed'] as const).every((key) => a[key] === b[key]);

/** Whether rounds are counted from the first again: with another tempo or step, or with other bars. */
export const restartsRounds = (a: PlaySettings, b: PlaySettings): boolean =>
  a.tempo !== b.tempo || a.climb?.step !== b.climb?.step || a.range !== b.range;
