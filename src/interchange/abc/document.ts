/**
 * A score as a tune of ABC 2.1 (“The abc music standard 2.1”, 2011). ABC has no sign for a hole, a breath or the bend of a
 * reed: the tab is the first line of text under the notes, and the verses are those after it. The syllables to articulate with are
 * annotations below the notes (4.19), where no reader takes them for a verse.
 */

import { wordsBesideTempo } from '../../engrave/change-words.ts';
import { NO_CHORD, plainChord } from '../../harmony/chord.ts';
import type { ChordChange } from '../../harmony/form.ts';
import type { Mode, SongKey } from '../../harmony/key.ts';
import { plainName } from '../../instrument/pitch.ts';
import { tabOfNotes } from '../../instrument/playable.ts';
import { restsOfBars } from '../../score/bar-repeat.ts';
import { type BarChanges, changesOf, tempoSaidAgain } from '../../score/changes.ts';
import type { Jump } from '../../score/jump.ts';
import type { Mark } from '../../score/mark.ts';
import { marksAfter } from '../../score/marks-after.ts';
import { repeatStarts, withPickupOnce, withRepeatsOfTwo } from '../../score/playing-order.ts';
import { chordsInTurn, endingOpenedBy } from '../../score/queries.ts';
import type { Bar, Event, Score } from '../../score/score.ts';
import { type Slur, slursOf } from '../../score/slurs.ts';
import { onStaff, type StaffNote } from '../../score/spelling.ts';
import { type BarTempo, temposOf } from '../../score/tempo.ts';
import { endOf, type WrittenBar, type WrittenNote, writtenScore } from '../../score/written.ts';
import { feelName } from '../../time/feel.ts';
import { divide, type Fraction, format, fraction, multiply, subtract } from '../../time/fraction.ts';
import { type Meter, meterName, tempoNote } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import { type Credits, partName, sourceOf } from '../credits.ts';
import { type LineUnder, linesUnder, type SungText } from '../syllables.ts';
import { decoration, lengthText, type PitchWriter, pitchWriter, UNIT } from './note.ts';
import { fieldText, lyricText, quotedText } from './text.ts';

const BARS_IN_LINE = 4;
/** Modes behind a tonic: ABC 2.1, “K: - key”. */
const ABC_MODES: Readonly<Record<Mode, string>> = {
  major: '',
  minor: 'm',
  dorian: 'dor',
  phrygian: 'phr',
  lydian: 'lyd',
  mixolydian: 'mix',
  locrian: 'loc',
};

/** The score as a file of one tune. ABC 2.1 has a sign for repeats of more than two times that few programs read. */
export function abcOf(written: Score, credits: Credits): string {
  const score = { ...written, bars: withRepeatsOfTwo({ ...written, bars: withPickupOnce(written) }) };
  return `%abc-2.1\n${[...head(score, credits), ...body(score)].join('\n')}\n`;
}

function head({ key, meter, tempo, feel, ...score }: Score, credits: Credits): string[] {
  const feelText = feel.name === 'straight' ? '' : ` "${feelName(feel)}"`;
  const field = (name: string, text: string | undefined): string[] => {
    const value = fieldText(text ?? '');
    return value === '' ? [] : [`${name}:${value}`];
  };
  return [
    'X:1',
    ...field('T', credits.title),
    ...field('S', sourceOf(credits)),
    ...field('N', partName(score)),
    ...field('Z', credits.licence),
    `M:${meterName(meter)}`,
    `L:${format(UNIT)}`,
    `Q:${tempoText(meter, tempo)}${feelText}`,
    // The last field of a head.
    `K:${keyText(key)} clef=treble`,
  ];
}

const tempoText = (meter: Meter, tempo: number): string =>
  `${format(tempoNote(meter))}=${Math.round(tempo * 100) / 100}`;
const keyText = ({ tonic, mode }: SongKey): string => plainName(tonic) + ABC_MODES[mode];

