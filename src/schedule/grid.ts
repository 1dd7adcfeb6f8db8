/** Each bar's swing grid: written ticks of a bar to played ticks and back. */
import type { Playback, PlayedBar } from '../score/playback.ts';
import { beatLength } from '../time/meter.ts';
import { evenBeats, playedTime, type SwingGrid, swungBeat, writtenTime } from '../time/swing.ts';

/** How the time of one bar is stretched by the feel. */
export interface BarGrid {
  /** Played ticks from the bar's start to its end: the written length, but for a pickup that starts within a beat. */
  readonly length: number;
  /** Played ticks from the bar's start of a written place, both from the bar's start. */
  readonly played: (tick: number) => number;
  readonly written: (place: number) => number;
  /** The band's own grid: the place in played ticks of a part of a beat, beats counted from where the full bar would start. */
  readonly beat: (number: number, part: number, parts: number) => number;
}

/** Ticks of the beat a player taps. */
export const beatTicks = ({ meter, ticks }: Pick<Playback, 'meter' | 'ticks'>): number => {
  const beat = beatLength(meter);
  return (beat.n * ticks) / beat.d;
};

/** The grid of a bar with its swing: where each written tick is played. */
export function barGridOf(playback: Playback, bar: PlayedBar, swing: number): BarGrid {
  const offset = bar.pickupOffset ?? 0;
  const swings = swungBeat(playback.meter);
  const quarter = swings ? (swings.n * playback.ticks) / swings.d : 1;
  const share = swings ? swing : 0.5;
  const own: SwingGrid = {
    beat: quarter,
    share,
    // A note that is only cut where its chord changes divides no beat.
    even: evenBeats(
      bar.events.filter((event) => !event.tied).map((event) => offset + event.at),
      quarter,
    ),
  };
  const plain: SwingGrid = { beat: quarter, share, even: new Set() };
  const start = playedTime(own, offset);
  const tapped = beatTicks(playback);
  return {
    length: playedTime(own, offset + bar.length) - start,
    played: (tick) => playedTime(own, offset + tick) - start,
    written: (place) => writtenTime(own, place + start) - offset,
    beat: (number, part, parts) => {
      const place = tapped * (number + part / parts);
      // Thirds of a beat are triplets, which do not swing again.
      return (parts % 3 === 0 ? place : playedTime(plain, place)) - start;
    },
  };
}
