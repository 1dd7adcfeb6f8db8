/**
 * A score as MusicXML 4.0 (W3C Community Group Final Report, 2021): what sounds, how it is written, the chords, the words and the
 * repeats. The standard has no element for a hole, a breath or the bend of a reed: they are `other-technical` in words, and
 * the tab is a line of text under the notes, which every program shows.
 */
import { clefOf } from '../../engrave/clef.ts';
import { barsShownAsSign, restsOfBars } from '../../score/bar-repeat.ts';
import { type BarChanges, changesOf } from '../../score/changes.ts';
import { filledIn, type Mark, rowOf } from '../../score/mark.ts';
import { marksAfter } from '../../score/marks-after.ts';
import { repeatStarts, withPickupOnce } from '../../score/playing-order.ts';
import { chordsInTurn, endingOpenedBy, isSameEnding } from '../../score/queries.ts';
import type { Bar, Event, Mouth, Score, Sound } from '../../score/score.ts';
import { type Slur, slursOf } from '../../score/slurs.ts';
import { onStaff, type StaffNote } from '../../score/spelling.ts';
import { type BarTempo, temposOf } from '../../score/tempo.ts';
import { endOf, type WrittenBar, writtenScore } from '../../score/written.ts';
import { type Fraction, fraction, lcm, multiply, subtract, ZERO } from '../../time/fraction.ts';
import { itemAt, valueAt } from '../../values/checked.ts';
import { type Credits, partName, sourceOf } from '../credits.ts';
import { type LineUnder, linesUnder } from '../syllables.ts';
import { writeHarmony } from './harmony.ts';
import { writeBarRepeat, writeJump, writeRestOfBars, writeTarget } from './jumps.ts';
import { inDivisions, writeNote } from './note.ts';
import { writeChange, writeDirection, writeKey, writeMeter, writeTempo } from './settings.ts';
import { type XmlWriter, xmlWriter } from './xml.ts';

/** General MIDI 1, “Sound Set”: 23 is the harmonica, counted from 1. */
const HARMONICA = 23;

/** The score as a MusicXML document of one part. */
export function musicXmlOf(read: Score, credits: Credits): string {
  const score = { ...read, bars: withPickupOnce(read) };
  const xml = xmlWriter();
  xml.open('score-partwise', { version: '4.0' });
  writeCredits(xml, score, credits);
  writeParts(xml, score);
  xml.open('part', { id: 'P1' });
  writeBars(xml, score);
  xml.close();
  xml.close();
  return xml.text();
}

function writeCredits(xml: XmlWriter, score: Score, credits: Credits): void {
  xml.open('work');
  xml.leaf('work-title', credits.title);
  xml.close();
  xml.open('identification');
  if (credits.teacher !== undefined) xml.leaf('creator', credits.teacher, { type: 'teacher' });
  if (credits.licence !== undefined) xml.leaf('rights', credits.licence);
  xml.open('encoding');
  xml.leaf('software', 'Reedway');
  xml.close();
  const source = sourceOf(credits);
  if (source !== '') xml.leaf('source', source);
  xml.open('miscellaneous');
  xml.leaf('miscellaneous-field', partName(score), { name: 'harp' });
  xml.close();
  xml.close();
}

function writeParts(xml: XmlWriter, score: Score): void {
  xml.open('part-list');
  xml.open('score-part', { id: 'P1' });
  xml.leaf('part-name', partName(score));
  xml.open('score-instrument', { id: 'P1-I1' });
  xml.leaf('instrument-name', 'Harmonica');
  xml.leaf('instrument-sound', 'wind.reed.harmonica');
  xml.close();
  xml.open('midi-instrument', { id: 'P1-I1' });
  xml.leaf('midi-channel', 1);
  xml.leaf('midi-program', HARMONICA);
  xml.close();
  xml.close();
  xml.close();
}