/** What of the whole score a bar needs. */
interface Context {
  readonly score: Score;
  readonly repeated: ReadonlySet<number>;
  readonly slurs: ReadonlyMap<Event, Slur>;
  readonly after: ReadonlyMap<Event, readonly Mark[]>;
  readonly syllables: LineUnder['texts'] | undefined;
  readonly verses: readonly LineUnder[];
  readonly staff: readonly (readonly StaffNote[])[];
  readonly graces: ReadonlyMap<number, StaffNote>;
  readonly changes: readonly BarChanges[];
  readonly tempoAgain: ReadonlySet<number>;
  readonly tempos: readonly BarTempo[];
}

/** A chord symbol, and where in its bar it is. */
interface NamedChord {
  readonly onset: Fraction;
  readonly name: string;
}

/**
 * What follows a slash is the bass: `6/9` is written without one. No chord is no chord symbol of ABC (4.18), and is written as text
 * above the staff (4.19).
 */
const namedChord = ({ onset, chord }: ChordChange): NamedChord => ({
  onset,
  name:
    chord === 'none'
      ? `"^${NO_CHORD}"`
      : `"${quotedText(plainChord({ ...chord, suffix: chord.suffix.replace('/', '') }))}"`,
});

/** A bar as music, and under each of its notes the tab and the words. */
interface Line {
  readonly music: string;
  readonly tab: string;
  /** Of each verse. */
  readonly words: readonly string[];
}

function body(score: Score): string[] {
  const under = linesUnder(score);
  const changes = changesOf(score);
  const context: Context = {
    score,
    repeated: repeatStarts(score),
    slurs: slursOf(score),
    after: marksAfter(score),
    syllables: under.find(({ kind }) => kind === 'syllables')?.texts,
    verses: under.filter(({ kind }) => kind === 'words'),
    ...onStaff(score),
    changes,
    tempoAgain: tempoSaidAgain(score, changes),
    tempos: temposOf(score),
  };
  const written = writtenScore(score);
  const rests = restsOfBars(score);
  let after = 0;
  const bars = score.bars.flatMap((bar, index): Line[] => {
    if (index < after) return [];
    const several = rests.get(index);
    if (several === undefined) return [barLine(bar, itemAt(written, index), context)];
    after = index + several;
    return [restLine(bar, itemAt(score.bars, after - 1), several, context)];
  });
  const lines: string[] = [];
  for (let first = 0; first < bars.length; first += BARS_IN_LINE) {
    const line = bars.slice(first, first + BARS_IN_LINE);
    lines.push(line.map(({ music }) => music).join(' '));
    // Readers count the verses of a line, so those before the last that is sung are there as well.
    const sung = context.verses.findLastIndex((_, verse) =>
      line.some(({ words }) => /[^*_ ]/.test(words[verse] ?? '')),
    );
    const verses = context.verses.slice(0, sung + 1);
    const under = [
      line.map(({ tab }) => tab),
      ...verses.map((_, verse) => line.map(({ words }) => itemAt(words, verse))),
    ];
    // A line of rests and held notes has nothing under it.
    if (line.some(({ tab }) => /[^* ]/.test(tab))) lines.push(...under.map((texts) => `w: ${texts.join('|')}`));
  }
  return lines;
}

/** A rest of several bars, from its first to its last (4.5). */
function restLine(first: Bar, last: Bar, several: number, context: Context): Line {
  const names = first.chords.map((change) => namedChord(change).name).join('');
  return {
    music: `${opening(first, context)}${names}Z${several} ${closingOf(last, context)}`,
    tab: '',
    words: context.verses.map(() => ''),
  };
}

const closingOf = (bar: Bar, context: Context): string => `${bar.jump ? JUMPS[bar.jump] : ''}${closing(bar, context)}`;

