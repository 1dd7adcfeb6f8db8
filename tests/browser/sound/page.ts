/** What the sound tests run inside the browser: the page's own engine, rendered offline or recorded while it plays. */
import { audioOutputOf } from '../../../src/browser/audio-output.ts';
import { wakeSound } from '../../../src/browser/player/context.ts';
import { pageMixOn } from '../../../src/browser/player/page-mix.ts';
import { createMixingDesk, SOUND_PARTS, type SoundPart } from '../../../src/browser/sound/mixing-desk.ts';
import { offlineContext, soundOffline } from '../../../src/browser/sound/offline.ts';
import { pitchesOf } from '../../../src/browser/sound/pitches.ts';
import { startTone, type Tone } from '../../../src/browser/tones/tone.ts';
import { createTransport, type Music } from '../../../src/browser/transport.ts';
import { TEMPERAMENTS } from '../../../src/instrument/temperament.ts';
import { roundPlan } from '../../../src/schedule/plan.ts';
import type { PlaySettings } from '../../../src/schedule/settings.ts';
import type { Playback } from '../../../src/score/playback.ts';

/** Silence before the first round, so that a first onset can be distinguished from the start of the file. */
export const LEAD_IN = 0.25;

export interface Render {
  readonly playback: Playback;
  readonly settings: PlaySettings;
  readonly rounds: number;
  readonly parts: readonly SoundPart[];
  /** The faders where a new visitor finds them; else full up. */
  readonly usual?: boolean;
  /** The temperament, from equal (0) to just (1). */
  readonly justness?: number;
  /** What a hand does meanwhile, at times between the seconds. */
  readonly acts?: readonly Act[];
}

export type Act = { readonly at: number } & (
  | { readonly drone: readonly number[] }
  | { readonly part: SoundPart; readonly level: number }
  | { readonly gate: 'shut' | 'open' }
  | { readonly press: Tone }
  | { readonly release: true }
);

/** Renders rounds one after another as fast as it goes; a mono recording as 32-bit floats in base64. */
async function render({ playback, settings, rounds, parts, usual, justness = 0, acts = [] }: Render): Promise<string> {
  const plans = Array.from({ length: rounds }, (_, round) => roundPlan(playback, settings, round));
  const seconds = LEAD_IN + plans.reduce((sum, plan) => sum + plan.round.seconds, 0) + 0.5;
  const context = offlineContext(seconds);
  // The desk asks of its context nothing that an offline one has not.
  const desk = pageMixOn(context as unknown as AudioContext);
  const { mixingDesk, mix } = desk;
  for (const part of SOUND_PARTS) mixingDesk.level(part, parts.includes(part) ? (usual ? mix[part].level : 1) : 0);
  const temperament = TEMPERAMENTS.find((one) => one.justness === justness);
  const pitches = pitchesOf(playback, { temperament });
  let start = LEAD_IN;
  const cues = plans.flatMap((plan) => {
    const from = start;
    start += plan.round.seconds;
    return plan.cues.map((cue) => ({ cue, at: from + cue.at }));
  });
  soundOffline(context, mixingDesk, cues, pitches);
  let letGo: (() => void) | undefined;
  for (const act of acts) {
    void context.suspend(act.at).then(() => {
      if ('drone' in act) desk.hold(act.drone, () => {});
      else if ('part' in act) mixingDesk.level(act.part, act.level);
      else if ('gate' in act) mixingDesk[act.gate](context.currentTime);
      else if ('press' in act) letGo = startTone(context as unknown as AudioContext, act.press);
      else letGo?.();
      void context.resume();
    });
  }
  const buffer = await context.startRendering();
  return base64(buffer.getChannelData(0));
}

function base64(samples: Float32Array): string {
  const bytes = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);
  let text = '';
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(text);
}

/** Keeps every sample that reaches it, on the audio thread, where nothing the page does can lose one. */
const RECORDER = `registerProcessor('recorder', class extends AudioWorkletProcessor {
  kept = [];
  constructor() {
    super();
    this.port.onmessage = () => this.port.postMessage(this.kept);
  }
  process([input]) {
    this.kept.push(input[0]?.slice() ?? new Float32Array(128));
    return true;
  }
});`;

export interface Recording {
  readonly samples: string;
  readonly rate: number;
}

export interface Live {
  readonly music: Music;
  readonly parts: readonly SoundPart[];
  readonly seconds: number;
  /** What is done while it plays: at a time in seconds, the page is busy for a while, or the settings change. */
  readonly acts: readonly { readonly at: number; readonly busy?: number; readonly settings?: Partial<PlaySettings> }[];
}

/** Plays in real time as the page does, and records what comes out of the desk. */
async function record({ music, parts, seconds, acts }: Live): Promise<Recording> {
  const context = new AudioContext();
  await context.resume();
  await context.audioWorklet.addModule(URL.createObjectURL(new Blob([RECORDER], { type: 'text/javascript' })));
  const recorder = new AudioWorkletNode(context, 'recorder', { numberOfOutputs: 1 });
  const mute = context.createGain();
  mute.gain.value = 0;
  recorder.connect(mute).connect(context.destination);
  const mixingDesk = createMixingDesk(context, recorder);
  for (const part of SOUND_PARTS) mixingDesk.level(part, parts.includes(part) ? 1 : 0);
  const pitches = pitchesOf(music.playback);
  let current = music;
  const transport = createTransport(
    audioOutputOf(mixingDesk, () => pitches),
    music,
    () => {},
  );
  await pause(300);
  transport.play();
  const began = context.currentTime;
  for (const act of acts) {
    await pause((act.at - (context.currentTime - began)) * 1000);
    if (act.busy) {
      const end = performance.now() + act.busy * 1000;
      while (performance.now() < end);
    }
    if (act.settings) {
      current = { ...current, settings: { ...current.settings, ...act.settings } };
      transport.change(current);
    }
  }
  await pause((seconds - (context.currentTime - began)) * 1000);
  const kept = new Promise<Float32Array[]>((resolve) => {
    recorder.port.onmessage = ({ data }) => resolve(data);
  });
  recorder.port.postMessage('done');
  const blocks = await kept;
  transport.stop();
  const samples = new Float32Array(blocks.length * 128);
  for (const [index, block] of blocks.entries()) samples.set(block, index * 128);
  const rate = context.sampleRate;
  await context.close();
  return { samples: base64(samples), rate };
}

/** Plays on and on through the loudspeakers, with every part as loud as a player has it. */
async function play(music: Music): Promise<void> {
  const context = wakeSound();
  if (!context) throw new Error('no sound here');
  await context.resume();
  const mixingDesk = createMixingDesk(context);
  const pitches = pitchesOf(music.playback);
  createTransport(
    audioOutputOf(mixingDesk, () => pitches),
    music,
    () => {},
  ).play();
}

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, Math.max(0, milliseconds)));

export const soundTest = { render, record, play };
Object.assign(globalThis, { soundTest });
