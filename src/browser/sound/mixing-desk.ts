/** The mixing desk: a channel for every part, a gate that opens and shuts without a click, and a limit that is never passed. */
import type { Piece } from '../../schedule/cue.ts';
import { recordOf } from '../../values/checked.ts';
import { noiseBuffer, percussion } from './percussion.ts';
import { BASS, DRONE, KEYS, OVERBENT, REED, waveOf } from './waves.ts';

/** The parts that have a fader. */
export const SOUND_PARTS = ['tune', 'bass', 'drums', 'chords', 'click', 'drone'] as const;
/** One of {@link SOUND_PARTS}. */
export type SoundPart = (typeof SOUND_PARTS)[number];

/** The audio graph that all sound of a page goes through. */
export interface MixingDesk {
  readonly context: BaseAudioContext;
  /** Where each part's voices go, and the count-in, which no fader belongs to. */
  readonly input: Readonly<Record<SoundPart | 'count', AudioNode>>;
  readonly waves: Readonly<Record<'reed' | 'overbent' | 'bass' | 'keys' | 'drone', PeriodicWave>>;
  readonly pieces: Readonly<Record<Piece, AudioBuffer>>;
  /** Breath noise that all lines share, always running. */
  readonly breath: AudioNode;
  /** Where a single note goes that is pressed by itself, whatever the gate does. */
  readonly aside: AudioNode;
  /** Sets a part's loudness, 0 to 1. */
  readonly level: (part: SoundPart, level: number) => void;
  /** Silences everything but the drone from a time on, within {@link GATE_FADE}. */
  readonly shut: (at: number) => void;
  readonly open: (at: number) => void;
}

/** Seconds in which the gate opens or shuts: too slow to click, too fast to be heard as a fade. */
export const GATE_FADE = 0.01;

/** Loudness of each part's channel at full level; set so that tune and band together stay under the limiter. */
const HEADROOM: Readonly<Record<SoundPart, number>> = {
  tune: 0.34,
  bass: 0.3,
  drums: 0.75,
  chords: 0.36,
  click: 0.5,
  drone: 0.22,
};

/** Sets up the desk in a context. The sound leaves it to `output`, the context's own by default. */
export function createMixingDesk(context: BaseAudioContext, output: AudioNode = context.destination): MixingDesk {
  const limiter = context.createWaveShaper();
  limiter.curve = limit();
  limiter.connect(output);
  // The curve covers inputs from -1 to 1, and has to cover sums of up to two.
  const master = gainOf(context, 1 / LIMITER_INPUT_MAX, limiter);
  const gate = gainOf(context, 1, master);

  const levels = recordOf(SOUND_PARTS, (part) => gainOf(context, HEADROOM[part], part === 'drone' ? master : gate));

  // The reed's body, the bass's cabinet and the keys' softness are each one filter for the whole part.
  const reedBody = (to: AudioNode): BiquadFilterNode => {
    const body = filterOf(context, 'peaking', 2100, to);
    body.gain.value = 5;
    return body;
  };
  const cabinet = filterOf(context, 'lowpass', 950, levels.bass);
  const soft = filterOf(context, 'lowpass', 2600, levels.chords);

  const noise = context.createBufferSource();
  noise.buffer = noiseBuffer(context);
  noise.loop = true;
  const breath = context.createBiquadFilter();
  breath.type = 'bandpass';
  breath.frequency.value = 2800;
  breath.Q.value = 0.8;
  noise.connect(breath);
  noise.start();

  return {
    context,
    aside: reedBody(gainOf(context, HEADROOM.tune, master)),
    input: {
      ...levels,
      count: gainOf(context, HEADROOM.click / 2, gate),
      tune: reedBody(levels.tune),
      bass: cabinet,
      chords: soft,
    },
    waves: {
      reed: waveOf(context, REED),
      overbent: waveOf(context, OVERBENT),
      bass: waveOf(context, BASS),
      keys: waveOf(context, KEYS),
      drone: waveOf(context, DRONE),
    },
    pieces: percussion(context),
    breath,
    level: (part, level) => {
      // A square law: half way along the slider sounds about half as loud.
      levels[part].gain.setTargetAtTime(HEADROOM[part] * level * level, context.currentTime, GATE_FADE / 2);
    },
    shut: (at) => move(gate.gain, 0, at),
    open: (at) => move(gate.gain, 1, at),
  };
}

function move(gain: AudioParam, value: number, at: number): void {
  gain.cancelScheduledValues(at);
  // A quarter of the fade is the time constant: 2 % is left at its end.
  gain.setTargetAtTime(value, at, GATE_FADE / 4);
}

/** A gain node that is connected to another node. */
export function gainOf(context: BaseAudioContext, gain: number, to: AudioNode): GainNode {
  const node = context.createGain();
  node.gain.value = gain;
  node.connect(to);
  return node;
}

function filterOf(context: BaseAudioContext, type: BiquadFilterType, hertz: number, to: AudioNode): BiquadFilterNode {
  const node = context.createBiquadFilter();
  node.type = type;
  node.frequency.value = hertz;
  node.connect(to);
  return node;
}

/** The largest sum that the limiter still limits as intended. */
const LIMITER_INPUT_MAX = 2;
/** Up to here what goes in comes out unchanged; above it bends towards {@link LIMITER_CEILING}. */
const LIMITER_KNEE = 0.8;
const LIMITER_CEILING = 0.98;

/** A limiter that has no delay, unlike a compressor, which would move every onset. */
function limit(): Float32Array<ArrayBuffer> {
  const curve = new Float32Array(8193);
  const room = LIMITER_CEILING - LIMITER_KNEE;
  for (let i = 0; i < curve.length; i++) {
    const sum = ((2 * i) / (curve.length - 1) - 1) * LIMITER_INPUT_MAX;
    const size = Math.abs(sum);
    curve[i] =
      Math.sign(sum) * (size <= LIMITER_KNEE ? size : LIMITER_KNEE + room * Math.tanh((size - LIMITER_KNEE) / room));
  }
  return curve;
}