function barLine(bar: Bar, written: WrittenBar, context: Context): Line {
  const pitches = pitchWriter(bar.key);
  const tab: string[] = [];
  const words: string[][] = context.verses.map(() => []);
  const music: string[] = [opening(bar, context)];
  const chordsBefore = chordsInTurn(bar);
  written.notes.forEach((note, index) => {
    const event = itemAt(bar.events, note.event);
    const before = written.notes[index - 1];
    const group = groupOpening(written, index);
    // Between the beams of two groups a space.
    if (index > 0 && (note.beam === undefined || note.beam !== before?.beam)) music.push(' ');
    music.push(group);
    const named = chordsBefore(endOf(note)).map(namedChord);
    if (event.kind === 'rest') {
      music.push(restText(note, written, named));
      return;
    }
    const attack = before?.event !== note.event;
    const last = written.notes[index + 1]?.event !== note.event;
    const slur = context.slurs.get(event);
    const after = context.after.get(event) ?? [];
    const grace = attack ? context.graces.get(event.index) : undefined;
    music.push(
      ...named.map(({ name }) => name),
      attack ? annotationOf(context.syllables?.get(event)) : '',
      ...(attack && !event.tied ? event.marks.filter((mark) => !after.includes(mark) && !('note' in mark)) : []).map(
        (mark) => decoration(mark, note.tiedToNext),
      ),
      ...(last && !note.tiedToNext ? after.map((mark) => decoration(mark, false)) : []),
      grace ? `{/${pitches.write(grace.pitch)}}` : '',
      last && slur?.starts ? '(' : '',
      notesText(context.staff[event.index] ?? [], pitches),
      lengthText(writtenLength(note, written)),
      note.tiedToNext ? '-' : '',
      attack && slur?.stops ? ')' : '',
    );
    const isAttack = attack && !event.tied;
    tab.push(isAttack ? lyricText(tabOfNotes(event.notes, event.breath)) : '*');
    context.verses.forEach(({ texts }, verse) => {
      itemAt(words, verse).push(attack ? wordsOf(texts.get(event)) : '*');
    });
  });
  if (written.notes.length === 0) {
    const names = chordsBefore(bar.length).map((change) => namedChord(change).name);
    music.push(`${names.join('')}z${lengthText(bar.length)}`);
  }
  music.push(` ${closingOf(bar, context)}`);
  return { music: music.join(''), tab: tab.join(' '), words: words.map(joined) };
}

/** Of a part of a tuplet, the length it is written with. */
function writtenLength({ duration, tuplet }: WrittenNote, { tuplets }: WrittenBar): Fraction {
  if (tuplet === undefined) return duration;
  const { actual, normal } = itemAt(tuplets, tuplet);
  return multiply(duration, fraction(actual, normal));
}

/** `(3:2:4`: the next four notes are in a triplet. The first number is 9 at most (4.13), and only the ratio counts. */
function groupOpening({ notes, tuplets }: WrittenBar, index: number): string {
  const { tuplet } = itemAt(notes, index);
  if (tuplet === undefined || notes[index - 1]?.tuplet === tuplet) return '';
  const { actual, normal } = itemAt(tuplets, tuplet);
  const ratio = fraction(actual, normal);
  return `(${ratio.n}:${ratio.d}:${notes.filter((note) => note.tuplet === tuplet).length}`;
}

function notesText(notes: readonly StaffNote[], pitches: PitchWriter): string {
  const names = notes.map(({ pitch }) => pitches.write(pitch)).join('');
  return notes.length === 1 ? names : `[${names}]`;
}

/** Lengths whose denominator is a power of two: readers of ABC know no others outside of tuplets. */
/** Whether one note value with up to two dots lasts so long. */
function isPlain({ n, d }: Fraction): boolean {
  let odd = n;
  while (odd > 0 && odd % 2 === 0) odd /= 2;
  return Number.isInteger(Math.log2(d)) && [1, 3, 7].includes(odd);
}

/**
 * A rest, cut where a chord comes in. A chord that comes in where no rest can end is named at its start, and so is one in a tuplet,
 * whose notes are counted.
 */
