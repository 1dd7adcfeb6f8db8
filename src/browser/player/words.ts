/** What the player says and shows of a note, in words. */
import { printedChord, printedNumeral } from '../../harmony/chord.ts';
import type { PlayedBar, PlayedChord, PlayedEvent, PlayedNote } from '../../score/playback.ts';

const BENDS = ['', 'half-step bend', 'whole-step bend', 'step-and-a-half bend'];

/** What is done to the reed; empty for a plain note. */
export function reedInWords({ bend = 0, over, slide }: PlayedNote, breath: PlayedEvent['breath']): string {
  if (over) return breath === 'blow' ? 'overblow' : 'overdraw';
  if (bend > 0) return BENDS[bend] ?? `bend of ${bend} half steps`;
  return slide ? 'slide pressed' : '';
}

/** The chord sounding at a place of a bar. */
export const chordAt = (bar: PlayedBar, tick: number): PlayedChord | undefined =>
  bar.chords.findLast((chord) => chord.at <= tick);

export const barInWords = (bar: PlayedBar | undefined): string =>
  !bar ? '' : bar.number === 0 ? 'the pickup' : `bar ${bar.number}`;

export function barsInWords(first: PlayedBar | undefined, last: PlayedBar | undefined): string {
  if (!first || !last || first === last) return barInWords(first);
  return `${barInWords(first)} to ${first.number === 0 ? barInWords(last) : last.number}`;
}

export const tempoInWords = (tempo: number): string => `${Math.round(tempo)} a minute`;

/** `E7 (I7)`: the chord, and its numeral where it was written as one. */
export const chordInFull = (chord: PlayedChord): string =>
  printedChord({ ...chord, tones: [] }) + (chord.numeral === undefined ? '' : ` (${printedNumeral(chord.numeral)})`);
