/**
 * How hard a block is, from 0 to 10, and why. The weights are ours: chosen so that a first tune on open notes comes out
 * near 1 and a fast chorus full of deep bends near 8. They order the blocks of a course; they measure no player.
 */
import { rowOf } from '../score/mark.ts';
import type { Score } from '../score/score.ts';
import { capitalised } from '../texts/capital.ts';
import { itemAt } from '../values/checked.ts';
import { type BreathUse, breathOf, COMFORT } from './breath.ts';
import { jumpBetween } from './match.ts';
import { type Playing, play, restBetween, type Stroke } from './strokes.ts';

/** How hard a block is. */
export interface Difficulty {
  /** The sum of the parts, 0 to 10, to one decimal. */
  readonly level: number;
  /** In descending order of weight; parts without weight are left out. */
  readonly parts: readonly DifficultyPart[];
  readonly breath: BreathUse;
}

/** One reason why it is hard. */
export interface DifficultyPart {
  readonly name: 'pace' | 'bends' | 'turns' | 'jumps' | 'mouth' | 'breath' | 'marks';
  readonly points: number;
  /** The reason, as a sentence for the student. */
  readonly words: string;
  /** The event it is about most, by index. */
  readonly at?: number;
}

/** The most each part can weigh; they add up to 10. */
const MOST = { pace: 2.5, bends: 3, turns: 1, jumps: 1, mouth: 1, breath: 0.8, marks: 0.7 } as const;

/** How hard a score is, from 0 to 10, with the parts that make it so. */
export function difficultyOf(score: Score): Difficulty {
  const playing = play(score);
  const breath = breathOf(playing);
  const found = [
    paceOf(playing),
    bendsOf(playing),
    turnsOf(playing, breath),
    jumpsOf(playing),
    mouthOf(playing),
    airOf(breath),
    marksOf(playing),
  ];
  const parts = found
    .filter((part) => part !== undefined)
    .map((part) => ({ ...part, points: tenths(Math.min(MOST[part.name], part.points)) }))
    .filter((part) => part.points > 0)
    .sort((a, b) => b.points - a.points);
  return { level: tenths(parts.reduce((sum, part) => sum + part.points, 0)), parts, breath };
}

const tenths = (value: number): number => Math.round(value * 10) / 10;
const shown = (value: number): string => `${tenths(value)}`;
const times = (count: number, one: string, many: string): string => (count === 1 ? `one ${one}` : `${count} ${many}`);

/** Notes a second in the busiest bar: one is no effort at all, six are the most. */
function paceOf({ score, strokes, secondsOfBars }: Playing): DifficultyPart | undefined {
  const counts = new Map<number, number>();
  const seen = new Set<number>();
  for (const { sound, parts } of strokes) {
    if (seen.has(sound.index)) continue;
    seen.add(sound.index);
    const bar = parts[0]?.bar.index ?? 0;
    counts.set(bar, (counts.get(bar) ?? 0) + 1);
  }
  let busiest: { bar: number; rate: number } | undefined;
  for (const [index, count] of counts) {
    const bar = score.bars[index];
    if (!bar || (bar.index === 0 && score.pickup)) continue;
    const rate = count / itemAt(secondsOfBars, index);
    if (!busiest || rate > busiest.rate) busiest = { bar: bar.number, rate };
  }
  if (!busiest) return undefined;
  return {
    name: 'pace',
    points: (busiest.rate - 1) / 2,
    words: `Up to ${shown(busiest.rate)} notes a second, in bar ${busiest.bar}.`,
  };
}

const DEPTHS = ['', 'a half step', 'a whole step', 'a step and a half'] as const;

/** Each bend by its depth and by how it is come to; the hardest counts most, then how many of the notes are bent. */
function bendsOf({ strokes }: Playing): DifficultyPart | undefined {
  let hardest: { cost: number; stroke: Stroke; approach: string } | undefined;
  let sum = 0;
  let count = 0;
  strokes.forEach((stroke, index) => {
    // A quarter step takes the control of the half step after it.
    const depth = Math.max(...stroke.sound.notes.map((note) => Math.ceil(note.bend)));
    const over = stroke.sound.notes.some((note) => note.over);
    if (depth === 0 && !over) return;
    const [ease, approach] = approachOf(stroke, strokes[index - 1]);
    const cost = (over ? 3 : 0.5 + 0.5 * depth) * (stroke.sound.breath === 'blow' && !over ? 1.5 : 1) * ease;
    sum += cost;
    count++;
    if (!hardest || cost > hardest.cost) hardest = { cost, stroke, approach };
  });
  if (!hardest) return undefined;
  const { cost, stroke, approach } = hardest;
  return {
    name: 'bends',
    points: 0.5 * cost + (1.5 * sum) / strokes.length,
    words: `${capitalised(times(count, 'bent note', 'bent notes'))}, the hardest ${bendName(stroke)}, ${approach}.`,
    at: stroke.sound.index,
  };
}

