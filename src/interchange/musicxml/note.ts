/** Notes in MusicXML. What the standard has no element for (hole, breath, bend) is in words, and as text under the note. */
import type { Pitch } from '../../instrument/pitch.ts';
import { inWords, tabOfNotes } from '../../instrument/playable.ts';
import { type EndSign, filledIn, graceAmong, type Mark, type MarkSign, rowOf } from '../../score/mark.ts';
import type { Event, Note, Sound } from '../../score/score.ts';
import type { Slur } from '../../score/slurs.ts';
import type { StaffNote } from '../../score/spelling.ts';
import type { WrittenBar, WrittenNote } from '../../score/written.ts';
import { type Fraction, toNumber } from '../../time/fraction.ts';
import { itemAt, valueAt } from '../../values/checked.ts';
import type { LineUnder, SungText } from '../syllables.ts';
import type { XmlWriter } from './xml.ts';

/** What a note takes from the music around it. */
export interface NotePlace {
  readonly bar: WrittenBar;
  readonly index: number;
  readonly event: Event;
  /** Divisions of a quarter note. */
  readonly divisions: number;
  /** Slurs that begin and end at it: a glide is one. */
  readonly slur: Pick<Slur, 'starts' | 'stops'>;
  /** Marks that come after its note, which ends with it. */
  readonly after: readonly Mark[];
  readonly under: readonly LineUnder[];
  /** The grace note before it, where this attacks it. */
  readonly grace: StaffNote | undefined;
  /** What the staff shows of each of its notes, in their order. */
  readonly staff: readonly StaffNote[];
}

/** MusicXML 4.0, “note-type-value data type”. */
const TYPES: ReadonlyMap<number, string> = new Map([
  [0.5, 'breve'],
  [1, 'whole'],
  [2, 'half'],
  [4, 'quarter'],
  ...[8, 16, 32, 64, 128, 256].map((value): [number, string] => [
    value,
    value === 8 ? 'eighth' : value === 32 ? '32nd' : `${value}th`,
  ]),
]);

/** MusicXML 4.0, “accidental-value data type”, by half steps. */
const ACCIDENTALS: ReadonlyMap<number, string> = new Map([
  [-2, 'flat-flat'],
  [-1.5, 'three-quarters-flat'],
  [-1, 'flat'],
  [-0.5, 'quarter-flat'],
  [0, 'natural'],
  [0.5, 'quarter-sharp'],
  [1, 'sharp'],
  [1.5, 'three-quarters-sharp'],
  [2, 'double-sharp'],
]);

/** A time in divisions, a whole number for every time of the score the divisions were chosen for. */
export const inDivisions = (time: Fraction, divisions: number): number => Math.round(toNumber(time) * 4 * divisions);

/** Writes one written note: a rest, or a notehead for each hole. */
export function writeNote(xml: XmlWriter, place: NotePlace): void {
  const { event } = place;
  if (event.kind === 'rest') {
    writeHead(xml, place, undefined, 0);
    return;
  }
  if (place.grace) writeGrace(xml, place.grace, event);
  for (const [head, note] of event.notes.entries()) writeHead(xml, place, note, head);
}

function writeGrace(xml: XmlWriter, { pitch, accidental }: StaffNote, { marks }: Sound): void {
  xml.open('note');
  xml.leaf('grace', undefined, { slash: 'yes' });
  writePitch(xml, pitch);
  xml.leaf('voice', 1);
  xml.leaf('type', 'eighth');
  if (accidental !== undefined) xml.leaf('accidental', valueAt(ACCIDENTALS, accidental));
  const note = graceAmong(marks);
  if (note) {
    xml.open('notations');
    xml.open('technical');
    xml.leaf('other-technical', inWords(note));
    xml.close();
    xml.close();
  }
  xml.close();
}

function writeHead(xml: XmlWriter, place: NotePlace, note: Note | undefined, head: number): void {
  const { bar, index, event, divisions } = place;
  const written = itemAt(bar.notes, index);
  xml.open('note');
  if (head > 0) xml.leaf('chord');
  const onStaff = note && itemAt(place.staff, head);
  if (onStaff) writePitch(xml, onStaff.pitch);
  else if (written.wholeBar) xml.leaf('rest', undefined, { measure: 'yes' });
  else xml.leaf('rest');
  xml.leaf('duration', inDivisions(written.duration, divisions));
  if (note && written.tiedFromPrevious) xml.leaf('tie', undefined, { type: 'stop' });
  if (note && written.tiedToNext) xml.leaf('tie', undefined, { type: 'start' });
  xml.leaf('voice', 1);
  if (!written.wholeBar) {
    xml.leaf('type', TYPES.get(written.value) ?? 'quarter');
    if (written.dots > 0) xml.leaf('dot');
  }
  const sign = onStaff?.accidental;
  if (sign !== undefined && !written.tiedFromPrevious) xml.leaf('accidental', valueAt(ACCIDENTALS, sign));
  const tuplet = written.tuplet === undefined ? undefined : itemAt(bar.tuplets, written.tuplet);
  if (tuplet) {
    xml.open('time-modification');
    xml.leaf('actual-notes', tuplet.actual);
    xml.leaf('normal-notes', tuplet.normal);
    xml.close();
  }
  const hinted = event.kind === 'sound' && event.marks.some(({ name }) => 'around' in rowOf(name).drawing);
  if (hinted && !written.tiedFromPrevious) xml.leaf('notehead', 'normal', { parentheses: 'yes' });
  if (head === 0)
    for (const [level, beam] of beamsOf(bar, index).entries()) xml.leaf('beam', beam, { number: level + 1 });
  writeNotations(xml, place, note, head);
  if (event.kind === 'sound' && head === 0 && !written.tiedFromPrevious) writeTexts(xml, event, place.under);
  xml.close();
}

