/** Notes that keep their role where the chord under them becomes another one. */
import { chromaOf, mod } from '../instrument/pitch.ts';
import type { Chord } from './chord.ts';

/**
 * How far above its root another chord has the role that a note has over this one, both in half steps from 0 to 11: the third of a
 * major chord becomes the third of a minor one. What is not of the first chord, or has no counterpart in the second, keeps its distance.
 */
export function sameRoleOver(semitones: number, from: Chord, to: Chord): number {
  const own = from.tones.find((tone) => tone.semitones === semitones);
  const theirs = own && to.tones.find((tone) => tone.degree === own.degree);
  return theirs?.semitones ?? semitones;
}

/**
 * A pitch (MIDI number) over one chord, as the pitch with the same role over another one. `shift` is how far the root moves, in half
 * steps: a whole number of octaves from the interval between the roots.
 */
export function movedPitch(midi: number, from: Chord, to: Chord, shift: number): number {
  const semitones = mod(midi - chromaOf(from.root), 12);
  return midi - semitones + shift + sameRoleOver(semitones, from, to);
}

/** The ways a root can move from one chord to another, in half steps: the nearest ones first, then those an octave further. */
export function rootShifts(from: Chord, to: Chord): number[] {
  const up = mod(chromaOf(to.root) - chromaOf(from.root), 12);
  return [-24, -12, 0, 12].map((octaves) => up + octaves).sort((a, b) => Math.abs(a) - Math.abs(b) || b - a);
}
