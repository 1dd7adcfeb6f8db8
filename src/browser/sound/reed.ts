/** The reed voice: one breath's line, with its bends, marks and chords. */
import type { Breath } from '../../instrument/harp.ts';
import type { LineCue, LinePart } from '../../schedule/cue.ts';
import { MARKS, type MarkSound, soundOfMarks, soundsOfMarks } from '../../score/mark.ts';
import type { PlayedNote } from '../../score/playback.ts';
import { itemAt, present } from '../../values/checked.ts';
import { gainOf, type MixingDesk } from './mixing-desk.ts';
import { type Voice, voiceOf } from './voice.ts';

/** Frequencies in hertz: of a reed as the harp's temperament has it, and of a plain MIDI number. */
export interface Pitches {
  readonly ofNote: (breath: Breath, note: Pick<PlayedNote, 'midi' | 'slide'>) => number;
  readonly ofMidi: (midi: number) => number;
}

const ATTACK = 0.008;
/** Time constant of the release: silent after about 30 ms. */
const RELEASE = 0.007;
const TAIL = 0.065;
const LEVEL = 0.5;

/** A reed and the frequency it was started at, from which its detune counts. */
interface Reed {
  readonly source: OscillatorNode;
  readonly hertz: number;
}

const centsTo = (reed: Reed, hertz: number): number => 1200 * Math.log2(hertz / reed.hertz);

/** A part of a line laid on the clock, with what each reed is to be detuned by. */
interface Stretch {
  readonly part: LinePart;
  readonly at: number;
  readonly until: number;
  readonly cents: readonly number[];
}

/** Schedules a line to start at a time of the context's clock. */
export function soundLine(desk: MixingDesk, line: LineCue, at: number, pitches: Pitches): Voice {
  const { context } = desk;
  const { breath } = line;
  const end = at + line.seconds;
  const first = itemAt(line.parts, 0);
  const over = first.notes.some((note) => note.over);

  const loudness = gainOf(context, 0, desk.input.tune);
  const colour = context.createBiquadFilter();
  colour.type = 'lowpass';
  colour.connect(loudness);
  const air = gainOf(context, over ? 0.05 : 0.028, loudness);
  desk.breath.connect(air);

  const reeds = first.notes.map((note): Reed => {
    const source = context.createOscillator();
    const hertz = pitches.ofNote(breath, note);
    source.setPeriodicWave(over ? desk.waves.overbent : desk.waves.reed);
    source.frequency.value = hertz;
    source.connect(colour);
    source.start(at);
    return { source, hertz };
  });
  const highest = Math.max(...reeds.map(({ hertz }) => hertz));
  const level = (LEVEL * evenly(highest)) / Math.sqrt(reeds.length);

  const sources: AudioScheduledSourceNode[] = reeds.map(({ source }) => source);
  const nodes: AudioNode[] = [colour, air, loudness];
  let before: Stretch | undefined;
  let sounding: number | undefined;
  for (const part of line.parts) {
    const start = at + part.at;
    const until = Math.min(end, start + part.seconds);
    const cents = reeds.map((reed, index) => {
      const note = part.notes[index];
      return note ? centsTo(reed, pitches.ofNote(breath, note)) : 0;
    });
    const stretch: Stretch = { part, at: start, until, cents };
    const open = openness(highest, part, breath);
    if (before) {
      moveTo(reeds, before, stretch);
      colour.frequency.setTargetAtTime(open, start, 0.03);
    } else {
      enter(reeds, stretch);
      // The reed starts dull, and brightens within 40 ms.
      colour.frequency.setValueAtTime(Math.max(1500, highest * 1.6), at);
      colour.frequency.setTargetAtTime(open, at, 0.014);
    }
    const loud = level * (part.level ?? 1) * (soundOfMarks(part.marks, 'hint')?.loud ?? 1);
    attack(loudness.gain, stretch, loud, sounding);
    sounding = loud;

    const lfo = (rate: number, depth: number, targets: readonly AudioParam[], delay = 0): void => {
      const [source, amount] = wobble(context, rate, depth, targets, stretch, delay);
      sources.push(source);
      nodes.push(amount);
    };
    const { marks, shake } = part;
    const vibrato = soundOfMarks(marks, 'vibrato');
    if (vibrato) {
      const delay = Math.min(0.12, (until - start) / 5);
      const detunes = reeds.map(({ source }) => source.detune);
      lfo(vibrato.rate, vibrato.cents, detunes, delay);
      lfo(vibrato.rate, vibrato.depth * loud, [loudness.gain], delay);
    }
    for (const tremolo of soundsOfMarks(marks, 'tremolo')) lfo(tremolo.rate, tremolo.depth * loud, [loudness.gain]);
    const wah = soundOfMarks(marks, 'wah');
    if (wah) handWah(wah, colour.frequency, stretch, before === undefined);
    const opening = soundOfMarks(marks, 'opening');
    if (opening) openOnce(opening, colour.frequency, stretch, before === undefined);
    const drop = soundOfMarks(marks, 'drop');
    if (drop) fallOff(drop, reeds, stretch);
    if (shake !== undefined) alternate(reeds, stretch, pitches.ofNote(breath, besides(part, shake)));
    if (part.struck) {
      const struck = part.struck.map((midi) => pitches.ofNote(breath, besides(part, midi)));
      sources.push(...strike(desk, stretch, struck, nodes));
    }
    before = stretch;
  }
  loudness.gain.setTargetAtTime(0, Math.max(end, at + ATTACK), RELEASE);
  return voiceOf(sources, nodes, end + TAIL);
}

