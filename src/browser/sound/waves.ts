/** The tone colours: amplitudes of the harmonics, from the first. */

/** A reed in its slot: many strong harmonics. No published table of a harmonica's was found; this is a plausible one. */
export const REED = [
  0.71, 1, 0.63, 0.56, 0.45, 0.32, 0.28, 0.2, 0.16, 0.13, 0.1, 0.09, 0.08, 0.07, 0.06, 0.05, 0.045, 0.04, 0.03, 0.025,
  0.02, 0.015, 0.012, 0.01,
];
/** An overbent reed: thinner, with little above its first harmonics. */
export const OVERBENT = [1, 0.5, 0.6, 0.2, 0.24, 0.1, 0.12, 0.05, 0.06, 0.03, 0.03, 0.02];
/** Rich above its first two: those of its lowest notes are more than a small loudspeaker has. */
export const BASS = [1, 0.7, 0.55, 0.45, 0.32, 0.22, 0.14, 0.08];
/** Strengths of the partials of the band’s keyboard, from the fundamental up. Chosen by ear. */
export const KEYS = [1, 0.42, 0.2, 0.14, 0.05, 0.04];
/** Fifths and octaves of it must not beat against a bend, so it has few harmonics. */
export const DRONE = [1, 0.35, 0.22, 0.1, 0.05];

/**
 * A wave of these harmonics with scattered phases: started all at once they would add up to a spike. They are scattered so
 * that those which two reeds an octave apart have in common strengthen each other rather than cancel.
 */
export function waveOf(context: BaseAudioContext, harmonics: readonly number[]): PeriodicWave {
  const real = new Float32Array(harmonics.length + 1);
  const imaginary = new Float32Array(harmonics.length + 1);
  for (const [index, amplitude] of harmonics.entries()) {
    const number = index + 1;
    const phase = 2.4 * number * (number - 3);
    real[number] = amplitude * Math.cos(phase);
    imaginary[number] = amplitude * Math.sin(phase);
  }
  return context.createPeriodicWave(real, imaginary);
}
