/**
 * What a sentence of a lesson says of the music: a note, a chord, a key, a harp, a position. A plain value, so that a page can carry
 * one and have it said again for another harp.
 */
import type { Chord } from '../../harmony/chord.ts';
import { keyInPosition, type SongKey } from '../../harmony/key.ts';
import { moveChord } from '../../harmony/numeral.ts';
import type { Harp } from '../../instrument/harp.ts';
import type { TabNote } from '../figure/figure.ts';

/** What can be said of a note: what is played, its tab, the pitch, what it is to a chord. */
export const NOTE_FACTS = ['name', 'tab', 'pitch', 'role'] as const;
/** One of {@link NOTE_FACTS}. */
export type NoteFact = (typeof NOTE_FACTS)[number];

/** What can be said of a chord: its name, its numeral, the names of its tones. */
export const CHORD_FACTS = ['name', 'numeral', 'tones'] as const;
/** One of {@link CHORD_FACTS}. */
export type ChordFact = (typeof CHORD_FACTS)[number];

/** How a key is said: as players do (`G`, `D minor`), whole (`G major`), or its tonic alone. */
export const KEY_FACTS = ['usual', 'full', 'tonic'] as const;
/** One of {@link KEY_FACTS}. */
export type KeyFact = (typeof KEY_FACTS)[number];

/** What can be said of a harp: `natural minor harp in C`, its label (`C (natural minor)`), its key alone. */
export const HARP_FACTS = ['harp', 'label', 'key'] as const;
/** One of {@link HARP_FACTS}. */
export type HarpFact = (typeof HARP_FACTS)[number];

/** How a position is said: by its number (`second position`), its name (`cross harp`) or both. */
export const POSITION_FACTS = ['number', 'name', 'both'] as const;
/** One of {@link POSITION_FACTS}. */
export type PositionFact = (typeof POSITION_FACTS)[number];

interface InPlace {
  readonly harp: Harp;
  /** 1 to 12. */
  readonly position: number;
  readonly key: SongKey;
  /** Whether it begins a sentence. */
  readonly capital: boolean;
  /** Whether an article is before it: `a C harp`, `an A harp`. */
  readonly article?: boolean;
}

/** Notes, one or more. */
export interface NoteInline extends InPlace {
  readonly kind: 'note';
  readonly notes: readonly TabNote[];
  /** The first is said, the others follow it in parentheses. */
  readonly facts: readonly NoteFact[];
  /** What roles count from; there where `facts` have a role. */
  readonly chord?: Chord;
}

/** A chord of the song. */
export interface ChordInline extends InPlace {
  readonly kind: 'chord';
  readonly chord: Chord;
  readonly facts: readonly ChordFact[];
}

/** The key of the song. */
export interface KeyInline extends InPlace {
  readonly kind: 'key';
  readonly fact: KeyFact;
}

/** The harp. */
export interface HarpInline extends InPlace {
  readonly kind: 'harp';
  readonly fact: HarpFact;
}

/** The position. */
export interface PositionInline extends InPlace {
  readonly kind: 'position';
  readonly fact: PositionFact;
}

/** What is said of the music within a sentence. */
export type Inline = NoteInline | ChordInline | KeyInline | HarpInline | PositionInline;

/** The same on another harp of the same tuning: what is played stays, and pitches, chords and keys follow. */
export function moveInline<Kind extends Inline>(inline: Kind, harp: Harp): Kind {
  const key = keyInPosition(harp.key, inline.position, inline.key.mode);
  const moved = { ...inline, harp, key };
  return 'chord' in moved && moved.chord ? { ...moved, chord: moveChord(moved.chord, inline.key, key) } : moved;
}
