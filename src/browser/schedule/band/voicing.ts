/** The tones of a chord that bass and chords choose from. */
import { chromaOf } from '../../../instrument/pitch.ts';
import type { PlayedChord } from '../../../score/playback.ts';

/** Half steps above the root. A tone the chord lacks is the nearest thing to it that does not fight it. */
export interface Tones {
  readonly third: number;
  readonly fifth: number;
  readonly sixth: number;
  readonly seventh: number;
}

export function tonesOf({ tones }: PlayedChord): Tones {
  const oneOf = (...wanted: readonly number[]): number | undefined => wanted.find((tone) => tones.includes(tone));
  const third = oneOf(4, 3, 5, 2) ?? 0;
  const fifth = oneOf(7, 6, 8) ?? 7;
  const seventh = oneOf(10, 11) ?? oneOf(9) ?? 12;
  // Under a minor or diminished chord the sixth would be heard as a wrong third of something else.
  const sixth = oneOf(9) ?? (third === 4 ? 9 : seventh === 12 ? fifth : seventh);
  return { third, fifth, sixth, seventh };
}

/** The lowest E of a bass, and the range from there that its roots lie in. */
const BASS_FLOOR = 31;
/** Chords lie around the middle of the piano, under the tune or beside it. */
const CHORD_FLOOR = 53;

const upFrom = (floor: number, chroma: number): number => floor + ((((chroma - floor) % 12) + 12) % 12);

export const bassRoot = (chord: PlayedChord): number => upFrom(BASS_FLOOR, chromaOf(chord.root));

/** Third, fifth and seventh (or the root where there is none), each in the same octave: neighbouring chords move little. */
export function voicing(chord: PlayedChord): readonly number[] {
  const { third, fifth, seventh } = tonesOf(chord);
  const root = chromaOf(chord.root);
  const chosen = new Set([third, fifth, seventh].map((tone) => upFrom(CHORD_FLOOR, root + tone)));
  return [...chosen].sort((a, b) => a - b);
}
