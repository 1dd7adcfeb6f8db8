/** What a page needs to play a block, from its score. Times become whole ticks, as many to a whole note as the block takes. */
import type { Chord, NoChord } from '../harmony/chord.ts';
import { type Harp, type HoleNote, reed } from '../instrument/harp.ts';
import { ordinal } from '../instrument/position.ts';
import { feelName } from '../time/feel.ts';
import { add, type Fraction, lcm, subtract } from '../time/fraction.ts';
import { barLength, beatLength, meterName } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { levelsOf } from './dynamics.ts';
import { graceAmong, type Mark, type SmallNote, soundOfMarks } from './mark.ts';
import type { Playback, PlayedBar, PlayedChange, PlayedEvent, PlayedGrace, PlayedNote } from './playback.ts';
import { playOrder } from './playing-order.ts';
import { graceRole, midiOfGrace, roleIn } from './queries.ts';
import type { Bar, BarSettings, Event, Note, QuoteRef, Score, Sound } from './score.ts';
import { type BarTempo, pacesOf, type Wait, waitsOf } from './tempo.ts';

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
      ...(bar.endings === undefined
        ? {}
        : { ending: `${bar.endings.map(ordinal).join(' and ')} ending`, endings: bar.endings }),
      chords: bar.chords.map(({ onset, chord }) => changeOf(chord, inTicks(onset))),
      events: bar.events.map((event) => eventOf(event, bar)),
    };
  });
  const { meter, tempo, harp, position, key, mouth } = score;
  const form = score.progression?.bars.length ?? 0;
  const order = playOrder(score);
  return { ticks, meter, tempo, feel: score.feel, harp, position, key, form, mouth, bars, order, quotes };
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
    ...(shake ? { shake: otherHole(shake, sound, score.harp), shakeHole: shake.hole } : {}),
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