function restText(note: WrittenNote, written: WrittenBar, chords: readonly NamedChord[]): string {
  const length = writtenLength(note, written);
  const stretch = divide(length, note.duration);
  const parts: string[] = [];
  let at = note.onset;
  let names = '';
  const end = endOf(note);
  for (const { onset, name } of chords) {
    const [part, rest] = [multiply(subtract(onset, at), stretch), multiply(subtract(end, onset), stretch)];
    if (note.tuplet === undefined && part.n > 0 && isPlain(part) && isPlain(rest)) {
      parts.push(`${names}z${lengthText(part)}`);
      names = '';
      at = onset;
    }
    names += name;
  }
  return `${parts.join('')}${names}z${lengthText(multiply(subtract(end, at), stretch))}`;
}

/** A syllable below its note. */
const annotationOf = (syllable: SungText | undefined): string => {
  if (syllable?.text === undefined) return '';
  const isOpen = syllable.syllabic === 'begin' || syllable.syllabic === 'middle';
  return `"_${quotedText(isOpen ? `${syllable.text}-` : syllable.text)}"`;
};

const wordsOf = (syllable: SungText | undefined): string => {
  if (!syllable) return '*';
  if (syllable.text === undefined) return '_';
  const text = lyricText(syllable.text) || '*';
  return syllable.syllabic === 'begin' || syllable.syllabic === 'middle' ? `${text}-` : text;
};

/** A hyphen joins a syllable to the next one without a space. */
const joined = (words: readonly string[]): string => words.join(' ').replaceAll(/(?<!\\)- /g, '-');

/** What goes before the notes of a bar. Its own bar line only begins the tune: others end the bar before. */
function opening(bar: Bar, context: Context): string {
  const { score, repeated } = context;
  const ending = endingOpenedBy(score, bar);
  const repeat = bar.index === 0 && (bar.repeatStart || repeated.has(0)) ? '|:' : '';
  const labels = [bar.part, bar.direction].map((text) => (text === undefined ? '' : `"^${quotedText(text)}"`));
  const target = bar.target === undefined ? '' : `!${bar.target}!`;
  return `${repeat}${ending === undefined ? '' : `[${ending.join(',')} `}${target}${changeFields(bar, context)}${labels.join('')}`;
}

/** What changes before a bar, as fields in the music (3.2). */
function changeFields(bar: Bar, { changes, tempoAgain, tempos }: Context): string {
  const own = itemAt(changes, bar.index);
  const { from, to } = itemAt(tempos, bar.index);
  // The head says how fast the first bar begins.
  const isNew = bar.index > 0 && (own.tempo?.from !== undefined || tempos[bar.index - 1]?.from !== from);
  const isSaid = isNew || from !== to || tempoAgain.has(bar.index);
  return [
    ...(own.meter ? [`[M:${meterName(own.meter)}]`] : []),
    ...(own.key ? [`[K:${keyText(own.key)}]`] : []),
    ...(isSaid ? [`[Q:${tempoText(bar.meter, from)}]`] : []),
    ...wordsBesideTempo(own, bar.meter).map((text) => `"^${quotedText(text)}"`),
  ].join('');
}

/** The jumps of ABC 2.1 (4.14): decorations of the bar line behind them. */
const JUMPS: Readonly<Record<Jump, string>> = {
  'to-coda': '!dacoda!',
  fine: '!fine!',
  'D.C.': '!D.C.!',
  'D.S.': '!D.S.!',
};

/** The bar line after a bar, which also says whether a repeat begins with the next one. */
function closing(bar: Bar, { score: { bars }, repeated }: Context): string {
  const next = bars[bar.index + 1];
  const begins = next !== undefined && (next.repeatStart || repeated.has(next.index));
  if (bar.repeatEnd) return begins ? '::' : ':|';
  if (begins) return '|:';
  return bar.close === 'final' ? '|]' : bar.close === 'double' ? '||' : '|';
}
