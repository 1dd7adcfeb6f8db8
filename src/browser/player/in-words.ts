/** What the player says of tempos and chords, in words. */
import { printedChord, printedNumeral } from '../../harmony/chord.ts';
import type { PlayedChord } from '../../score/playback.ts';
import { playerText } from '../texts/player.ts';

/** `96 a minute`: a tempo in beats a minute, in words. */
export const tempoInWords = (tempo: number): string => playerText('perMinute', { beats: Math.round(tempo) });

/** `E7 (I7)`: the chord, and its numeral where it was written as one. */
export const chordInFull = (chord: PlayedChord): string =>
  printedChord(chord) + (chord.numeral === undefined ? '' : ` (${printedNumeral(chord.numeral)})`);