function approachOf(stroke: Stroke, before: Stroke | undefined): [number, string] {
  if (stroke.glided) return [1, 'glided into'];
  const hole = stroke.sound.notes[0]?.hole;
  if (!before || restBetween(before, stroke) > 0) return [1.4, 'struck from nothing'];
  if (before.sound.breath === stroke.sound.breath && before.sound.notes[0]?.hole === hole)
    return [1.1, 'from its own hole'];
  return [1.4, 'struck from another hole'];
}

function bendName({ sound }: Stroke): string {
  const note = sound.notes.find((one) => one.over) ?? sound.notes.reduce((a, b) => (b.bend > a.bend ? b : a));
  if (note.over) return `${sound.breath === 'blow' ? 'overblow' : 'overdraw'} ${note.hole}`;
  return `${sound.breath} ${note.hole} bent ${depthInWords(note.bend)}`;
}

function depthInWords(bend: number): string {
  const whole = Math.floor(bend);
  const words = DEPTHS[whole] ?? `${whole} half steps`;
  return whole === bend ? words : [words, 'a quarter step'].filter(Boolean).join(' and ');
}

/** Turns of the breath a second. */
function turnsOf({ seconds }: Playing, { turns }: BreathUse): DifficultyPart | undefined {
  if (turns === 0) return undefined;
  const rate = turns / seconds;
  return { name: 'turns', points: rate * 0.5, words: `The breath turns round ${times(turns, 'time', 'times')}.` };
}

/** Holes passed over, a second. */
function jumpsOf({ strokes, seconds }: Playing): DifficultyPart | undefined {
  let passed = 0;
  let count = 0;
  let widest: { holes: number; at: number } | undefined;
  for (let i = 1; i < strokes.length; i++) {
    const [before, stroke] = [itemAt(strokes, i - 1), itemAt(strokes, i)];
    const holes = jumpBetween(before, stroke);
    if (holes < 2) continue;
    passed += holes - 1;
    count++;
    if (!widest || holes > widest.holes) widest = { holes, at: stroke.sound.index };
  }
  if (!widest) return undefined;
  return {
    name: 'jumps',
    points: passed / seconds + 0.1 * widest.holes,
    words: `${capitalised(times(count, 'jump', 'jumps'))}, the widest of ${widest.holes} holes.`,
    at: widest.at,
  };
}

/** Switches of the embouchure: twice the weight in less than a beat; the tongue on the harp weighs a little on its own. */
function mouthOf({ strokes }: Playing): DifficultyPart | undefined {
  const tongue = strokes.some(({ sound }) => sound.mouth === 'tongue');
  let switches = 0;
  let quick = 0;
  let at: number | undefined;
  for (let i = 1; i < strokes.length; i++) {
    const [before, stroke] = [itemAt(strokes, i - 1), itemAt(strokes, i)];
    if (before.sound.mouth === stroke.sound.mouth) continue;
    switches++;
    at ??= stroke.sound.index;
    if (stroke.start - before.start < before.beat - 1e-9) quick++;
  }
  if (!tongue) return undefined;
  const within = quick > 0 ? `, ${quick === switches ? 'each' : quick} within a beat` : '';
  return {
    name: 'mouth',
    points: 0.2 + (0.1 * (switches + quick) * 10) / Math.max(10, strokes.length),
    words:
      switches === 0
        ? 'The tongue stays on the harp.'
        : `The embouchure is switched ${times(switches, 'time', 'times')}${within}.`,
    ...(at === undefined ? {} : { at }),
  };
}

function airOf({ longest }: BreathUse): DifficultyPart | undefined {
  if (!longest) return undefined;
  return {
    name: 'breath',
    points: (longest.litres / COMFORT.oneWay) * 0.5 - 0.1,
    words: `Up to ${shown(longest.seconds)} seconds on the ${longest.breath} without a turn: very roughly ${shown(longest.litres)} litres of air.`,
    at: longest.from,
  };
}

function marksOf({ strokes }: Playing): DifficultyPart | undefined {
  const all = strokes.flatMap(({ sound }) => sound.marks.map(({ name }) => name));
  const names = new Set(all.filter((name) => !rowOf(name).onward));
  if (names.size === 0) return undefined;
  return { name: 'marks', points: 0.2 * names.size, words: `Marks to play: ${[...names].join(', ')}.` };
}
