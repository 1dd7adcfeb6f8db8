/** What is to sound when. Times are in seconds from the start of the round (or of the count-in). */
import type { Breath } from '../instrument/harp.ts';
import type { PlainMark } from '../score/mark.ts';
import type { PlayedNote } from '../score/playback.ts';
import type { Mouth } from '../score/score.ts';

/** One thing to sound. */
export type Cue = LineCue | BassCue | ChordCue | HitCue;

/** One breath's run of notes that is attacked once: a note with what is tied to it and what it glides into. */
export interface LineCue {
  readonly kind: 'line';
  readonly at: number;
  readonly seconds: number;
  readonly breath: Breath;
  readonly parts: readonly LinePart[];
}

/** One note of a line: attacked, tied or glided into. */
export interface LinePart {
  /** From the line's start. */
  readonly at: number;
  readonly seconds: number;
  readonly notes: readonly PlayedNote[];
  readonly mouth: Mouth;
  readonly marks: readonly PlainMark[];
  /** How many times as loud as usual. */
  readonly level?: number;
  readonly shake?: number;
  readonly struck?: readonly number[];
}

/** A note of the bass. */
export interface BassCue {
  readonly kind: 'bass';
  readonly at: number;
  readonly seconds: number;
  readonly midi: number;
  readonly level: number;
}

/** A chord of the band. */
export interface ChordCue {
  readonly kind: 'chord';
  readonly at: number;
  readonly seconds: number;
  readonly midis: readonly number[];
  readonly level: number;
  /** Struck short, or held softly. */
  readonly touch: 'stab' | 'pad';
}

/** A stroke of the drums or a click. */
export interface HitCue {
  readonly kind: 'hit';
  readonly at: number;
  readonly piece: Piece;
  readonly level: number;
  /** A click of the count-in, which is heard with the metronome off as well. */
  readonly counts?: boolean;
}

/** The drums, and the clicks of metronome and count-in. */
export const PIECES = ['kick', 'snare', 'stick', 'hat', 'ride', 'click', 'accent'] as const;
/** One of {@link PIECES}. */
export type Piece = (typeof PIECES)[number];

/** Sorts cues by their time. */
export const byTime = (a: { readonly at: number }, b: { readonly at: number }): number => a.at - b.at;
