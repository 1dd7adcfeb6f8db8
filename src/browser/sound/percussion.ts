/** Drums and clicks, computed once for a context: each a short buffer. */
import { chance } from '../../schedule/band/chance.ts';
import { PIECES, type Piece } from '../../schedule/cue.ts';
import { recordOf } from '../../values/checked.ts';

/** Seconds, and the sample at a time, from noise that is even (`noise`) or has its low end taken off (`hiss`). */
interface Recipe {
  readonly seconds: number;
  readonly sample: (time: number, noise: number, hiss: number) => number;
}

const decay = (time: number, seconds: number): number => Math.exp(-time / seconds);
const sine = (turns: number): number => Math.sin(2 * Math.PI * turns);

/** A drop from `high` to `low` hertz: turns after a time. */
const drop = (time: number, high: number, low: number, seconds: number): number =>
  low * time + (high - low) * seconds * (1 - decay(time, seconds));

/** Partials of a struck cymbal, in hertz; any that share no common tone will do. */
const CYMBAL = [3170, 4280, 5390, 6730, 8090];

const RECIPES: Readonly<Record<Piece, Recipe>> = {
  // A small loudspeaker plays only the octave above it and the click of the beater.
  kick: {
    seconds: 0.28,
    sample: (t, noise) => {
      const turns = drop(t, 190, 52, 0.03);
      return (0.62 * sine(turns) + 0.3 * sine(2 * turns)) * decay(t, 0.09) + 0.16 * noise * decay(t, 0.005);
    },
  },
  snare: {
    seconds: 0.2,
    sample: (t, noise, hiss) =>
      0.4 * sine(drop(t, 260, 185, 0.02)) * decay(t, 0.05) + (0.3 * noise + 0.5 * hiss) * decay(t, 0.055),
  },
  stick: {
    seconds: 0.08,
    sample: (t, noise) => 0.6 * sine(1720 * t) * decay(t, 0.012) + 0.22 * noise * decay(t, 0.008),
  },
  hat: { seconds: 0.1, sample: (t, _noise, hiss) => 0.62 * hiss * decay(t, 0.02) },
  ride: {
    seconds: 0.4,
    sample: (t, _noise, hiss) =>
      0.08 * CYMBAL.reduce((sum, hertz) => sum + sine(hertz * t), 0) * decay(t, 0.11) + 0.25 * hiss * decay(t, 0.02),
  },
  click: { seconds: 0.04, sample: (t) => 0.6 * sine(1560 * t) * decay(t, 0.008) },
  accent: { seconds: 0.05, sample: (t) => 0.7 * sine(2340 * t) * decay(t, 0.009) },
};

/** Ends every buffer in silence, so that none breaks off with a click. */
const FADE = 0.01;

/** The sounds of all drums and clicks as buffers. */
export function percussion(context: BaseAudioContext): Readonly<Record<Piece, AudioBuffer>> {
  return recordOf(PIECES, (piece, index) => bufferOf(context, RECIPES[piece], index));
}

function bufferOf(context: BaseAudioContext, { seconds, sample }: Recipe, seed: number): AudioBuffer {
  const rate = context.sampleRate;
  const buffer = context.createBuffer(1, Math.ceil(seconds * rate), rate);
  const data = buffer.getChannelData(0);
  const random = chance(seed);
  let before = 0;
  for (let i = 0; i < data.length; i++) {
    const noise = 2 * random() - 1;
    const hiss = (noise - before) / 2;
    before = noise;
    const left = seconds - i / rate;
    data[i] = sample(i / rate, noise, hiss) * Math.min(1, Math.max(0, left / FADE));
  }
  return buffer;
}

/** Two seconds of even noise: breath for a looping source. */
export function noiseBuffer(context: BaseAudioContext): AudioBuffer {
  const buffer = context.createBuffer(1, 2 * context.sampleRate, context.sampleRate);
  const random = chance(99);
  const data = buffer.getChannelData(0);
  for (let i = 0; i < data.length; i++) data[i] = 2 * random() - 1;
  return buffer;
}
