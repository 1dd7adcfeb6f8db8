/** What the player says and shows of a note, in words. */
import { printedChord, printedNumeral } from '../../harmony/chord.ts';
import { bendInWords } from '../../instrument/playable.ts';
import type { PlayedChord, PlayedEvent, PlayedNote } from '../../score/playback.ts';
import { playerText } from '../texts/player.ts';

/** What is done to the reed; empty for a plain note. */
export function reedInWords({ bend = 0, over, slide }: PlayedNote, breath: PlayedEvent['breath']): string {
  if (over) return playerText(breath === 'blow' ? 'overblow' : 'overdraw');
  if (bend > 0) return bendInWords(bend);
  return slide ? playerText('slidePressed') : '';
}

/** `96 a minute`: a tempo in beats a minute, in words. */
export const tempoInWords = (tempo: number): string => playerText('perMinute', { beats: Math.round(tempo) });

/** `E7 (I7)`: the chord, and its numeral where it was written as one. */
export const chordInFull = (chord: PlayedChord): string =>
  printedChord(chord) + (chord.numeral === undefined ? '' : ` (${printedNumeral(chord.numeral)})`);