/** How much louder a reed is sounded to be heard as loud as any other: low ones most, high ones least. */
const evenly = (hertz: number): number => (600 / hertz) ** (hertz < 600 ? 0.25 : 0.12);

/** An open reed of another hole, with the slide where this part has it. */
const besides = ({ notes }: LinePart, midi: number): Pick<PlayedNote, 'midi' | 'slide'> =>
  notes[0]?.slide ? { midi, slide: true } : { midi };

/**
 * Where the sound's upper end is cut off, in hertz. Draw reeds, lips and accents are brighter than their opposites; a bend
 * is made with a narrower mouth, and is darker.
 */
function openness(hertz: number, { mouth, marks, notes }: LinePart, breath: Breath): number {
  const bright =
    (breath === 'draw' ? 1.08 : 1) *
    (mouth === 'tongue' ? 0.82 : 1) *
    (soundOfMarks(marks, 'accent')?.brighter ?? 1) *
    (soundOfMarks(marks, 'hint')?.bright ?? 1) *
    (notes.some(({ bend }) => bend) ? 0.8 : 1);
  return Math.max(Math.min(7500, Math.max(2500, hertz * 6)) * bright, hertz * 1.8);
}

/** A line sets in with its first part; a later one goes on as loud as it is to be, and one that is accented swells first. */
function attack(gain: AudioParam, { part, at, until }: Stretch, level: number, before: number | undefined): void {
  const accent = soundOfMarks(part.marks, 'accent');
  const peak = level * (accent?.louder ?? 1);
  if (before === undefined) {
    gain.setValueAtTime(0, at);
    gain.linearRampToValueAtTime(peak, at + ATTACK);
    gain.setTargetAtTime(0.85 * level, at + ATTACK, accent ? 0.08 : 0.12);
  } else if (accent) {
    gain.setTargetAtTime(peak, at, 0.015);
    gain.setTargetAtTime(0.85 * level, Math.min(until, at + 0.06), 0.08);
  } else if (level !== before) gain.setTargetAtTime(0.85 * level, at, 0.02);
}

/** How a note begins: a bend settles from a little above, an overbend and a dip from below. */
function enter(reeds: readonly Reed[], { part, at }: Stretch): void {
  const scoop = soundOfMarks(part.marks, 'scoop');
  for (const [index, { source }] of reeds.entries()) {
    const note = part.notes[index];
    const [cents, settle] = scoop
      ? [scoop.cents, Math.min(scoop.seconds, part.seconds / 5)]
      : note?.bend
        ? [28, 0.01]
        : note?.over
          ? [-22, 0.01]
          : [0, 0];
    if (cents === 0) continue;
    source.detune.setValueAtTime(cents, at);
    source.detune.setTargetAtTime(0, at, settle);
  }
}

/** Moves every reed on to the next part of the line: on one hole by a glide that takes its time, to another hole at once. */
function moveTo(reeds: readonly Reed[], before: Stretch, { part, at, cents }: Stretch): void {
  const strayed = before.part.shake !== undefined || soundOfMarks(before.part.marks, 'drop') !== undefined;
  for (const [index, { source }] of reeds.entries()) {
    const [from = 0, to = 0] = [before.cents[index], cents[index]];
    if (from === to && !strayed) continue;
    const sameHole = part.notes[index]?.hole === before.part.notes[index]?.hole;
    const seconds = sameHole && !strayed ? glideSeconds(to - from, part.seconds) : 0.01;
    source.detune.setTargetAtTime(to, at, seconds / 4);
  }
}