function writePitch(xml: XmlWriter, { letter, alter, octave }: Pitch): void {
  xml.open('pitch');
  xml.leaf('step', letter);
  if (alter !== 0) xml.leaf('alter', alter);
  xml.leaf('octave', octave);
  xml.close();
}

const flagsOf = ({ value }: WrittenNote): number => Math.max(0, Math.log2(value) - 2);

/** What each beam does at a note, from the first one: notes of a group with as many flags share a beam, others have a hook. */
function beamsOf({ notes }: WrittenBar, index: number): string[] {
  const note = itemAt(notes, index);
  if (note.beam === undefined) return [];
  const inGroup = (other: WrittenNote | undefined): WrittenNote | undefined =>
    other?.beam === note.beam ? other : undefined;
  const [before, after] = [inGroup(notes[index - 1]), inGroup(notes[index + 1])];
  return Array.from({ length: flagsOf(note) }, (_, level) => {
    const joins = (other: WrittenNote | undefined): boolean => other !== undefined && flagsOf(other) > level;
    if (joins(before)) return joins(after) ? 'continue' : 'end';
    if (joins(after)) return 'begin';
    return before ? 'backward hook' : 'forward hook';
  });
}

/** What a sign at the notehead is in MusicXML. */
const ARTICULATIONS: Readonly<Record<MarkSign, string>> = {
  dot: 'staccato',
  bar: 'tenuto',
  wedge: 'accent',
  scoop: 'scoop',
  drop: 'falloff',
};

function writeNotations(
  xml: XmlWriter,
  { bar, index, event, slur, after }: NotePlace,
  note: Note | undefined,
  head: number,
): void {
  const written = itemAt(bar.notes, index);
  const starts = (at: number): boolean => bar.notes[at]?.tuplet === written.tuplet;
  const tuplet = written.tuplet !== undefined && head === 0;
  const attacks = event.kind === 'sound' && !written.tiedFromPrevious;
  const marks = attacks && head === 0 ? event.marks : [];
  const content: (() => void)[] = [];
  const leaf = (name: string, attributes: Readonly<Record<string, string | number>>): void => {
    content.push(() => xml.leaf(name, undefined, attributes));
  };
  if (note && written.tiedFromPrevious) leaf('tied', { type: 'stop' });
  if (note && written.tiedToNext) leaf('tied', { type: 'start' });
  if (head === 0 && slur.stops) leaf('slur', { type: 'stop', number: 1 });
  if (head === 0 && slur.starts) leaf('slur', { type: 'start', number: 1 });
  if (tuplet && !starts(index - 1)) leaf('tuplet', { type: 'start' });
  if (tuplet && !starts(index + 1)) leaf('tuplet', { type: 'stop' });
  const signs = marks.flatMap(({ name }) => signOf(name) ?? []);
  const ends = head === 0 ? after.flatMap(({ name }) => endSignOf(name) ?? []) : [];
  const breathes = ends.includes('comma');
  if (signs.length > 0 || breathes)
    content.push(() => {
      xml.open('articulations');
      for (const sign of signs) xml.leaf(ARTICULATIONS[sign]);
      if (breathes) xml.leaf('breath-mark', 'comma');
      xml.close();
    });
  if (marks.some(({ name }) => 'line' in rowOf(name).drawing))
    content.push(() => {
      xml.open('ornaments');
      xml.leaf('wavy-line', undefined, { type: 'start', number: 1 });
      xml.leaf('wavy-line', undefined, { type: 'stop', number: 1 });
      xml.close();
    });
  if (ends.includes('fermata')) leaf('fermata', { type: 'upright' });
  if (note && attacks)
    content.push(() => {
      xml.open('technical');
      for (const words of [inWords({ ...note, breath: event.breath }), ...marks.map(markInWords)])
        xml.leaf('other-technical', words);
      xml.close();
    });
  if (content.length === 0) return;
  xml.open('notations');
  for (const write of content) write();
  xml.close();
}

function signOf(name: Mark['name']): MarkSign | undefined {
  const { drawing } = rowOf(name);
  return 'sign' in drawing ? drawing.sign : undefined;
}

function endSignOf(name: Mark['name']): EndSign | undefined {
  const { drawing } = rowOf(name);
  return 'end' in drawing ? drawing.end : undefined;
}

const markInWords = (mark: Mark): string => filledIn(rowOf(mark.name).words, mark);

/** The lines of text under a note: the tab as a player types it, and below it the syllable and the words of each verse. */
function writeTexts(xml: XmlWriter, event: Sound, under: readonly LineUnder[]): void {
  const { notes, breath } = event;
  xml.open('lyric', { number: 1, name: 'tab' });
  xml.leaf('syllabic', 'single');
  xml.leaf('text', tabOfNotes(notes, breath));
  xml.close();
  under.forEach(({ kind, verse, texts }, index) => {
    const text = texts.get(event);
    if (text) writeText(xml, text, index + 2, verse === undefined ? kind : `verse ${verse}`);
  });
}

function writeText(xml: XmlWriter, { text, syllabic, extend }: SungText, number: number, name: string): void {
  xml.open('lyric', { number, name });
  if (text !== undefined) {
    xml.leaf('syllabic', syllabic);
    xml.leaf('text', text);
  }
  if (extend) xml.leaf('extend', undefined, { type: extend });
  xml.close();
}
