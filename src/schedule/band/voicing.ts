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

/** Half steps of a ninth, an eleventh and a thirteenth within the octave. */
const COLOURS: ReadonlyMap<string, number> = new Map([
  ['9', 2],
  ['11', 5],
  ['13', 9],
]);

/** The tones that a chord’s name asks for beyond seventh or sixth, in half steps above the root: 13 and #11 of `13#11`. */
function coloursOf(chord: PlayedChord): number[] {
  const { third, fifth, seventh } = tonesOf(chord);
  const colours = chord.tones.filter((tone) => ![0, third, fifth, seventh].includes(tone));
  const named = [...chord.suffix.matchAll(/([b#]?)(9|11|13)(?!\d)/g)].map(
    ([, sign, number = '']) => (COLOURS.get(number) ?? 0) + (sign === 'b' ? -1 : sign === '#' ? 1 : 0),
  );
  const asked = named.filter((tone) => colours.includes(tone));
  // Of a name without such a number (`7alt`, `sus24`) the highest tone.
  return asked.length > 0 ? asked : colours.slice(-1);
}

/** Most voices of a chord. Three are enough unless its name asks for more. */
const MOST_VOICES = 4;

/**
 * Third, fifth and seventh (or the root where there is no seventh), each in the same octave: neighbouring chords move little. The
 * colour of a chord takes the place of a plain fifth, as players leave out first the fifth and then the root, which the bass has.
 * Common practice, no source.
 */
export function voicing(chord: PlayedChord): readonly number[] {
  const { third, fifth, seventh } = tonesOf(chord);
  const colours = coloursOf(chord);
  const isPlain = colours.length > 0 && fifth === 7;
  const tones = [third, seventh, ...colours, ...(isPlain ? [] : [fifth])].slice(0, MOST_VOICES);
  const place = (tone: number): number => lowestFrom(LOWEST_CHORD_NOTE, chromaOf(chord.root) + tone);
  // A sharp ninth right below the third would be heard as a wrong third.
  const raised = (tone: number): number => (third === 4 && tone === 3 && place(3) < place(4) ? 12 : 0);
  const chosen = new Set(tones.map((tone) => place(tone) + raised(tone)));
  return [...chosen].sort((a, b) => a - b);
}