/** What of the whole score a bar needs. */
interface Context {
  readonly score: Score;
  readonly divisions: number;
  readonly repeated: ReadonlySet<number>;
  readonly slurs: ReadonlyMap<Event, Slur>;
  readonly after: ReadonlyMap<Event, readonly Mark[]>;
  readonly under: readonly LineUnder[];
  readonly staff: readonly (readonly StaffNote[])[];
  readonly graces: ReadonlyMap<number, StaffNote>;
  readonly changes: readonly BarChanges[];
  readonly tempos: readonly BarTempo[];
  /** Bars that are shown as the sign of a repeated bar. */
  readonly signs: ReadonlySet<number>;
  readonly rests: ReadonlyMap<number, number>;
}

function writeBars(xml: XmlWriter, score: Score): void {
  const written = writtenScore(score);
  const context: Context = {
    score,
    divisions: divisionsOf(score, written),
    repeated: repeatStarts(score),
    slurs: slursOf(score),
    after: marksAfter(score),
    under: linesUnder(score),
    ...onStaff(score),
    changes: changesOf(score),
    tempos: temposOf(score),
    signs: barsShownAsSign(score),
    rests: restsOfBars(score),
  };
  let mouth: Mouth | undefined;
  score.bars.forEach((bar, index) => {
    mouth = writeBar(xml, bar, itemAt(written, index), mouth, context);
  });
}

/** The fewest divisions of a quarter note that make every written length and every change of chord a whole number. */
function divisionsOf(score: Score, written: readonly WrittenBar[]): number {
  let divisions = 1;
  const count = (time: Fraction): void => {
    divisions = lcm(divisions, multiply(time, fraction(4)).d);
  };
  for (const { notes } of written)
    for (const { onset, duration } of notes) for (const time of [onset, duration]) count(time);
  for (const { chords, length } of score.bars)
    for (const time of [length, ...chords.map(({ onset }) => onset)]) count(time);
  return divisions;
}

function writeBar(xml: XmlWriter, bar: Bar, written: WrittenBar, before: Mouth | undefined, context: Context): Mouth {
  const { score, divisions, slurs, after, under, staff } = context;
  const first = bar.index === 0;
  const isPickup = first && score.pickup !== undefined;
  xml.open('measure', { number: bar.number, ...(isPickup ? { implicit: 'yes' } : {}) });
  writeLeftLine(xml, bar, context);
  if (first) writeAttributes(xml, score, divisions);
  if (first) writeTempo(xml, score);
  if (!first || bar.tempo?.to !== undefined)
    writeChange(xml, bar, itemAt(context.changes, bar.index), itemAt(context.tempos, bar.index));
  writeBarRepeat(xml, bar.index, context.signs);
  writeRestOfBars(xml, context.rests.get(bar.index));
  if (bar.target) writeTarget(xml, bar.target);
  if (bar.part !== undefined) writeDirection(xml, (direction) => direction.leaf('rehearsal', bar.part));
  if (bar.direction !== undefined) writeDirection(xml, (direction) => direction.leaf('words', bar.direction));
  let mouth = before ?? score.mouth;
  if (before === undefined) writeMouth(xml, mouth);
  const chordsBefore = chordsInTurn(bar);
  const writeChords = (from: Fraction, end?: Fraction): void => {
    for (const { onset, chord } of chordsBefore(end))
      writeHarmony(xml, chord, inDivisions(subtract(onset, from), divisions));
  };
  written.notes.forEach((note, index) => {
    const event = itemAt(bar.events, note.event);
    writeChords(note.onset, endOf(note));
    if (event.kind === 'sound' && event.mouth !== mouth) {
      mouth = event.mouth;
      writeMouth(xml, mouth);
    }
    const last = written.notes[index + 1]?.event !== note.event;
    const attack = written.notes[index - 1]?.event !== note.event;
    const slur = slurs.get(event);
    if (attack && event.kind === 'sound' && !event.tied) writeMarks(xml, event);
    writeNote(xml, {
      bar: written,
      index,
      event,
      divisions,
      slur: { starts: last && slur?.starts === true, stops: attack && slur?.stops === true },
      after: last && !note.tiedToNext ? (after.get(event) ?? []) : [],
      under,
      grace: attack ? context.graces.get(event.index) : undefined,
      staff: staff[event.index] ?? [],
    });
  });
  if (written.notes.length === 0) {
    writeChords(ZERO);
    writeSilence(xml, bar, divisions);
  }
  if (bar.jump) writeJump(xml, bar.jump, score);
  writeRightLine(xml, bar, score);
  xml.close();
  return mouth;
}

