/** The reed voice: one breath's line, with its bends, marks and chords. */
import type { Breath } from '../../instrument/harp.ts';
import type { PlayedNote } from '../../score/playback.ts';
import type { LineCue, LinePart } from '../schedule/cue.ts';
import { gainOf, type Studio } from './studio.ts';
import { type Voice, voiceOf } from './voice.ts';

/** Frequencies in hertz: of a note as the harp's temperament has it, and of a plain MIDI number. */
export interface Pitches {
  readonly ofNote: (breath: Breath, note: PlayedNote) => number;
  readonly ofMidi: (midi: number) => number;
}

const ATTACK = 0.008;
/** Time constant of the release: silent after about thirty thousandths of a second. */
const RELEASE = 0.007;
const TAIL = 0.045;
const LEVEL = 0.5;

const centsBetween = (from: number, to: number): number => 1200 * Math.log2(to / from);

/** Schedules a line to start at a time of the context's clock. */
export function soundLine(studio: Studio, line: LineCue, at: number, pitches: Pitches): Voice {
  const { context } = studio;
  const end = at + line.seconds;
  const first = line.parts[0] as LinePart;
  const bright = brightness(first, line.breath);
  const over = first.notes.some((note) => note.over);

  const loudness = gainOf(context, 0, studio.input.tune);
  const colour = context.createBiquadFilter();
  colour.type = 'lowpass';
  colour.connect(loudness);
  const air = gainOf(context, over ? 0.05 : 0.028, loudness);
  studio.breath.connect(air);

  const hertz = first.notes.map((note) => pitches.ofNote(line.breath, note));
  const level = LEVEL / Math.sqrt(hertz.length);
  const reeds = hertz.map((frequency) => {
    const reed = context.createOscillator();
    reed.setPeriodicWave(over ? studio.waves.overbent : studio.waves.reed);
    reed.frequency.value = frequency;
    reed.connect(colour);
    reed.start(at);
    return reed;
  });

  openUp(colour, at, Math.max(...hertz), bright);
  shape(loudness.gain, at, end, level * highIsLoud(Math.max(...hertz)), first);
  enter(reeds, at, first);

  const sources: AudioScheduledSourceNode[] = [...reeds];
  const nodes: AudioNode[] = [colour, air, loudness];
  let before = first;
  for (const part of line.parts) {
    if (part !== first) moveTo(reeds, hertz, at, before, part, line, pitches);
    before = part;
    const start = at + part.at;
    const until = Math.min(end, start + part.seconds);
    const lfo = (rate: number, depth: number, targets: readonly AudioParam[], delay = 0): void => {
      const [source, amount] = wobble(context, rate, depth, targets, start, until, delay);
      sources.push(source);
      nodes.push(amount);
    };
    const detunes = reeds.map((reed) => reed.detune);
    if (part.marks.includes('vibrato')) {
      lfo(5.4, 20, detunes, 0.12);
      lfo(5.4, 0.12 * level, [loudness.gain], 0.12);
    }
    if (part.marks.includes('flutter')) lfo(23, 0.55 * level, [loudness.gain]);
    if (part.marks.includes('hand')) handWah(colour, start, until);
    if (part.marks.includes('fall')) fallOff(reeds, hertz, part, start, until, line.breath, pitches);
    if (part.shake !== undefined) shake(reeds, hertz, part, start, until, line.breath, pitches);
    if (part.struck) sources.push(...strike(studio, part, start, nodes, pitches));
  }
  return voiceOf(sources, nodes, end + TAIL);
}

/** High reeds are heard louder, and written for a listener, not a meter. */
const highIsLoud = (hertz: number): number => Math.min(1.1, (600 / hertz) ** 0.25);

/** Draw reeds, lips and accents are brighter than their opposites. */
function brightness({ mouth, marks }: LinePart, breath: Breath): number {
  return (breath === 'draw' ? 1.08 : 1) * (mouth === 'tongue' ? 0.82 : 1) * (marks.includes('accent') ? 1.3 : 1);
}

/** The reed starts dull and opens: its filter goes up within forty thousandths of a second. */
function openUp(colour: BiquadFilterNode, at: number, hertz: number, bright: number): void {
  const open = Math.min(7500, Math.max(2500, hertz * 6)) * bright;
  colour.frequency.setValueAtTime(Math.max(1500, hertz * 1.6), at);
  colour.frequency.setTargetAtTime(Math.max(open, hertz * 1.8), at, 0.014);
}

function shape(gain: AudioParam, at: number, end: number, level: number, { marks }: LinePart): void {
  const peak = level * (marks.includes('accent') ? 1.5 : 1);
  gain.setValueAtTime(0, at);
  gain.linearRampToValueAtTime(peak, at + ATTACK);
  gain.setTargetAtTime(0.85 * level, at + ATTACK, marks.includes('accent') ? 0.08 : 0.12);
  gain.setTargetAtTime(0, Math.max(end, at + ATTACK), RELEASE);
}

/** How a note is come into: a bend settles from a little above, an overbend and a dip from below. */
function enter(reeds: readonly OscillatorNode[], at: number, { notes, marks, seconds }: LinePart): void {
  for (const [index, reed] of reeds.entries()) {
    const note = notes[index];
    const [cents, settle] = marks.includes('dip')
      ? [-110, Math.min(0.055, seconds / 5)]
      : note?.bend
        ? [28, 0.014]
        : note?.over
          ? [-22, 0.016]
          : [0, 0];
    if (cents === 0) continue;
    reed.detune.setValueAtTime(cents, at);
    reed.detune.setTargetAtTime(0, at, settle);
  }
}

