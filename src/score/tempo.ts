/** How fast each bar of a score is, and where time waits. */
import { add, type Fraction, fraction, maximum, minimum, multiply, toNumber } from '../time/fraction.ts';
import { beatLength, tempoNote } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { soundsOfMarks } from './mark.ts';
import { isSameEnding } from './queries.ts';
import type { Bar, Score } from './score.ts';

/** The tempo at the start and at the end of a bar; it changes evenly with the written time between them. In beats a minute of the bar's own meter, see {@link Score.tempo}. */
export interface BarTempo {
  readonly from: number;
  readonly to: number;
}

/**
 * The tempo of each bar, as it is written: a repeat is as fast each time. A gradual change leads to its goal by the next change of tempo,
 * or by the end. An ending without one of its own continues from the bar before the first one: it takes the same part of a change that
 * began before them, and none of one that began in another ending.
 */
export function temposOf({ bars, tempo: start }: Pick<Score, 'bars' | 'tempo'>): BarTempo[] {
  const tempos: BarTempo[] = [];
  const starts = endingStarts(bars);
  let now = start;
  for (let index = 0; index < bars.length; ) {
    const before = starts.get(index) ?? index - 1;
    now = itemAt(bars, index).tempo?.from ?? tempos[before]?.to ?? start;
    const goal = itemAt(bars, index).tempo?.to;
    if (goal === undefined) {
      tempos.push({ from: now, to: now });
      index++;
      continue;
    }
    // Where each bar begins and ends on the way from the change to it.
    const places: BarTempo[] = [];
    for (let bar = index; bar < bars.length; bar++) {
      const back = starts.get(bar) ?? bar - 1;
      if (bar > index && (itemAt(bars, bar).tempo || back < index)) break;
      const from = bar === index ? 0 : itemAt(places, back - index).to;
      places.push({ from, to: from + toNumber(itemAt(bars, bar).length) });
    }
    const whole = places.reduce((most, { to }) => Math.max(most, to), 0);
    const at = (place: number): number => now + ((goal - now) * place) / whole;
    tempos.push(...places.map(({ from, to }) => ({ from: at(from), to: at(to) })));
    index += places.length;
  }
  return tempos;
}

/** Of the first bar of each later ending, the last bar before the endings; -1 where they begin the score. */
export function endingStarts(bars: Score['bars']): ReadonlyMap<number, number> {
  const starts = new Map<number, number>();
  let before = -1;
  bars.forEach(({ endings }, index) => {
    if (!endings || isSameEnding(bars[index - 1], bars[index])) return;
    if (endings.includes(1)) before = index - 1;
    else starts.set(index, before);
  });
  return starts;
}

/** How fast written time passes in each bar, as a factor of that at the start of the score. */
export function pacesOf(score: Pick<Score, 'bars' | 'tempo' | 'meter'>): BarTempo[] {
  const start = score.tempo * toNumber(tempoNote(score.meter));
  return temposOf(score).map(({ from, to }, index) => {
    const unit = toNumber(tempoNote(itemAt(score.bars, index).meter));
    return { from: (from * unit) / start, to: (to * unit) / start };
  });
}

/** A place where time waits: from the start of its bar, and how long in written time; both fractions of a whole note. */
export interface Wait {
  readonly at: Fraction;
  readonly length: Fraction;
}

/**
 * Where time waits in each bar: at the end of each note with a fermata, as long again as it is written, but at least a beat and at
 * most two. Common practice is about twice the written length; the limits are ours.
 */
export function waitsOf({ bars }: Pick<Score, 'bars'>): readonly (readonly Wait[])[] {
  const waits = bars.map((): Wait[] => []);
  let held: { bar: Bar; end: Fraction; length: Fraction } | undefined;
  const finish = (): void => {
    if (!held) return;
    const beat = beatLength(held.bar.meter);
    const length = minimum(maximum(held.length, beat), multiply(beat, fraction(2)));
    waits[held.bar.index]?.push({ at: held.end, length });
    held = undefined;
  };
  for (const bar of bars) {
    for (const event of bar.events) {
      const end = add(event.onset, event.duration);
      if (event.kind === 'sound' && event.tied && held) {
        held = { bar, end, length: add(held.length, event.duration) };
        continue;
      }
      finish();
      const names = event.kind === 'sound' && !event.tied ? event.marks.map(({ name }) => name) : [];
      if (soundsOfMarks(names, 'wait').length > 0) held = { bar, end, length: event.duration };
    }
  }
  finish();
  return waits;
}
