/** A block as a table to read: what `show` prints. */
import type { Block, Lesson } from '../../course/course.ts';
import { plainChord } from '../../harmony/chord.ts';
import { plainKey } from '../../harmony/key.ts';
import { harpName } from '../../instrument/harp.ts';
import { plainPitch } from '../../instrument/pitch.ts';
import { tabOfNotes } from '../../instrument/playable.ts';
import { quotationName } from '../../notation/quotation/quotation.ts';
import { markText } from '../../score/mark.ts';
import { chordAt, roleIn } from '../../score/queries.ts';
import type { Bar, Event, Note, Score } from '../../score/score.ts';
import { feelName } from '../../time/feel.ts';
import { format } from '../../time/fraction.ts';
import { meterName } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';

/** A block as a table of text, a line for each note. */
export function blockAsText(lesson: Lesson, { id, index, score }: Block): string {
  const name = `${lesson.id}/${id}${id === `${index}` ? '' : ` (block ${index})`}`;
  if (!score) return `${name}\nThis block has an error.\n`;
  const rows = score.bars.flatMap((bar) => [[barHead(bar)], ...bar.events.map((event) => eventRow(bar, event))]);
  return [
    name + (score.title === undefined ? '' : `: ${score.title}`),
    settings(score),
    '',
    ...align([HEAD, ...rows]),
    '',
  ].join('\n');
}

const settings = ({ harp, position, key, meter, tempo, feel, slot, pickup, progression }: Score): string =>
  [
    `${harpName(harp)} harp`,
    harp.tuning.title,
    `position ${position}`,
    plainKey(key),
    `${meterName(meter)} at ${tempo}`,
    feelName(feel),
    `slots of ${format(slot)}`,
    ...(pickup ? [`pickup of ${format(pickup)}`] : []),
    ...(progression?.form === undefined ? [] : [progression.form]),
  ].join(', ');

const HEAD = ['', 'onset', 'length', 'tab', 'pitch', 'MIDI', 'chord', 'role', 'mouth', 'marks'];

/** `Bar 3, ending 1: Chorus` */
function barHead(bar: Bar): string {
  const { number, length, part, direction, repeatStart, repeatEnd, times, endings, close, target, jump } = bar;
  const signs = [
    ...(target === undefined ? [] : [target]),
    ...(repeatStart ? ['repeat begins'] : []),
    ...(endings === undefined ? [] : [`ending ${endings.join(', ')}`]),
    ...(repeatEnd ? [times === undefined ? 'repeat ends' : `repeat ends, ${times} times`] : []),
    ...(jump === undefined ? [] : [jump]),
    ...(bar.restBars === undefined ? [] : [`rest for ${bar.restBars} bars`]),
    ...(bar.repeatsLast ? ['the bar before again'] : []),
    ...(close === undefined ? [] : [`${close} bar line`]),
  ];
  return `Bar ${number}, length ${format(length)}${signs.map((sign) => `, ${sign}`).join('')}${part === undefined ? '' : `: ${part}`}${direction === undefined ? '' : `, “${direction}”`}`;
}

function eventRow(bar: Bar, event: Event): string[] {
  const time = ['', format(event.onset), format(event.duration)];
  if (event.kind === 'rest') return [...time, 'rest'];
  const chord = chordAt(bar, event.onset);
  const each = (say: (note: Note) => string): string => event.notes.map(say).join(' ');
  return [
    ...time,
    tabOfNotes(event.notes, event.breath),
    each(({ pitch }) => plainPitch(pitch)),
    each(({ pitch }) => `${pitch.midi}`),
    chord ? [chord.numeral, plainChord(chord)].filter(Boolean).join(' ') : '',
    each((note) => roleIn(bar, event, note)?.label ?? ''),
    event.mouth,
    [
      ...(event.tied ? ['tied'] : []),
      ...(event.glides ? ['glides on'] : []),
      ...event.marks.map(markText),
      ...(event.syllable?.text ? [event.syllable.text] : []),
      ...(event.lyrics ?? []).flatMap(({ text }) => (text ? [`“${text}”`] : [])),
      ...(event.source.quote ? [`from ${quotationName(event.source.quote)}`] : []),
    ].join(', '),
  ];
}

/** Columns under each other. A row of one cell is a heading. */
function align(rows: readonly (readonly string[])[]): string[] {
  const widths = HEAD.map((_, column) =>
    Math.max(0, ...rows.filter((row) => row.length > 1).map((row) => row[column]?.length ?? 0)),
  );
  return rows.map((row) =>
    row.length === 1
      ? itemAt(row, 0)
      : row
          .map((cell, column) => cell.padEnd(widths[column] ?? 0))
          .join('  ')
          .trimEnd(),
  );
}
