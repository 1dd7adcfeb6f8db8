/**
 * How the breath goes: the longest stretch one way, and how far the lungs fill or empty over all. Rough by nature: air
 * depends on the player, the harp and the loudness more than on the notes.
 */
import type { Breath } from '../instrument/harp.ts';
import { secondsOfBreath } from '../score/mark.ts';
import { itemAt, lastOf } from '../values/checked.ts';
import { type Playing, restBetween, type Stroke } from './strokes.ts';

/**
 * Litres a second at a middling loudness: one hole, and each further one. An estimate from memory of its order of
 * magnitude, not a measurement; a player's own figure may be half or twice as much.
 */
const ONE_HOLE = 0.2;
const FURTHER_HOLE = 0.15;
/** Litres a second that a rest or a breath mark lets a player breathe out or in again, by nose and mouth. The same kind of estimate. */
const RELIEF = 1;
/**
 * Litres beyond which many get uncomfortable. An adult at rest breathes about half a litre. Over a mixed stretch a player
 * lets a little air go by at every turn, so it may sum up higher. Estimates as above.
 */
export const COMFORT = { oneWay: 2, mixed: 3 } as const;

/** A run of strokes over which air goes one way, or goes mostly one way. */
export interface Stretch {
  readonly breath: Breath;
  readonly litres: number;
  /** From its first onset to its last end, rests in it counted. */
  readonly seconds: number;
  /** The events it begins and ends with, by index. */
  readonly from: number;
  readonly to: number;
  /** The event in which it passes {@link COMFORT}, if it does. */
  readonly tooLongAt?: number;
}

/** How a block uses the breath. */
export interface BreathUse {
  /** The longest stretch on one breath, by litres; undefined in a block of rests. */
  readonly longest: Stretch | undefined;
  /** The stretch over which the lungs fill or empty the most, turns of the breath counted against each other. */
  readonly fullest: Stretch | undefined;
  /** How often the breath turns round. */
  readonly turns: number;
}

/** The stretch that goes too far for comfort, if there is one: the one-way stretch before the mixed one. */
export const tooLong = ({
  longest,
  fullest,
}: BreathUse): { readonly stretch: Stretch; readonly oneWay: boolean } | undefined =>
  longest?.tooLongAt !== undefined
    ? { stretch: longest, oneWay: true }
    : fullest?.tooLongAt !== undefined
      ? { stretch: fullest, oneWay: false }
      : undefined;

/** How long the breath goes in one direction, how often it turns, and how much air that takes; see {@link BreathUse}. */
export function breathOf(playing: Playing): BreathUse {
  const { strokes } = playing;
  let turns = 0;
  for (let i = 1; i < strokes.length; i++)
    if (itemAt(strokes, i).sound.breath !== itemAt(strokes, i - 1).sound.breath) turns++;
  return {
    longest: furthest(playing, oneWay, COMFORT.oneWay),
    fullest: furthest(playing, balance, COMFORT.mixed),
    turns,
  };
}

/** Air so far, signed: draw fills. How a stroke of so many litres changes it. */
type Change = (air: number, litres: number) => number;
/** A turn of the breath starts a new count. */
const oneWay: Change = (air, litres) => (air * litres < 0 ? litres : air + litres);
const balance: Change = (air, litres) => air + litres;

function furthest({ strokes }: Playing, change: Change, comfort: number): Stretch | undefined {
  let best: Stretch | undefined;
  let air = 0;
  let start: Stroke | undefined;
  let tooLongAt: number | undefined;
  let before: Stroke | undefined;
  for (const stroke of strokes) {
    const relief = before ? (restBetween(before, stroke) + breathIn(before)) * RELIEF : 0;
    const left = Math.sign(air) * Math.max(0, Math.abs(air) - relief);
    air = change(left, litresOf(stroke));
    // What was in the lungs has been breathed out, or outweighed: another stretch begins.
    if (!start || left * air <= 0) {
      start = stroke;
      tooLongAt = undefined;
    }
    const end = lastOf(stroke.parts).sound.index;
    if (Math.abs(air) > comfort) tooLongAt ??= end;
    if (!best || Math.abs(air) > best.litres) {
      best = {
        breath: air > 0 ? 'draw' : 'blow',
        litres: Math.abs(air),
        seconds: stroke.at + stroke.seconds - start.at,
        from: start.sound.index,
        to: end,
        ...(tooLongAt === undefined ? {} : { tooLongAt }),
      };
    }
    before = stroke;
  }
  return best;
}

/** Seconds at the end of a stroke that a breath mark gives to the lungs. */
const breathIn = ({ sound, seconds }: Stroke): number =>
  secondsOfBreath(
    sound.marks.map(({ name }) => name),
    seconds,
  );

/** Litres of a stroke. */
function litresOf(stroke: Stroke): number {
  const { sound } = stroke;
  const seconds = stroke.seconds - breathIn(stroke);
  const litres = (ONE_HOLE + FURTHER_HOLE * (sound.notes.length - 1)) * seconds;
  return sound.breath === 'draw' ? litres : -litres;
}
