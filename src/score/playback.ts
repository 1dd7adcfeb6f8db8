/**
 * What the page needs to play a block: a small plain value that goes through JSON unchanged. Every time is a whole number
 * of ticks, and the ticks are chosen for the block, so that times stay as exact as the score's fractions.
 */
import type { Chord, NoChord } from '../harmony/chord.ts';
import { keyInPosition, type Mode, type SongKey } from '../harmony/key.ts';
import { moveChord } from '../harmony/numeral.ts';
import { type Breath, type Harp, type HoleNote, keyNote, reed } from '../instrument/harp.ts';
import { type Feel, feelName } from '../time/feel.ts';
import { add, type Fraction, lcm, subtract } from '../time/fraction.ts';
import { barLength, beatLength, type Meter, meterName } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { levelsOf } from './dynamics.ts';
import { graceAmong, type Mark, type PlainMark, type SmallNote, soundOfMarks } from './mark.ts';
import type { RepeatedPhrase } from './phrases.ts';
import { playOrder } from './playing-order.ts';
import { graceRole, midiOfGrace, roleIn } from './queries.ts';
import type { Bar, BarSettings, Event, Mouth, Note, QuoteRef, Score, Sound } from './score.ts';
import { type BarTempo, pacesOf, type Wait, waitsOf } from './tempo.ts';

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

/** A block that repeats a phrase of its own quotes nobody. */
const isForeign = (quote: QuoteRef | undefined): quote is QuoteRef => quote?.block !== undefined;

/** Words for a quotation, as far as the score knows them. */
const quoteInWords = ({ lesson, block, phrase }: QuoteRef): string =>
  [phrase, [lesson, block].filter(Boolean).join('/')].filter(Boolean).join(' from ');

