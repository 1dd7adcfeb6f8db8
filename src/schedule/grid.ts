/** Each bar's time: written ticks of a bar to seconds and back, by its swing and its tempo. */
import { meterOf, type Playback, type PlayedBar } from '../score/playback.ts';
import { beatLength, type Meter, secondsOfWhole } from '../time/meter.ts';
import { evenBeats, playedTime, type SwingGrid, shareOf, swungBeat, writtenTime } from '../time/swing.ts';
import { type BarPace, secondsTo, tickAfter } from './pace.ts';

/** How the time of one bar passes. Seconds are counted from its start. */
export interface BarGrid {
  readonly seconds: number;
  /** When a written tick of the bar is played. */
  readonly at: (tick: number) => number;
  /** The written tick that is played at a time. */
  readonly tickAt: (seconds: number) => number;
  /** The band's own grid: when a part of a beat is played, beats counted from where the full bar would start; undefined outside of the bar. */
  readonly beat: (number: number, part: number, parts: number) => number | undefined;
  /** Seconds that a pickup leaves out of its bar. */
  readonly missing: number;
}

/** Ticks of the beat a player taps in a meter. */
export const beatTicks = ({ ticks }: Pick<Playback, 'ticks'>, meter: Meter): number => {
  const beat = beatLength(meter);
  return (beat.n * ticks) / beat.d;
};

/** Seconds of a tick where a block is at this tempo. */
export const secondsOfTick = ({ meter, ticks }: Playback, tempo: number): number =>
  secondsOfWhole(meter, tempo) / ticks;

/** The time of a bar, with the swing of the block where the bar has none of its own, and with so many seconds to a tick of a bar at the block's own tempo. */
export function barGridOf(playback: Playback, bar: PlayedBar, swing: number, secondsPerTick: number): BarGrid {
  const offset = bar.pickupOffset ?? 0;
  const meter = meterOf(playback, bar);
  const swings = swungBeat(meter);
  const quarter = swings ? (swings.n * playback.ticks) / swings.d : 1;
  const share = swings ? (bar.feel ? shareOf(bar.feel) : swing) : 0.5;
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
  const tapped = beatTicks(playback, meter);
  const ticks = playedTime(own, offset + bar.length) - start;
  const { from, to } = bar.pace ?? { from: 1, to: 1 };
  const pace: BarPace = {
    ticks,
    from: from / secondsPerTick,
    to: to / secondsPerTick,
    waits: (bar.waits ?? []).map(({ at, length }) => ({ at: playedTime(own, offset + at) - start, length })),
  };
  const at = (tick: number): number => secondsTo(pace, playedTime(own, offset + tick) - start);
  return {
    seconds: at(bar.length),
    at,
    tickAt: (seconds) => writtenTime(own, tickAfter(pace, seconds) + start) - offset,
    beat: (number, part, parts) => {
      const place = tapped * (number + part / parts);
      // Thirds of a beat are triplets, which do not swing again.
      const played = (parts % 3 === 0 ? place : playedTime(plain, place)) - start;
      return played < 0 || played >= ticks ? undefined : secondsTo(pace, played);
    },
    missing: start / pace.from,
  };
}
