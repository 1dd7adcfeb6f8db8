/** The key of a song on a harp: one rule for blocks, figures, harp pages and `reedway explain`. */
import { type Harp, tonicInPosition } from '../instrument/harp.ts';
import { chromaOf, mod, type PitchClass } from '../instrument/pitch.ts';
import type { Tuning } from '../instrument/tuning.ts';
import type { Chord } from './chord.ts';
import { keyInPosition, type Mode, type SongKey } from './key.ts';
import { readNumeral } from './numeral.ts';
import { readChord } from './symbol.ts';

/**
 * The harp and the position give the tonic. The mode is that of the home chord: the first of `symbols` (numerals or names, in
 * the order in which they decide) on the tonic that has a third and is not counted from another step, as V7/iv is, unless the
 * author names another. Without one, the mode is what the tuning is made for in this position, or else what its reeds play there.
 */
export function keyOfSong(harp: Harp, position: number, symbols: Iterable<string> = [], named?: Mode): SongKey {
  const tonic = tonicInPosition(harp.key, position);
  const mode = named ?? modeOfHomeChord(tonic, symbols) ?? modeOfReeds(harp.tuning, position);
  return keyInPosition(harp.key, position, mode);
}

/** The chord of a symbol (a numeral or a name) that says where home is: one on the tonic. Undefined for any other. */
export function homeChord(symbol: string, tonic: PitchClass): Chord | undefined {
  // V7/iv has the tonic for its root and leads away from it.
  if (readNumeral(symbol)?.of !== undefined) return undefined;
  const chord = readChord(symbol, { tonic, mode: 'major' });
  return chord && chromaOf(chord.root) === chromaOf(tonic) ? chord : undefined;
}

function modeOfHomeChord(tonic: PitchClass, symbols: Iterable<string>): SongKey['mode'] | undefined {
  for (const symbol of symbols) {
    const third = homeChord(symbol, tonic)?.tones.find(({ degree }) => degree === 3);
    if (third) return third.semitones === 3 ? 'minor' : 'major';
  }
  return undefined;
}

/**
 * Minor where the tuning is stamped minor in this position, or where its plain reeds have a minor third above the tonic and no
 * major one: on the Richter tuning third to seventh position. Common practice, no source.
 */
function modeOfReeds({ stamped, blow, draw }: Tuning, position: number): SongKey['mode'] {
  if (stamped?.position === position) return stamped.mode;
  const reeds = new Set([...blow, ...draw].map((reed) => mod(reed, 12)));
  const hasThird = (semitones: number): boolean => reeds.has(mod(7 * (position - 1) + semitones, 12));
  return hasThird(3) && !hasThird(4) ? 'minor' : 'major';
}
