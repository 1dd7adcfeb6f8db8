/**
 * A score as the player meets it: repeats played out, a note held over bar lines and changes of chord one stroke, and
 * between any two strokes the time that passes. Techniques, breath and difficulty are all read off this.
 */
import { playOrder } from '../score/playing-order.ts';
import { isSoundEvent } from '../score/queries.ts';
import type { Bar, Score, Sound } from '../score/score.ts';
import { pacesOf, waitsOf } from '../score/tempo.ts';
import { toNumber } from '../time/fraction.ts';
import { barLength, beatLength, isCompound, secondsOfWhole } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { traitsOf } from './traits.ts';

/** One attack, with everything it is held or glides into. */
export interface Stroke {
  /** The sound as attacked (or glided into). */
  readonly sound: Sound;
  /** The sounds it continues in, each with its bar: the first is `sound` itself. */
  readonly parts: readonly { readonly sound: Sound; readonly bar: Bar }[];
  /** When it begins, as a part of a whole note from the start of the playing. Written time: swing is left out. */
  readonly start: number;
  /** How long it sounds, in the same measure. */
  readonly length: number;
  /** When it begins, and how long it sounds, in seconds at the written tempo. */
  readonly at: number;
  readonly seconds: number;
  /** The beat of the bar where it begins, as a part of a whole note. */
  readonly beat: number;
  /** Whether the beats there divide in three by themselves. */
  readonly compound: boolean;
  /** How far into its beat it begins: 0 on the beat, and below 1. */
  readonly intoBeat: number;
  /** Bits: see traits.ts. */
  readonly traits: number;
  /** Glided into from the stroke before, with no attack of its own. */
  readonly glided: boolean;
}

/** A score as a player meets it: stroke after stroke, with repeats played out. */
export interface Playing {
  readonly score: Score;
  readonly strokes: readonly Stroke[];
  /** Bits: what any of the strokes has. */
  readonly traits: number;
  /** From the first bar to the last, at the written tempo. */
  readonly seconds: number;
  /** Of each bar of the score. */
  readonly secondsOfBars: readonly number[];
  /** Whether a bar is played more than once. */
  readonly repeats: boolean;
}

/** A score as its strokes: every attack or glide in the order it is played, with what technique rules ask for. */
export function play(score: Score): Playing {
  const strokes: Mutable<Stroke>[] = [];
  const clocks = clocksOf(score);
  let barStart = 0;
  let barAt = 0;
  const order = playOrder(score);
  for (const index of order) {
    const bar = score.bars[index];
    if (!bar) continue;
    const length = toNumber(bar.length);
    const clock = itemAt(clocks, index);
    const beat = toNumber(beatLength(bar.meter));
    // A pickup ends with its bar line, so its beats are counted from there.
    const shift = index === 0 && score.pickup ? toNumber(barLength(bar.meter)) - length : 0;
    for (const event of bar.events) {
      if (!isSoundEvent(event)) continue;
      const start = barStart + toNumber(event.onset);
      const duration = toNumber(event.duration);
      const at = barAt + clock(toNumber(event.onset));
      const end = barAt + clock(toNumber(event.onset) + duration);
      const last = strokes.at(-1);
      const follows = last !== undefined && Math.abs(last.start + last.length - start) < NEAR;
      if (event.tied && follows) {
        last.parts.push({ sound: event, bar });
        last.length = start + duration - last.start;
        last.seconds = end - last.at;
      } else {
        const glided = follows && last.parts.at(-1)?.sound.glides === true;
        const intoBeat = fractionOf((toNumber(event.onset) + shift) / beat);
        const traits = traitsOf(event);
        strokes.push({
          sound: event,
          parts: [{ sound: event, bar }],
          start,
          length: duration,
          at,
          seconds: end - at,
          beat,
          compound: isCompound(bar.meter),
          intoBeat,
          traits,
          glided,
        });
      }
    }
    barStart += length;
    barAt += clock(length);
  }
  const repeats = order.length > score.bars.length;
  const traits = strokes.reduce((all, stroke) => all | stroke.traits, 0);
  const secondsOfBars = score.bars.map(({ length }, index) => itemAt(clocks, index)(toNumber(length)));
  return { score, strokes, traits, seconds: barAt, secondsOfBars, repeats };
}

/** For each bar, when a written time in it is played: seconds from its start, at the mean tempo of the bar, with all waits up to then. */
function clocksOf(score: Score): ((time: number) => number)[] {
  const whole = secondsOfWhole(score.meter, score.tempo);
  const waits = waitsOf(score);
  return pacesOf(score).map(({ from, to }, index) => {
    const own = (2 * whole) / (from + to);
    const inBar = itemAt(waits, index);
    if (inBar.length === 0) return (time) => time * own;
    return (time) =>
      own * inBar.reduce((sum, { at, length }) => (toNumber(at) <= time + NEAR ? sum + toNumber(length) : sum), time);
  });
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer Item)[] ? Item[] : T[K] };

/** Sums of fractions drift by rounding errors far below any slot. */
const NEAR = 1e-9;

function fractionOf(beats: number): number {
  const remainder = beats - Math.floor(beats + NEAR);
  return remainder < NEAR ? 0 : remainder;
}

/** The rest between two strokes in seconds; 0 where they meet. */
export function restBetween(a: Stroke, b: Stroke): number {
  const gap = b.at - a.at - a.seconds;
  return gap < NEAR ? 0 : gap;
}

/** The events a stroke is written as, by index. */
export const eventsOf = (stroke: Stroke): number[] => stroke.parts.map((part) => part.sound.index);
