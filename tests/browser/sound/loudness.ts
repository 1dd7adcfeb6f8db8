/** Loudness, brightness and partials of a recording, over time from the onset of its first note. */
import { LEAD_IN, type Sound } from './browser-sound.ts';

/** Loudness (root mean square) of windows of some milliseconds, from the note's onset. */
export function loudness({ samples, rate }: Sound, milliseconds: number): number[] {
  const size = Math.round((milliseconds * rate) / 1000);
  const start = Math.round(LEAD_IN * rate);
  return Array.from({ length: Math.floor((1.9 * rate) / size) }, (_, window) => {
    let sum = 0;
    for (let i = 0; i < size; i++) sum += (samples[start + window * size + i] ?? 0) ** 2;
    return Math.sqrt(sum / size);
  });
}
/** Brightness of the same windows: how much of the sound is in its change from sample to sample. */
export function brightness({ samples, rate }: Sound, milliseconds: number): number[] {
  const changes = samples.map((sample, index) => sample - (samples[index - 1] ?? 0));
  const high = loudness({ samples: changes, rate }, milliseconds);
  return loudness({ samples, rate }, milliseconds).map((all, index) => (high[index] ?? 0) / (all + 1e-9));
}

/** Amplitude and phase of what sounds at a frequency, through a bell-shaped window around a time from the onset. */
export function partial(
  { samples, rate }: Sound,
  hertz: number,
  time: number,
  seconds: number,
): { size: number; phase: number } {
  const size = Math.round(seconds * rate);
  const start = Math.round((LEAD_IN + time) * rate) - (size >> 1);
  let [real, imaginary] = [0, 0];
  for (let i = 0; i < size; i++) {
    const sample = (samples[start + i] ?? 0) * (1 - Math.cos((2 * Math.PI * i) / size));
    const angle = (2 * Math.PI * hertz * (start + i)) / rate;
    real += sample * Math.cos(angle);
    imaginary -= sample * Math.sin(angle);
  }
  return { size: (2 * Math.hypot(real, imaginary)) / size, phase: Math.atan2(imaginary, real) };
}
/** Cents of the partial nearest to a frequency from it, by how fast its phase turns. Quick enough to follow an attack. */
export function centsAt(sound: Sound, hertz: number, time: number, seconds = 0.02): number {
  const step = seconds / 4;
  const turned = partial(sound, hertz, time + step, seconds).phase - partial(sound, hertz, time - step, seconds).phase;
  const turns = turned / (2 * Math.PI);
  return 1200 * Math.log2(1 + (turns - Math.round(turns)) / (2 * step) / hertz);
}
/** Of a MIDI number, equally tempered with A at 440. */
export const hertzOf = (midi: number): number => 440 * 2 ** ((midi - 69) / 12);
