/**
 * What the page needs to play a block: a small plain value that goes through JSON unchanged. Every time is a whole number
 * of ticks, and the ticks are chosen for the block, so that times stay as exact as the score's fractions.
 */
import type { Chord } from '../harmony/chord.ts';
import { keyInPosition, type Mode, type SongKey } from '../harmony/key.ts';
import { moveChord } from '../harmony/numeral.ts';
import { type Breath, type Harp, keyNote } from '../instrument/harp.ts';
import type { Feel } from '../time/feel.ts';
import type { Meter } from '../time/meter.ts';
import type { PlainMark } from './mark.ts';
import type { RepeatedPhrase } from './phrases.ts';
import type { Mouth } from './score.ts';
import type { BarTempo } from './tempo.ts';

/** A score as the player needs it: every bar, sound and chord in whole ticks. */
export interface Playback {
  /** Ticks in a whole note. */
  readonly ticks: number;
  readonly meter: Meter;
  readonly tempo: number;
  readonly feel: Feel;
  readonly harp: Harp;
  /** 1 to 12. */
  readonly position: number;
  readonly key: SongKey;
  /** Bars of the form the block is built on; 0 for none. */
  readonly form: number;
  readonly mouth: Mouth;
  /** As they are in the score; `bars[n]` is the tile with index n. */
  readonly bars: readonly PlayedBar[];
  /** Indices into `bars` with repeats and endings played out. */
  readonly order: readonly number[];
  /** Whose music is quoted from elsewhere, in words; events name them by their place here. */
  readonly quotes: readonly string[];
  /** The phrases that the block repeats, if there are any, for a player that can choose one (`playedPhrases` of phrases.ts). */
  readonly phrases?: readonly RepeatedPhrase[];
}

/** A bar of a playback. */
export interface PlayedBar {
  /** As musicians count, see `Bar.number`. */
  readonly number: number;
  readonly length: number;
  /** What a pickup leaves out of its bar before its first note. */
  readonly pickupOffset?: number;
  /** Where it is not that of the block. */
  readonly meter?: Meter;
  /** The same of the position and the mode of its key. */
  readonly key?: { readonly position: number; readonly mode: Mode };
  /** The same; it stays as it is where a reader chooses another swing for the block. */
  readonly feel?: Feel;
  /** How fast its ticks pass at its start and its end, evenly between them, as factors of the start of the block; 1 where there is none. */
  readonly pace?: BarTempo;
  /** Where time waits, and how long. */
  readonly waits?: readonly { readonly at: number; readonly length: number }[];
  readonly part?: string;
  /** `first ending`, `first and second ending`: its ending in words, so that bars of one number have different names. */
  readonly ending?: string;
  /** The same as numbers, see `Bar.endings`: the bar is named by them in an address. */
  readonly endings?: readonly number[];
  readonly chords: readonly PlayedChange[];
  readonly events: readonly PlayedEvent[];
}

/** The meter of a bar of a playback. */
export const meterOf = ({ meter }: Pick<Playback, 'meter'>, bar: PlayedBar): Meter => bar.meter ?? meter;

/** A chord as in `harmony`, as far as it is shown and sounded; its tones are half steps above the root. */
export interface PlayedChord extends Omit<Chord, 'tones' | 'step'> {
  readonly at: number;
  readonly tones: readonly number[];
}

/** From here on no chord sounds. */
export interface PlayedSilence {
  readonly at: number;
  readonly silent: true;
}

/** What changes in the harmony of a bar. */
export type PlayedChange = PlayedChord | PlayedSilence;

/** Whether a chord comes in, and not a silence. */
export const isPlayedChord = (change: PlayedChange): change is PlayedChord => !('silent' in change);

/** A rest where `notes` is missing. What is left out is false or none. */
export interface PlayedEvent {
  /** The event's index in the score: the `data-event` of its marks in the engraving. */
  readonly index: number;
  readonly at: number;
  readonly length: number;
  readonly breath?: Breath;
  readonly notes?: readonly PlayedNote[];
  readonly tied?: boolean;
  readonly glides?: boolean;
  readonly mouth?: Mouth;
  readonly marks?: readonly PlainMark[];
  /** How many times as loud as usual. */
  readonly level?: number;
  /** The note that sounds for a moment before. */
  readonly grace?: PlayedGrace;
  /** The MIDI number of the other hole of a shake. */
  readonly shake?: number;
  /** The number of that hole. */
  readonly shakeHole?: number;
  /** MIDI numbers of the holes under the tongue, which a slap or a pull lets sound for a moment. */
  readonly struck?: readonly number[];
  readonly quote?: number;
}

/** A hole that sounds. */
export interface PlayedNote {
  readonly hole: number;
  readonly midi: number;
  readonly bend?: number;
  readonly over?: boolean;
  readonly slide?: boolean;
  /** The role's short name over the chord of the moment. */
  readonly role?: string;
}

/** A grace note. */
export interface PlayedGrace extends PlayedNote {
  readonly breath: Breath;
}

/** The same tab on another harp of the same tuning: what {@link moveToHarp} of move.ts does to a score. */
export function playbackOn(playback: Playback, harp: Harp): Playback {
  const shift = keyNote(harp) - keyNote(playback.harp);
  const keyOn = (own: Harp, { position, mode }: { position: number; mode: Mode }): SongKey =>
    keyInPosition(own.key, position, mode);
  const start = { position: playback.position, mode: playback.key.mode };
  const bars = playback.bars.map((bar): PlayedBar => {
    const [from, to] = [keyOn(playback.harp, bar.key ?? start), keyOn(harp, bar.key ?? start)];
    return {
      ...bar,
      chords: bar.chords.map((change) => (isPlayedChord(change) ? moveChord(change, from, to) : change)),
      events: bar.events.map(
        (event): PlayedEvent => ({
          ...event,
          ...(event.notes && { notes: event.notes.map((note) => ({ ...note, midi: note.midi + shift })) }),
          ...(event.grace && { grace: { ...event.grace, midi: event.grace.midi + shift } }),
          ...(event.shake === undefined ? {} : { shake: event.shake + shift }),
          ...(event.struck && { struck: event.struck.map((midi) => midi + shift) }),
        }),
      ),
    };
  });
  return { ...playback, harp, key: keyOn(harp, start), bars };
}

/** The chord sounding at a tick of a bar; `chordAt` of queries.ts asks it of a score. */
export function chordAtTick(bar: PlayedBar, tick: number): PlayedChord | undefined {
  const change = bar.chords.findLast(({ at }) => at <= tick);
  return change && isPlayedChord(change) ? change : undefined;
}
