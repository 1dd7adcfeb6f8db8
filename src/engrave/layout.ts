/**
 * The heights that all tiles of a block share. A tile has parts, one under the other; a part is there only in tiles that have
 * something in it, and a row is as high as its tiles need. Each part has its own coordinates: those of the staff begin at its
 * top line, those of the lanes {@link LANES}.centre above their centre line.
 */
import type { Score } from '../score/score.ts';
import { type LineOfWords, linesOfWords } from '../score/verses.ts';
import type { LaneLayout } from './lanes/lanes.ts';

/** Parts of one line: their heights, and where the baseline or the line of each is. */
/** A line of the part’s name or of words to the player. */
export const ABOVE = { line: 16, baseline: 12 };
/** The line of the signs of jumps, and the middle of segno and coda. */
export const JUMPS = { height: 22, baseline: 15, middle: 11 };
export const ENDING = { height: 17, line: 3 };
/** `foot`: how far the ends of a bracket reach down. */
export const PHRASES = { height: 13, line: 5.5, foot: 10, baseline: 9.2 };
export const CHORDS = { height: 16, baseline: 12 };
export const STAFF_HEIGHT = 40;
export const WORDS = { height: 16, baseline: 12 };
export const BAND = { height: 13, middle: 6 };
/** One line of words or syllables; further ones are `line` apart. */
export const LYRICS = { height: 18, baseline: 13, line: 16 };
/** The part of the lanes has room for the names of both; numbers reach beyond it. */
export const LANES = { height: 30, centre: 15 };

/** What the tiles of a block share. */
export interface Layout {
  readonly lanes: LaneLayout;
  /** Whether the embouchure is shown. */
  readonly hasBand: boolean;
  /** The lines of words, from the top down. */
  readonly words: readonly LineOfWords[];
}

/** What decides the heights of a block's parts. */
export function layoutOf(score: Score): Layout {
  const sounds = score.bars.flatMap((bar) => bar.events.flatMap((event) => (event.kind === 'sound' ? [event] : [])));
  const blowBends = Math.max(
    0,
    ...sounds.flatMap(({ breath, notes }) => (breath === 'blow' ? notes.map((note) => note.bend) : [])),
  );
  return {
    lanes: { centre: LANES.centre, blowBends },
    words: linesOfWords(score.bars),
    hasBand: score.mouth === 'tongue' || sounds.some(({ mouth }) => mouth === 'tongue'),
  };
}