/** The playback of a score. `nameQuote` says in words whose music a quotation is. */
export function playbackOf(score: Score, nameQuote: (quote: QuoteRef) => string = quoteInWords): Playback {
  const ticks = ticksFor(score);
  const inTicks = (time: Fraction): number => (time.n * ticks) / time.d;
  const quotes: string[] = [];
  const levels = levelsOf(score);
  const paces = pacesOf(score);
  const waits = waitsOf(score);
  const feel = feelName(score.feel);

  function quoteNumber(quote: QuoteRef): number {
    const words = nameQuote(quote);
    if (!quotes.includes(words)) quotes.push(words);
    return quotes.indexOf(words);
  }

  function eventOf(event: Event, bar: Bar): PlayedEvent {
    const { index, source } = event;
    const quote = isForeign(source.quote) && { quote: quoteNumber(source.quote) };
    const timed = { index, at: inTicks(event.onset), length: inTicks(event.duration), ...quote };
    if (event.kind === 'rest') return timed;
    const level = levels.get(event);
    return { ...timed, ...soundOf(event, bar, score), ...(level === undefined ? {} : { level }) };
  }

  const waitsIn = (all: readonly Wait[]): Pick<PlayedBar, 'waits'> =>
    all.length === 0 ? {} : { waits: all.map(({ at, length }) => ({ at: inTicks(at), length: inTicks(length) })) };

  const bars = score.bars.map((bar, index): PlayedBar => {
    const offset =
      index === 0 && score.pickup ? { pickupOffset: inTicks(subtract(barLength(bar.meter), bar.length)) } : {};
    return {
      number: bar.number,
      length: inTicks(bar.length),
      ...offset,
      ...(meterName(bar.meter) === meterName(score.meter) ? {} : { meter: bar.meter }),
      ...(isInKeyOf(bar, score) ? {} : { key: { position: bar.position, mode: bar.key.mode } }),
      ...(feelName(bar.feel) === feel ? {} : { feel: bar.feel }),
      ...(isEven(itemAt(paces, index)) ? {} : { pace: itemAt(paces, index) }),
      ...waitsIn(itemAt(waits, index)),
      ...(bar.part === undefined ? {} : { part: bar.part }),
      chords: bar.chords.map(({ onset, chord }) => changeOf(chord, inTicks(onset))),
      events: bar.events.map((event) => eventOf(event, bar)),
    };
  });
  const { meter, tempo, harp, position, key, mouth } = score;
  const form = score.progression?.bars.length ?? 0;
  const order = playOrder(score);
  return { ticks, meter, tempo, feel: score.feel, harp, position, key, form, mouth, bars, order, quotes };
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

function changeOf(chord: Chord | NoChord, at: number): PlayedChange {
  if (chord === 'none') return { at, silent: true };
  const { step: _, tones, ...named } = chord;
  return { ...named, at, tones: tones.map((tone) => tone.semitones) };
}

function soundOf(sound: Sound, bar: Bar, score: Score): Omit<PlayedEvent, 'index' | 'at' | 'length'> {
  const { breath, tied, glides, mouth, marks } = sound;
  const plain = marks.flatMap((mark) => ('hole' in mark || 'note' in mark ? [] : [mark.name]));
  const shake = marks.find((mark) => 'hole' in mark);
  const grace = graceAmong(marks);
  const strikes = soundOfMarks(plain, 'strike') !== undefined;
  return {
    breath,
    notes: sound.notes.map((note) => noteOf(note, roleIn(bar, sound, note)?.label)),
    ...(tied ? { tied } : {}),
    ...(glides ? { glides } : {}),
    ...(mouth === score.mouth ? {} : { mouth }),
    ...(plain.length > 0 ? { marks: plain } : {}),
    ...(grace ? { grace: graceOf(grace, bar, sound, score.harp) } : {}),
    ...(shake ? { shake: otherHole(shake, sound, score.harp) } : {}),
    ...(strikes ? { struck: otherHoles(sound, score.harp) } : {}),
  };
}

const noteOf = (note: Note, role: string | undefined): PlayedNote => playedHole(note, note.pitch.midi, role);

const playedHole = ({ hole, bend, over, slide }: HoleNote, midi: number, role: string | undefined): PlayedNote => ({
  hole,
  midi,
  ...(bend > 0 ? { bend } : {}),
  ...(over ? { over } : {}),
  ...(slide ? { slide } : {}),
  ...(role === undefined ? {} : { role }),
});

function graceOf(grace: SmallNote, bar: Bar, sound: Sound, harp: Harp): PlayedGrace {
  const { hole, bend, over, slide, breath } = grace;
  const role = graceRole(bar, sound, harp)?.label;
  return { breath, ...playedHole({ hole, bend, over, slide }, midiOfGrace(harp, grace), role) };
}

const raised = (sound: Sound, harp: Harp): number => (sound.notes[0]?.slide ? (harp.tuning.slide ?? 0) : 0);

const otherHole = (mark: Extract<Mark, { hole: number }>, sound: Sound, harp: Harp): number =>
  reed(harp, mark.hole, sound.breath) + raised(sound, harp);

/**
 * What the tongue covers besides: the holes inside a split, or the two below the note. A mouth covers three below at most,
 * and two are enough to be heard.
 */
function otherHoles(sound: Sound, harp: Harp): number[] {
  const holes = sound.notes.map((note) => note.hole);
  const [lowest, highest] = [Math.min(...holes), Math.max(...holes)];
  const inside = Array.from({ length: highest - lowest }, (_, i) => lowest + i).filter((hole) => !holes.includes(hole));
  return (inside.length > 0 ? inside : [lowest - 2, lowest - 1])
    .filter((hole) => hole >= 1)
    .map((hole) => reed(harp, hole, sound.breath) + raised(sound, harp));
}

const isInKeyOf = (a: BarSettings, b: BarSettings): boolean => a.position === b.position && a.key.mode === b.key.mode;

const isEven = ({ from, to }: BarTempo): boolean => from === 1 && to === 1;

/** The fewest ticks in a whole note that make every time of the score, its beat and its beat's half a whole number. */
function ticksFor(score: Score): number {
  let ticks = 8;
  const count = ({ d }: Fraction): void => {
    ticks = lcm(ticks, d);
  };
  for (const { meter } of [score, ...score.bars]) {
    const beat = beatLength(meter);
    count(beat);
    count({ n: beat.n, d: beat.d * 2 });
  }
  for (const bar of score.bars) {
    count(bar.length);
    for (const { onset } of bar.chords) count(onset);
    for (const event of bar.events) {
      count(event.onset);
      count(add(event.onset, event.duration));
    }
  }
  return ticks;
}

/** The chord sounding at a tick of a bar; `chordAt` of queries.ts asks it of a score. */
export function chordAtTick(bar: PlayedBar, tick: number): PlayedChord | undefined {
  const change = bar.chords.findLast(({ at }) => at <= tick);
  return change && isPlayedChord(change) ? change : undefined;
}