/** Moves every reed to the next part of the line: on one hole by a glide that takes its time, to another hole at once. */
function moveTo(
  reeds: readonly OscillatorNode[],
  hertz: readonly number[],
  at: number,
  before: LinePart,
  part: LinePart,
  line: LineCue,
  pitches: Pitches,
): void {
  for (const [index, reed] of reeds.entries()) {
    const note = part.notes[index];
    const old = before.notes[index];
    const base = hertz[index];
    if (!note || !old || base === undefined) continue;
    const from = centsBetween(base, pitches.ofNote(line.breath, old));
    const to = centsBetween(base, pitches.ofNote(line.breath, note));
    if (from === to) continue;
    const seconds = note.hole === old.hole ? glideSeconds(to - from, part.seconds) : 0.01;
    reed.detune.setTargetAtTime(to, at + part.at, seconds / 4);
  }
}

/** A half step of bend takes some eighty thousandths of a second, deeper ones longer, and never most of the note. */
export const glideSeconds = (cents: number, note: number): number =>
  Math.min(0.04 + (0.04 * Math.abs(cents)) / 100, note * 0.6);

/** A slow oscillator on some parameters, from a time on and coming in after a delay. */
function wobble(
  context: BaseAudioContext,
  rate: number,
  depth: number,
  targets: readonly AudioParam[],
  at: number,
  until: number,
  delay: number,
): [OscillatorNode, GainNode] {
  const source = context.createOscillator();
  source.frequency.value = rate;
  const amount = context.createGain();
  amount.gain.setValueAtTime(delay > 0 ? 0 : depth, at);
  if (delay > 0) amount.gain.setTargetAtTime(depth, at + delay / 2, delay);
  amount.gain.setTargetAtTime(0, until, RELEASE);
  source.connect(amount);
  for (const target of targets) amount.connect(target);
  source.start(at);
  return [source, amount];
}

/** Two hands close over the harp and open again: dark, then bright. */
function handWah(colour: BiquadFilterNode, at: number, until: number): void {
  const cycle = 0.4;
  colour.frequency.cancelScheduledValues(at);
  colour.frequency.setValueAtTime(520, at);
  for (let time = at; time < until; time += cycle) {
    colour.frequency.setTargetAtTime(5200, time + 0.06, 0.05);
    colour.frequency.setTargetAtTime(520, time + 0.24, 0.05);
  }
}

/** The pitch gives way at the end of the note. */
function fallOff(
  reeds: readonly OscillatorNode[],
  hertz: readonly number[],
  part: LinePart,
  at: number,
  until: number,
  breath: Breath,
  pitches: Pitches,
): void {
  const seconds = Math.min(0.22, (until - at) * 0.45);
  for (const [index, reed] of reeds.entries()) {
    const target = targetOf(index, hertz, part, breath, pitches);
    reed.detune.setTargetAtTime(target - 320, until - seconds, seconds / 1.5);
  }
}

const targetOf = (
  index: number,
  hertz: readonly number[],
  part: LinePart,
  breath: Breath,
  pitches: Pitches,
): number => {
  const note = part.notes[index];
  const base = hertz[index];
  return note && base !== undefined ? centsBetween(base, pitches.ofNote(breath, note)) : 0;
};

/** Half the time of one swing between the two holes of a shake. */
const SHAKE = 0.072;

function shake(
  reeds: readonly OscillatorNode[],
  hertz: readonly number[],
  part: LinePart,
  at: number,
  until: number,
  breath: Breath,
  pitches: Pitches,
): void {
  const base = hertz[0];
  const reed = reeds[0];
  if (part.shake === undefined || base === undefined || !reed) return;
  const own = targetOf(0, hertz, part, breath, pitches);
  const other = centsBetween(base, pitches.ofMidi(part.shake));
  for (let count = 1, time = at + SHAKE; time < until; count++, time += SHAKE) {
    reed.detune.setTargetAtTime(count % 2 === 1 ? other : own, time, 0.004);
  }
}

/**
 * The holes under the tongue sound for a moment: in a slap, until the tongue lands on them, with the smack of it; in a pull, longer
 * and softer, as the tongue leaves them.
 */
function strike(
  studio: Studio,
  part: LinePart,
  at: number,
  nodes: AudioNode[],
  pitches: Pitches,
): AudioScheduledSourceNode[] {
  const { context } = studio;
  const slap = part.marks.includes('slap');
  const seconds = slap ? 0.045 : 0.16;
  const chord = context.createGain();
  chord.gain.setValueAtTime(0, at);
  chord.gain.linearRampToValueAtTime(slap ? 0.32 : 0.24, at + 0.004);
  chord.gain.setTargetAtTime(0, at + seconds / 2, seconds / 6);
  chord.connect(studio.input.tune);
  nodes.push(chord);
  const sources: AudioScheduledSourceNode[] = (part.struck ?? []).map((midi) => {
    const reed = context.createOscillator();
    reed.setPeriodicWave(studio.waves.reed);
    reed.frequency.value = pitches.ofMidi(midi);
    reed.connect(chord);
    reed.start(at);
    return reed;
  });
  if (slap) {
    const smack = context.createBufferSource();
    smack.buffer = studio.pieces.stick;
    const level = gainOf(context, 0.5, studio.input.tune);
    smack.connect(level);
    smack.start(at);
    nodes.push(level);
    sources.push(smack);
  }
  return sources;
}
