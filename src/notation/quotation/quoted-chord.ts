/** Chords of another block, as the block that quotes them writes them. */
import { type Chord, NO_CHORD, type NoChord, plainChord } from '../../harmony/chord.ts';
import { type SongKey, songKey } from '../../harmony/key.ts';
import { moveChord, numeralOf, rootAt } from '../../harmony/numeral.ts';
import { readChord } from '../../harmony/symbol.ts';
import { chromaOf, fifthsOf, mod, type PitchClass } from '../../instrument/pitch.ts';

/** The key of a song and that of its harp. */
export interface Keys {
  readonly song: SongKey;
  readonly harp: PitchClass;
}

/**
 * A chord of another block as a numeral of this one. It moves as the notes do, by the interval between the harps, so that each
 * note keeps its role; in the same position that is the numeral it was. No numeral has a bass: a chord with one moves by its name.
 */
export function quotedSymbol(chord: Chord | NoChord, from: Keys, to: Keys): string {
  if (chord === 'none') return NO_CHORD;
  const positions = [from, to].map(({ song, harp }) => mod(chromaOf(song.tonic) - chromaOf(harp), 12));
  if (positions[0] === positions[1]) {
    if (!chord.bass) return numeralOf(chord, from.song);
    return plainChord(moveChord(chord, from.song, songKey(to.song.tonic, from.song.mode)));
  }
  if (chord.bass)
    return plainChord(moveChord(chord, { ...from.song, tonic: from.harp }, { ...to.song, tonic: to.harp }));
  const moved = rootAt(fifthsOf(chord.root) + fifthsOf(to.harp) - fifthsOf(from.harp));
  const { numeral: _, ...named } = chord;
  return numeralOf({ ...named, root: moved }, to.song);
}

/** The text of a chord symbol in one key as it is in another, once it has moved with the notes. */
export function movedSymbol(text: string, from: Keys, to: Keys): string {
  if (chromaOf(from.song.tonic) === chromaOf(to.song.tonic) && chromaOf(from.harp) === chromaOf(to.harp)) return text;
  const chord = readChord(text, from.song);
  return chord ? quotedSymbol(chord, from, to) : text;
}
