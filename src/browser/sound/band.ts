/** The band's voices: a plucked bass, soft keys, and the drums. */
import type { BassCue, ChordCue, HitCue } from '../../schedule/cue.ts';
import { gainOf, type MixingDesk } from './mixing-desk.ts';
import type { Pitches } from './reed.ts';
import { type Voice, voiceOf } from './voice.ts';

const TAIL = 0.12;

/** Sounds a bass note at a time of the context's clock, in seconds. */
export function soundBass(desk: MixingDesk, cue: BassCue, at: number, { ofMidi }: Pitches): Voice {
  const { context } = desk;
  const end = at + Math.max(0.05, cue.seconds - 0.03);
  const loudness = gainOf(context, 0, desk.input.bass);
  loudness.gain.setValueAtTime(0, at);
  loudness.gain.linearRampToValueAtTime(cue.level, at + 0.006);
  loudness.gain.setTargetAtTime(0.45 * cue.level, at + 0.006, 0.14);
  loudness.gain.setTargetAtTime(0, end, 0.018);
  const string = tone(desk, desk.waves.bass, ofMidi(cue.midi), loudness, at);
  return voiceOf([string], [loudness], end + TAIL);
}

/** Sounds a chord at a time of the context's clock, in seconds. */
export function soundChord(desk: MixingDesk, cue: ChordCue, at: number, { ofMidi }: Pitches): Voice {
  const { context } = desk;
  const held = cue.touch === 'pad';
  const end = at + cue.seconds;
  const loudness = gainOf(context, 0, desk.input.chords);
  loudness.gain.setValueAtTime(0, at);
  loudness.gain.linearRampToValueAtTime(cue.level, at + (held ? 0.04 : 0.004));
  loudness.gain.setTargetAtTime((held ? 0.6 : 0.35) * cue.level, at + (held ? 0.04 : 0.004), held ? 0.4 : 0.06);
  loudness.gain.setTargetAtTime(0, end, held ? 0.03 : 0.022);
  const keys = cue.midis.map((midi) => tone(desk, desk.waves.keys, ofMidi(midi), loudness, at));
  return voiceOf(keys, [loudness], end + 2 * TAIL);
}

function tone(desk: MixingDesk, wave: PeriodicWave, hertz: number, to: AudioNode, at: number): OscillatorNode {
  const source = desk.context.createOscillator();
  source.setPeriodicWave(wave);
  source.frequency.value = hertz;
  source.connect(to);
  source.start(at);
  return source;
}

/** Sounds a stroke of the drums or a click at a time of the context's clock, in seconds. */
export function soundHit(desk: MixingDesk, cue: HitCue, at: number): Voice {
  const { context } = desk;
  const clicks = cue.piece === 'click' || cue.piece === 'accent';
  const part = cue.counts ? 'count' : clicks ? 'click' : 'drums';
  const loudness = gainOf(context, cue.level, desk.input[part]);
  const buffer = desk.pieces[cue.piece];
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.connect(loudness);
  source.start(at);
  return voiceOf([source], [loudness], at + buffer.duration);
}