/** A bar that was left empty. */
function writeSilence(xml: XmlWriter, bar: Bar, divisions: number): void {
  xml.open('note');
  xml.leaf('rest', undefined, { measure: 'yes' });
  xml.leaf('duration', inDivisions(bar.length, divisions));
  xml.leaf('voice', 1);
  xml.close();
}

/** What a document says at its start, and which clef it has. */
function writeAttributes(xml: XmlWriter, score: Score, divisions: number): void {
  const { octaves } = clefOf(score);
  xml.open('attributes');
  xml.leaf('divisions', divisions);
  writeKey(xml, score.key);
  writeMeter(xml, score.meter);
  xml.open('clef');
  xml.leaf('sign', 'G');
  xml.leaf('line', 2);
  if (octaves !== 0) xml.leaf('clef-octave-change', octaves);
  xml.close();
  xml.close();
}

const MOUTHS: ReadonlyMap<Mouth, string> = new Map([
  ['lips', 'lip purse'],
  ['tongue', 'tongue block'],
]);

const writeMouth = (xml: XmlWriter, mouth: Mouth): void =>
  writeDirection(xml, (direction) => direction.leaf('words', valueAt(MOUTHS, mouth)));

/** Marks that the standard has no sign for, in the words that are over the note on the page. */
function writeMarks(xml: XmlWriter, { marks }: Sound): void {
  for (const { name } of marks) {
    const { drawing } = rowOf(name);
    if ('dynamic' in drawing)
      writeDirection(xml, (direction) => {
        direction.open('dynamics');
        direction.leaf(drawing.dynamic, undefined);
        direction.close();
      });
  }
  const words = marks.flatMap((mark) => {
    const { drawing } = rowOf(mark.name);
    return 'word' in drawing && !('line' in drawing) ? [filledIn(drawing.word, mark)] : [];
  });
  if (words.length > 0) writeDirection(xml, (direction) => direction.leaf('words', words.join(', ')));
}

function writeLeftLine(xml: XmlWriter, bar: Bar, { score, repeated }: Context): void {
  const ending = endingOpenedBy(score, bar);
  const repeat = bar.repeatStart || repeated.has(bar.index);
  if (ending === undefined && !repeat) return;
  xml.open('barline', { location: 'left' });
  if (repeat) xml.leaf('bar-style', 'heavy-light');
  if (ending !== undefined) xml.leaf('ending', undefined, { number: ending.join(','), type: 'start' });
  if (repeat) xml.leaf('repeat', undefined, { direction: 'forward' });
  xml.close();
}

function writeRightLine(xml: XmlWriter, bar: Bar, { bars }: Score): void {
  const { endings } = bar;
  const closes = endings !== undefined && !isSameEnding(bar, bars[bar.index + 1]);
  const style =
    bar.repeatEnd || bar.close === 'final' ? 'light-heavy' : bar.close === 'double' ? 'light-light' : undefined;
  if (!closes && style === undefined) return;
  xml.open('barline', { location: 'right' });
  if (style !== undefined) xml.leaf('bar-style', style);
  if (closes)
    xml.leaf('ending', undefined, { number: endings.join(','), type: bar.repeatEnd ? 'stop' : 'discontinue' });
  // An ending for several times goes back after each of them.
  const times = bar.times ?? (endings && endings.length > 1 ? Math.max(...endings) + 1 : undefined);
  if (bar.repeatEnd)
    xml.leaf('repeat', undefined, { direction: 'backward', ...(times === undefined ? {} : { times }) });
  xml.close();
}
