/**
 * The tune as messages of one channel. A bent note is the key of its reed with the pitch bend down, so that a release or a
 * deeper bend continues one note, as it does on the harp. Of the marks, vibrato is sent as modulation, dip and fall as
 * pitch bends, accent, ghost and dynamics as velocity, shake as alternating keys, slap and pull as short keys beside; keys are as long as marks say.
 */
import { endsInQuarter, QUARTER } from '../../instrument/quarter-step.ts';
import type { LineCue, LinePart } from '../../schedule/cue.ts';
import { MARKS, soundOfMarks } from '../../score/mark.ts';
import type { PlayedNote } from '../../score/playback.ts';
import { CONTROLLERS, PROGRAMS } from './general.ts';
import { channelOf, type MidiChannel, type TrackEvent } from './smf.ts';

/** Half steps up and down that the pitch bend reaches: one half step is 1,024 of its 8,192 steps. */
const BEND_RANGE = 8;
const PER_CENT = 8192 / (BEND_RANGE * 100);

const VELOCITY = 84;
const MOST_VELOCITY = 127;
const MODULATION = 64;
/** Seconds from one message of a moving pitch to the next. */
const STEP = 0.01;

/** Turns seconds of the round into ticks of the file. */
export type TickAt = (seconds: number) => number;

/** Says how far the pitch bend reaches: registered parameter 0, and then none, so that no later data changes it. */
function bendRange(channel: MidiChannel): TrackEvent[] {
  const { parameter, parameterFine, dataEntry, dataEntryFine } = CONTROLLERS;
  return [
    channel.control(0, parameter, 0),
    channel.control(0, parameterFine, 0),
    channel.control(0, dataEntry, BEND_RANGE),
    channel.control(0, dataEntryFine, 0),
    channel.control(0, parameter, 127),
    channel.control(0, parameterFine, 127),
  ];
}

/** The keys of a part, and by how many cents all of them are bent. */
interface Keys {
  readonly keys: readonly number[];
  readonly cents: number;
}

/**
 * A pitch bend is for the whole channel: notes that are bent by different amounts are the keys they sound like. A quarter step among
 * them lies between two keys, and goes to a channel of its own.
 */
function keysOf(notes: readonly PlayedNote[]): Keys {
  const [bend = 0, ...others] = new Set(notes.map((note) => note.bend ?? 0));
  const common = others.length === 0 ? bend : 0;
  return { keys: notes.map(({ midi }) => midi + common), cents: 0 - 100 * common };
}

/** A channel that is a quarter step low throughout, for the quarter steps that sound together with other notes. */
function lowChannel(number: number): readonly [MidiChannel, TrackEvent[]] {
  const channel = channelOf(number);
  const events = [channel.program(0, PROGRAMS.harmonica), ...bendRange(channel)];
  return [channel, [...events, channel.bend(0, Math.round(-100 * QUARTER * PER_CENT))]];
}

/** The messages of the lines of a tune on a channel, and on a second one where quarter steps sound together with other notes. */
export function tuneEvents(lines: readonly LineCue[], number: number, low: number, tickAt: TickAt): TrackEvent[] {
  const channel = channelOf(number);
  const events = bendRange(channel);
  const [quarters, tuned] = lowChannel(low);
  let usesQuarters = false;
  let bent = 0;

  /** From and to are seconds. A key that begins is one tick long at least. */
  function sound(keys: readonly number[], from: number, to: number, velocity = VELOCITY): void {
    const start = tickAt(from);
    const end = Math.max(start + 1, tickAt(to));
    for (const sounding of keys) {
      const between = endsInQuarter(sounding);
      usesQuarters ||= between;
      const [on, key] = between ? [quarters, sounding + QUARTER] : [channel, sounding];
      events.push(on.on(start, key, velocity), on.off(end, key));
    }
  }

  function bendTo(seconds: number, cents: number): void {
    const value = Math.round(cents * PER_CENT);
    if (value !== bent) events.push(channel.bend(tickAt(seconds), value));
    bent = value;
  }

  function slide(from: number, to: number, start: number, seconds: number): void {
    const steps = Math.max(1, Math.round(seconds / STEP));
    for (let step = 0; step <= steps; step++)
      bendTo(start + (seconds * step) / steps, from + ((to - from) * step) / steps);
  }

  function bendPart({ marks }: LinePart, cents: number, from: number, to: number): void {
    const half = (to - from) / 2;
    const scoop = soundOfMarks(marks, 'scoop');
    if (scoop) slide(cents + scoop.cents, cents, from, Math.min(scoop.seconds, half));
    else bendTo(from, cents);
    const drop = soundOfMarks(marks, 'drop');
    const seconds = Math.min(drop?.seconds ?? 0, half);
    if (drop) slide(cents, cents + drop.cents, to - seconds, seconds);
  }

  function soundBeside({ marks, struck = [] }: LinePart, from: number, to: number): void {
    const strike = soundOfMarks(marks, 'strike');
    if (strike) sound(struck, from, Math.min(to, from + strike.seconds), VELOCITY * strike.level);
    if (!soundOfMarks(marks, 'vibrato')) return;
    events.push(channel.control(tickAt(from), CONTROLLERS.modulation, MODULATION));
    events.push(channel.control(tickAt(to), CONTROLLERS.modulation, 0));
  }

  for (const line of lines) {
    const end = line.at + line.seconds;
    const parts = line.parts.map((part, index) => {
      const from = line.at + part.at;
      const isLast = index === line.parts.length - 1;
      return { part, from, to: isLast ? end : from + part.seconds, ...keysOf(part.notes) };
    });
    for (const { part, from, to, cents } of parts) {
      bendPart(part, cents, from, to);
      soundBeside(part, from, to);
    }
    for (const { from, to, keys, velocity } of attacksOf(parts)) sound(keys, from, to, velocity);
  }
  return usesQuarters ? [...tuned, ...events] : events;
}

interface Attack {
  readonly keys: readonly number[];
  readonly from: number;
  readonly to: number;
  readonly velocity: number;
}

interface Placed extends Keys {
  readonly part: LinePart;
  readonly from: number;
  readonly to: number;
}

/** The keys a line presses one after another: a part on the reeds of the part before continues its keys. */
function attacksOf(parts: readonly Placed[]): Attack[] {
  const attacks: Attack[] = [];
  for (const { part, from, to, keys } of parts) {
    const { marks } = part;
    const louder = (soundOfMarks(marks, 'accent')?.louder ?? 1) * (soundOfMarks(marks, 'hint')?.loud ?? 1);
    const velocity = Math.min(MOST_VELOCITY, VELOCITY * louder * (part.level ?? 1));
    const before = attacks.at(-1);
    if (part.shake !== undefined) attacks.push(...alternating(keys, [part.shake], from, to, velocity));
    else if (before && sameKeys(before.keys, keys)) attacks[attacks.length - 1] = { ...before, to };
    else attacks.push({ keys, from, to, velocity });
  }
  return attacks;
}

const sameKeys = (one: readonly number[], other: readonly number[]): boolean =>
  one.length === other.length && one.every((key, index) => key === other[index]);

function alternating(
  keys: readonly number[],
  others: readonly number[],
  from: number,
  to: number,
  velocity: number,
): Attack[] {
  const { half } = MARKS.shake.sound;
  const times = Math.max(1, Math.floor((to - from) / half));
  return Array.from({ length: times }, (_, time) => ({
    keys: time % 2 === 0 ? keys : others,
    from: from + time * half,
    to: time === times - 1 ? to : from + (time + 1) * half,
    velocity,
  }));
}
