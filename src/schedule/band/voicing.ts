/** The tones of a chord that bass and chords choose from. */
import { chromaOf, lowestFrom, mod } from '../../instrument/pitch.ts';
import type { PlayedChord } from '../../score/playback.ts';

/** Half steps above the root. Where the chord lacks a tone, the nearest one that does not clash stands in. */
export interface Tones {
  readonly third: number;
  readonly fifth: number;
  readonly sixth: number;
  readonly seventh: number;
}

/** The tones of a chord by their job, in half steps above its root. */
export function tonesOf({ tones }: PlayedChord): Tones {
  const oneOf = (...wanted: readonly number[]): number | undefined => wanted.find((tone) => tones.includes(tone));
  const fifth = oneOf(7, 6, 8) ?? 7;
  const third = oneOf(4, 3, 5, 2) ?? fifth;
  const seventh = oneOf(10, 11) ?? oneOf(9) ?? 12;
  // The sixth belongs to a major third and a pure fifth; elsewhere it would be heard as a wrong tone of something else.
  const sixth = oneOf(9) ?? (third === 4 && fifth === 7 ? 9 : seventh === 12 ? fifth : seventh);
  return { third, fifth, sixth, seventh };
}

/** The lowest E of a bass, and where it would come into the chords. */
const [BASS_FLOOR, BASS_CEILING] = [28, 54];
/** Roots lie in the octave from G up: the three below are little more than a rumble in a small loudspeaker. */
const LOWEST_BASS_NOTE = 31;
/** Chords lie around the middle of the piano, under the tune or beside it. */
const LOWEST_CHORD_NOTE = 53;

/** The MIDI number of what the bass plays for the root: the chord's own bass where it has one. */
export const bassRoot = ({ root, bass }: PlayedChord): number => lowestFrom(LOWEST_BASS_NOTE, chromaOf(bass ?? root));

/** The MIDI number of a tone so many half steps above the root, for the bass. */
export const bassTone = ({ root }: PlayedChord, tone: number): number =>
  lowestFrom(LOWEST_BASS_NOTE, chromaOf(root)) + tone;

/** The same tone at most an octave from the note before, and a half step from it where that is possible. */
export function octaveNear(midi: number, before: number): number {
  const step = mod(midi - before, 12);
  const reach = step === 1 || step === 11 ? 1 : 12;
  let near = midi;
  while (near > before + reach) near -= 12;
  while (near < before - reach) near += 12;
  return near < BASS_FLOOR ? near + 12 : near > BASS_CEILING ? near - 12 : near;
}

/** Third, fifth and seventh (or the root where there is none), each in the same octave: neighbouring chords move little. */
export function voicing(chord: PlayedChord): readonly number[] {
  const { third, fifth, seventh } = tonesOf(chord);
  const root = chromaOf(chord.root);
  const chosen = new Set([third, fifth, seventh].map((tone) => lowestFrom(LOWEST_CHORD_NOTE, root + tone)));
  return [...chosen].sort((a, b) => a - b);
}
