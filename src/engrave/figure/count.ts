/**
 * How the time of a bar is counted. In simple time the beats are numbers and their halves “and”: 1 + 2 +, with quarters 1 e + a; a beat
 * in three is 1 trip let. In compound time every eighth has its number. Common practice, no source.
 */
import type { Playback, PlayedBar } from '../../score/playback.ts';
import { beatLength, isCompound } from '../../time/meter.ts';

type Counted = Pick<Playback, 'ticks' | 'meter'>;

/** A place between two numbers, as a part of the time from one to the next: how it is written and said. */
interface Between {
  readonly part: readonly [number, number];
  readonly text: string;
  readonly words: string;
}

const HALF: Between = { part: [1, 2], text: '+', words: 'and of' };
const QUARTERS: readonly Between[] = [
  { part: [1, 4], text: 'e', words: 'e of' },
  { part: [3, 4], text: 'a', words: 'a of' },
];
const THIRDS: readonly Between[] = [
  { part: [1, 3], text: 'trip', words: 'second triplet of' },
  { part: [2, 3], text: 'let', words: 'third triplet of' },
];
const BETWEEN = [HALF, ...QUARTERS, ...THIRDS];

/** Ticks from one number of the count to the next: a beat, or an eighth (a sixteenth in 6/16) in compound time. */
function numberTicks({ ticks, meter }: Counted): number {
  const { n, d } = beatLength(meter);
  const beat = (n * ticks) / d;
  return isCompound(meter) ? beat / 3 : beat;
}

/** The ticks of a bar that are counted, in order: numbers and halves always, and finer parts of a number where a stroke is on one. */
export function countsOf(playback: Counted, bar: Pick<PlayedBar, 'length' | 'events'>): readonly number[] {
  const step = numberTicks(playback);
  const struck = new Set(bar.events.filter(({ notes, tied }) => notes && !tied).map(({ at }) => at));
  const counts: number[] = [];
  for (let number = 0; number < bar.length; number += step) {
    const at = ({ part: [over, under] }: Between): number => number + (step * over) / under;
    const any = (all: readonly Between[]): boolean => all.some((one) => struck.has(at(one)));
    const between = any(THIRDS)
      ? THIRDS
      : any(QUARTERS)
        ? [HALF, ...QUARTERS]
        : isCompound(playback.meter) && !any([HALF])
          ? []
          : [HALF];
    counts.push(number, ...between.map(at).filter((tick) => tick < bar.length));
  }
  return counts.sort((a, b) => a - b);
}

function placeOf(playback: Counted, tick: number): { readonly number: number; readonly between: Between | undefined } {
  const step = numberTicks(playback);
  const number = Math.floor(tick / step);
  const rest = tick - number * step;
  return { number: number + 1, between: BETWEEN.find(({ part: [over, under] }) => rest * under === step * over) };
}

/** What is written under a tick that is counted: `2`, `+`, `e`. */
export function countTextAt(playback: Counted, tick: number): string {
  const { number, between } = placeOf(playback, tick);
  return between?.text ?? `${number}`;
}

/** Where a stroke is, in words: `2`, `and of 2`, `shortly after 2` where it is not on a tick that is counted. */
export function countWordsAt(playback: Counted, tick: number): string {
  const { number, between } = placeOf(playback, tick);
  if (between) return `${between.words} ${number}`;
  return tick % numberTicks(playback) === 0 ? `${number}` : `after ${number}`;
}