/** A half step of bend takes about 80 ms, deeper ones longer, and never most of the note. */
export const glideSeconds = (cents: number, note: number): number =>
  Math.min(0.04 + (0.04 * Math.abs(cents)) / 100, note * 0.6);

/** A slow oscillator on some parameters throughout a stretch, coming in after a delay. */
function wobble(
  context: BaseAudioContext,
  rate: number,
  depth: number,
  targets: readonly AudioParam[],
  { at, until }: Stretch,
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

type SoundOf<Kind extends MarkSound['kind']> = Extract<MarkSound, { kind: Kind }>;

/** The hands close over the harp, at once or with a time constant of so many seconds. */
function closeHands(cutoff: AudioParam, at: number, closed: number, constant: number): void {
  cutoff.cancelScheduledValues(at);
  if (constant === 0) cutoff.setValueAtTime(closed, at);
  else cutoff.setTargetAtTime(closed, at, constant);
}

/** Two hands closed over the harp open and close again. */
function handWah(
  { cycle, opens, closes, takes, closed, open }: SoundOf<'wah'>,
  cutoff: AudioParam,
  { at, until }: Stretch,
  first: boolean,
): void {
  closeHands(cutoff, at, closed, first ? 0 : takes / 3);
  for (let time = at; time < until; time += cycle) {
    if (time + opens < until) cutoff.setTargetAtTime(open, time + opens, takes);
    if (time + closes < until) cutoff.setTargetAtTime(closed, time + closes, takes);
  }
}

/** Two hands closed over the harp open once, the slower the longer the note is. */
function openOnce(
  { after, takes, closed, open }: SoundOf<'opening'>,
  cutoff: AudioParam,
  { at, until }: Stretch,
  first: boolean,
): void {
  closeHands(cutoff, at, closed, first ? 0 : 0.015);
  cutoff.setTargetAtTime(open, at + after * (until - at), takes * (until - at));
}

/** The pitch falls at the end of the note. */
function fallOff(drop: SoundOf<'drop'>, reeds: readonly Reed[], { at, until, cents }: Stretch): void {
  const seconds = Math.min(drop.seconds, (until - at) * 0.45);
  for (const [index, { source }] of reeds.entries()) {
    source.detune.setTargetAtTime((cents[index] ?? 0) + drop.cents, until - seconds, seconds / 1.5);
  }
}

function alternate(reeds: readonly Reed[], { at, until, cents }: Stretch, hertz: number): void {
  const reed = reeds[0];
  if (!reed) return;
  const [own = 0, other] = [cents[0], centsTo(reed, hertz)];
  const { half } = MARKS.shake.sound;
  for (let count = 1, time = at + half; time < until; count++, time += half) {
    reed.source.detune.setTargetAtTime(count % 2 === 1 ? other : own, time, 0.004);
  }
}

/**
 * The holes under the tongue sound for a moment: in a slap, until the tongue lands on them, with the smack of it; in a pull, longer
 * and softer, as the tongue leaves them.
 */
function strike(
  desk: MixingDesk,
  { part, at }: Stretch,
  hertz: readonly number[],
  nodes: AudioNode[],
): AudioScheduledSourceNode[] {
  const { context } = desk;
  const { seconds, level, smack } = present(soundOfMarks(part.marks, 'strike'), 'the mark that strikes');
  const chord = gainOf(context, 0, desk.input.tune);
  chord.gain.setValueAtTime(0, at);
  chord.gain.linearRampToValueAtTime(level, at + 0.004);
  chord.gain.setTargetAtTime(0, at + seconds / 2, seconds / 6);
  nodes.push(chord);
  const sources: AudioScheduledSourceNode[] = hertz.map((frequency) => {
    const reed = context.createOscillator();
    reed.setPeriodicWave(desk.waves.reed);
    reed.frequency.value = frequency;
    reed.connect(chord);
    reed.start(at);
    return reed;
  });
  if (smack > 0) {
    const tongue = context.createBufferSource();
    tongue.buffer = desk.pieces.stick;
    const loudness = gainOf(context, smack, desk.input.tune);
    tongue.connect(loudness);
    tongue.start(at);
    nodes.push(loudness);
    sources.push(tongue);
  }
  return sources;
}
