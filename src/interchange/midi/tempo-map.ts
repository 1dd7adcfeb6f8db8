/** Tempo, meter and key of a MIDI file where they change: its bar lines stay the music's, and its tempos say how fast they pass. */
import { signatureOf } from '../../harmony/key.ts';
import type { Measure, Round } from '../../schedule/round.ts';
import { meterOf, type Playback } from '../../score/playback.ts';
import type { Score } from '../../score/score.ts';
import { beatLength, type Meter, meterName, secondsOfWhole } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import { keyEvent, meterEvent, type TrackEvent, tempoEvent } from './smf.ts';
import type { TickAt } from './tune.ts';

/** A playback whose time passes evenly: no bar is faster than another, and nothing waits. */
export const evenly = (playback: Playback): Playback => ({
  ...playback,
  bars: playback.bars.map(({ pace: _pace, waits: _waits, ...bar }) => bar),
});

/** A round as it is played, and the same round played evenly, which gives the places in the file. */
export interface BothRounds {
  readonly played: Round;
  readonly even: Round;
}

/** The events of tempo, meter and key, at the start and where they change. */
export function tempoMap(score: Score, playback: Playback, { played, even }: BothRounds, tickAt: TickAt): TrackEvent[] {
  const start = 240 / secondsOfWhole(score.meter, score.tempo);
  const events = [tempoEvent(0, start), meterAt(0, score.meter), keyAt(0, score)];
  let [tempo, meter, signature] = [start, score.meter, signatureOf(score.key)];
  even.measures.forEach((measure, index) => {
    const bar = itemAt(score.bars, measure.bar);
    const tick = tickAt(measure.at);
    if (meterName(bar.meter) !== meterName(meter)) events.push(meterAt(tick, bar.meter));
    if (signatureOf(bar.key) !== signature) events.push(keyAt(tick, bar));
    [meter, signature] = [bar.meter, signatureOf(bar.key)];
    for (const { at, quarters } of temposIn(playback, measure, itemAt(played.measures, index), start)) {
      if (Math.abs(quarters - tempo) > 1e-6) events.push(tempoEvent(tickAt(measure.at + at), quarters));
      tempo = quarters;
    }
  });
  return events;
}

function meterAt(tick: number, meter: Meter): TrackEvent {
  const beat = beatLength(meter);
  return meterEvent(tick, meter.beats, meter.unit, (96 * beat.n) / beat.d);
}

const keyAt = (tick: number, { key }: Pick<Score, 'key'>): TrackEvent =>
  keyEvent(tick, signatureOf(key), key.mode === 'minor');

/**
 * The tempos of a bar: a new one on each beat and each event of a gradual change, and a slow one up to each place where time waits, from a
 * beat before it or from the event that lasts until then. So what begins in the bar begins as it is played.
 */
function temposIn(
  playback: Playback,
  even: Measure,
  played: Measure,
  start: number,
): { readonly at: number; readonly quarters: number }[] {
  const bar = itemAt(playback.bars, even.bar);
  const { from, to } = bar.pace ?? { from: 1, to: 1 };
  const beat = beatLength(meterOf(playback, bar));
  const ticksOfBeat = (beat.n * playback.ticks) / beat.d;
  const edges = new Set([0, bar.length]);
  const onsets = bar.events.map((event) => event.at);
  if (from !== to) {
    for (let tick = ticksOfBeat; tick < bar.length; tick += ticksOfBeat) edges.add(tick);
    for (const onset of onsets) edges.add(onset);
  }
  for (const { at } of bar.waits ?? []) {
    const last = onsets.findLast((onset) => onset < at) ?? 0;
    edges.add(Math.max(last, at - ticksOfBeat)).add(at);
  }
  const sorted = [...edges].sort((a, b) => a - b);
  return sorted.slice(1).map((end, index) => {
    const begin = itemAt(sorted, index);
    const ratio = (even.grid.at(end) - even.grid.at(begin)) / (played.grid.at(end) - played.grid.at(begin));
    return { at: even.grid.at(begin), quarters: start * ratio };
  });
}
