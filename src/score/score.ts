/**
 * The one model everything between reading and drawing speaks. A score is what a block's text means, for one harp:
 * bars of events in exact time, each pitch spelled for the chord it sounds over, each event knowing where it was written.
 */
import type { TextSpan } from '../diagnostics/diagnostic.ts';
import type { ChordChange, FormBar } from '../harmony/form.ts';
import type { SongKey } from '../harmony/key.ts';
import type { Breath, Harp, HoleNote } from '../instrument/harp.ts';
import type { Pitch } from '../instrument/pitch.ts';
import type { Feel } from '../time/feel.ts';
import type { Fraction } from '../time/fraction.ts';
import type { Meter } from '../time/meter.ts';
import type { Jump, JumpTarget } from './jump.ts';
import type { Mark } from './mark.ts';

/** What can change from one bar to the next. */
export interface BarSettings {
  /** 1 to 12. */
  readonly position: number;
  /** The tonic follows from the harp and the position; the mode from the home chord or the tuning, unless the author named it. */
  readonly key: SongKey;
  /** Whether the author named the mode. */
  readonly keyNamed?: true;
  readonly meter: Meter;
  readonly feel: Feel;
  /** The slot the text was written in; it prints, and changes no sound. */
  readonly slot: Fraction;
}

/** A block; its own settings are those it begins with. */
export interface Score extends BarSettings {
  readonly id?: string;
  /** Ids it had before, by which it is still found. */
  readonly formerly?: readonly string[];
  readonly title?: string;
  readonly harp: Harp;
  /** Quarter notes a minute at the start; dotted quarters in compound time. */
  readonly tempo: number;
  /** The length of the first bar where it is a pickup, else undefined. */
  readonly pickup?: Fraction;
  /** The embouchure at the start. */
  readonly mouth: Mouth;
  readonly progression?: Progression;
  readonly bars: readonly Bar[];
}

/** The embouchure: lips pursed on one hole, or the tongue covering holes beside it. */
export type Mouth = 'lips' | 'tongue';

/** Where chords come from that the music does not write out. */
export interface Progression {
  /** A named form, or undefined for chords listed in the header. */
  readonly form?: string;
  /** The first and last bar of the form that this block plays, counted from 1; undefined for the whole of it. */
  readonly range?: readonly [number, number];
  /** The bars played: of the form, of that range of it, or of the list. */
  readonly bars: readonly FormBar[];
}

/** A change of tempo, which holds from the bar it is written before. Tempos are in the unit of {@link Score.tempo}. */
export interface TempoChange {
  /** The tempo there, where it changes at once. */
  readonly from?: number;
  /** The tempo that is reached evenly by the next change of tempo, or by the end of the block. */
  readonly to?: number;
}

/** A bar as written, with the settings that apply in it. */
export interface Bar extends BarSettings {
  /** Position in the score, from 0. */
  readonly index: number;
  /** As musicians count: the first full bar is 1, a pickup is 0, and the endings of one repeat share their numbers. */
  readonly number: number;
  /** A fraction of a whole note: the meter's, or less in a pickup and in the last bar that makes up for it. */
  readonly length: Fraction;
  /** The label of the part that starts here. */
  readonly part?: string;
  /** Words to the player over the bar: `like a train`. */
  readonly direction?: string;
  /** The change of tempo that is written before it. */
  readonly tempo?: TempoChange;
  /** The chords sounding in this bar, in order; the first has onset 0 unless the bar begins without one. */
  readonly chords: readonly ChordChange[];
  readonly events: readonly Event[];
  readonly repeatStart: boolean;
  readonly repeatEnd: boolean;
  /** How often the repeat that ends here is played in all, where that is more than twice. A repeat with endings is played as often as these say. */
  readonly times?: number;
  /** The ending this bar belongs to, as the times through its repeat in which it is played: in ascending order, counted from 1. */
  readonly endings?: readonly number[];
  /** The sign at its start, to which a jump goes. */
  readonly target?: JumpTarget;
  /** Where playing goes, or ends, at its end. */
  readonly jump?: Jump;
  /** Written as the sign that plays the bar before it again; its events are copies. */
  readonly repeatsLast?: true;
  /** Of how many bars a rest is that begins here and was written as one; each of them is a bar of its own. */
  readonly restBars?: number;
  /** The line that closes a part: thin double, or final. */
  readonly close?: 'double' | 'final';
  /** From its first event to its last, in the block's text. */
  readonly span: TextSpan;
}

/** What is in a bar. */
export type Event = Sound | Rest;

interface Timed {
  /** Position among all events of the score, from 0: stable for the same text. */
  readonly index: number;
  /** A fraction of a whole note from the bar's start. */
  readonly onset: Fraction;
  readonly duration: Fraction;
  readonly source: Source;
}

/** Silence. */
export interface Rest extends Timed {
  readonly kind: 'rest';
}

/**
 * Notes on one breath. A note held past a bar line or a change of chord is one event for each bar and chord it sounds
 * in, the later ones `tied` to the one before: each has its own role.
 */
export interface Sound extends Timed {
  readonly kind: 'sound';
  readonly breath: Breath;
  /** From the lowest hole up; at least one. */
  readonly notes: readonly Note[];
  /** Goes on from the sound before, without a new attack. */
  readonly tied: boolean;
  /** Moves into the next sound on the same breath with no new attack (the release or the drop of a bend). */
  readonly glides: boolean;
  readonly mouth: Mouth;
  readonly marks: readonly Mark[];
  /** What is sung to it, in the order of the verses. Not there where nothing is. */
  readonly lyrics?: readonly Lyric[];
  /** The syllable the player articulates it with: `ta`. */
  readonly syllable?: NoteText;
}

/** One hole that sounds, with its pitch. */
export interface Note extends HoleNote {
  readonly pitch: Pitch;
}

/** One syllable. `hyphen`: the word continues with the next one. `extends`: it is held over this note, and has no text. */
export interface NoteText {
  readonly text: string;
  readonly hyphen: boolean;
  readonly extends: boolean;
}

/** A syllable of a verse. In an ending the verse is one of the times that the ending is for (verses.ts). */
export interface Lyric extends NoteText {
  /** From 1. */
  readonly verse: number;
}

/** Where an event was written: a run of characters of the block, and the quotation that brought it, if one did. */
export interface Source {
  readonly span: TextSpan;
  readonly quote?: QuoteRef;
  /** Where that quotation begins in the block, if it is of a phrase: the same in all events of one quotation. */
  readonly quotedAt?: number;
}

/** A quotation: of a whole block, or of one phrase. Without `lesson` the block is of the same lesson, without `block` the phrase of the same block. */
export interface QuoteRef {
  readonly lesson?: string;
  readonly block?: string;
  readonly phrase?: string;
}
