/**
 * A score as plain text in 72 columns: the holes of each bar between bar lines, the chords above, syllables and words below, each
 * over or under the note it belongs to. It says what to play, not how long: rhythm is in the other formats.
 */
import { changeWords } from '../engrave/change-words.ts';
import { plainChord } from '../harmony/chord.ts';
import { plainKey } from '../harmony/key.ts';
import { tabOfNotes } from '../instrument/playable.ts';
import { endsInQuarter } from '../instrument/quarter-step.ts';
import { changesOf } from '../score/changes.ts';
import { jumpInPrint } from '../score/jump.ts';
import { markText } from '../score/mark.ts';
import { chordsInTurn, endingOpenedBy, isSoundEvent } from '../score/queries.ts';
import type { Bar, Event, Score } from '../score/score.ts';
import { capitalised } from '../texts/capital.ts';
import { feelName } from '../time/feel.ts';
import type { Fraction } from '../time/fraction.ts';
import { isCompound, meterName } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { type Credits, partName, sourceOf } from './credits.ts';
import { type LineUnder, linesUnder } from './syllables.ts';

const COLUMNS = 72;

/** What stands for what has no hole of its own. */
const SIGNS = { rest: '.', held: '=' } as const;

/** A place in a line: what is played, and what is above and below it. */
interface Cell {
  readonly chord: string;
  readonly tab: string;
  /** The syllable to articulate with, and the words of each verse. */
  readonly below: readonly string[];
  /** It is about the cell behind it, and in one line with that. */
  readonly leads?: true;
}

/** The score as lines of text, none longer than 72 characters unless a single word or label is. */
export function tabTextOf(score: Score, credits: Credits): string {
  return [...head(score, credits), '', ...tabLinesOf(score), ...legend(score), ''].join('\n');
}

/** The holes, chords and words alone: what is between the title and the legend of {@link tabTextOf}. */
export const tabLinesOf = (score: Score): readonly string[] => printedLines(score, linesUnder(score));

function printedLines(score: Score, under: readonly LineUnder[]): string[] {
  const labels = under.map(({ verse }) => (verse === undefined ? '' : `${verse}.`));
  // Numbers of verses begin each line.
  const label: Cell[] = labels.some((text) => text !== '') ? [{ chord: '', tab: '', below: labels }] : [];
  const changes = changesInWords(score);
  const lines = linesOf(
    score.bars.map((bar) => cellsOf(bar, score, under, itemAt(changes, bar.index))),
    COLUMNS - label.reduce((sum, cell) => sum + widthOf(cell), 0),
  );
  return lines.flatMap((cells) => printed(cells, label));
}

function head(score: Score, credits: Credits): string[] {
  const { key, meter, tempo, feel } = score;
  const beat = isCompound(meter) ? 'dotted quarters' : 'quarters';
  const source = sourceOf(credits);
  return [
    credits.title,
    partName(score),
    `${plainKey(key)}, ${meterName(meter)}, ${tempo} ${beat} a minute, ${feelName(feel)}`,
    ...(source === '' ? [] : [source]),
    ...(credits.licence === undefined ? [] : [credits.licence]),
  ].flatMap(wrapped);
}

/** A paragraph, broken between words. */
function wrapped(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const line = lines.at(-1);
    if (line !== undefined && line.length + 1 + word.length <= COLUMNS) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

/** What changes before each bar. */
function changesInWords(score: Score): (readonly string[])[] {
  return changesOf(score).map((changes, index) => {
    const { meter } = itemAt(score.bars, index);
    const words = changeWords(changes, meter);
    return changes.meter ? [meterName(meter), ...words] : words;
  });
}

function cellsOf(bar: Bar, score: Score, under: readonly LineUnder[], changes: readonly string[]): Cell[] {
  const line = (tab: string): Cell[] => (tab === '' ? [] : [{ chord: '', tab, below: [] }]);
  const leading = (tab: string, chord = ''): Cell[] =>
    tab + chord === '' ? [] : [{ chord, tab, below: [], leads: true }];
  const chordsBefore = chordsInTurn(bar);
  const namesBefore = (end?: Fraction): string =>
    chordsBefore(end)
      .map(({ chord }) => plainChord(chord))
      .join(' ');
  const events = bar.events.map((event, index): Cell => {
    const chord = namesBefore(bar.events[index + 1]?.onset);
    if (event.kind === 'rest') return { chord, tab: SIGNS.rest, below: [] };
    const marks = event.tied ? [] : event.marks.map((mark) => `[${markText(mark)}]`);
    const tab = event.tied ? SIGNS.held : tabOfNotes(event.notes, event.breath) + marks.join('');
    return { chord, tab, below: under.map((line) => textBelow(line, event)) };
  });
  if (events.length === 0) events.push({ chord: namesBefore(), tab: SIGNS.rest, below: [] });
  return [
    ...[bar.part, ...changes, bar.direction].flatMap((text) =>
      text === undefined ? [] : leading('', `[${oneLine(text)}]`),
    ),
    ...leading(openingLine(bar, score)),
    ...events,
    ...(bar.jump ? line(`[${jumpInPrint(bar.jump, score.bars)}]`) : []),
    ...(bar.index === score.bars.length - 1 || bar.repeatEnd || bar.close || bar.jump ? line(closingLine(bar)) : []),
  ];
}

/** A syllable with the hyphen of a word that continues; those to articulate with are between slashes. */
function textBelow({ kind, texts }: LineUnder, event: Event): string {
  const { text = '', syllabic } = texts.get(event) ?? {};
  const isOpen = syllabic === 'begin' || syllabic === 'middle';
  const below = oneLine(isOpen ? `${text}-` : text);
  return kind === 'syllables' && below !== '' ? `/${below}/` : below;
}

/** After a bar that ends a repeat or a part, whose sign is a bar line already, another one is left out. */
function openingLine(bar: Bar, score: Score): string {
  const before = score.bars[bar.index - 1];
  const ending = endingOpenedBy(score, bar);
  const line = bar.repeatStart ? '|:' : before?.repeatEnd || before?.close || before?.jump ? '' : '|';
  const target = bar.target === undefined ? '' : `[${capitalised(bar.target)}] `;
  return `${line}${ending === undefined ? '' : `${ending.join(',')}.`}${target}`.trimEnd();
}

const closingLine = ({ repeatEnd, times, close }: Bar): string =>
  repeatEnd ? `:|${times === undefined ? '' : `x${times}`}` : close === undefined ? '|' : '||';

const widthOf = ({ chord, tab, below }: Cell): number =>
  Math.max(chord.length, tab.length, ...below.map(({ length }) => length)) + 1;
const widthOfAll = (cells: readonly Cell[]): number => cells.reduce((sum, cell) => sum + widthOf(cell), 0) - 1;

/** As many whole bars in a line as it has room for. A bar that is longer than a line is broken between notes; what is said before it is in the line of its first note. */
function linesOf(bars: readonly (readonly Cell[])[], columns: number): Cell[][] {
  const lines: Cell[][] = [];
  const put = (cells: readonly Cell[]): void => {
    const line = lines.at(-1);
    if (line && widthOfAll([...line, ...cells]) <= columns) line.push(...cells);
    else lines.push([...cells]);
  };
  for (const bar of bars) {
    if (widthOfAll(bar) <= columns) put(bar);
    else
      for (const cells of inGroups(bar))
        for (const part of widthOfAll(cells) <= columns ? [cells] : cells.map((cell) => [cell])) put(part);
  }
  return lines;
}

/** What a bar may be broken between: its notes, each with what is said before it. */
function inGroups(bar: readonly Cell[]): Cell[][] {
  const groups: Cell[][] = [];
  let isOpen = false;
  for (const cell of bar) {
    if (isOpen) groups.at(-1)?.push(cell);
    else groups.push([cell]);
    isOpen = cell.leads === true;
  }
  return groups;
}

/** The rows of a line, those without anything in them left out, and an empty one. `label` has the numbers of the verses. */
function printed(line: readonly Cell[], label: readonly Cell[]): string[] {
  const rowsBelow = Math.max(0, ...line.map(({ below }) => below.length));
  const isUsed = (row: number): boolean => line.some(({ below }) => Boolean(below[row]));
  const used = Array.from({ length: rowsBelow }, (_, row) => row).filter(isUsed);
  const numbers = used.map((row) => label[0]?.below[row] ?? '').filter((number) => number !== '');
  // The first verse alone may be sung each time.
  const cells = numbers.some((number) => number !== '1.') ? [...label, ...line] : line;
  const row = (text: (cell: Cell) => string): string =>
    cells
      .map((cell) => text(cell).padEnd(widthOf(cell)))
      .join('')
      .trimEnd();
  const rows = [
    row(({ chord }) => chord),
    row(({ tab }) => tab),
    ...used.map((index) => row(({ below }) => below[index] ?? '')),
  ];
  return [...rows.filter((text) => text !== ''), ''];
}

/** What the signs of this score mean. */
function legend({ bars }: Score): string[] {
  const events = bars.flatMap((bar) => bar.events);
  const sounds = events.filter(isSoundEvent);
  const notes = sounds.flatMap((sound) => sound.notes);
  const signs: readonly (readonly [boolean, string])[] = [
    [sounds.some(({ breath }) => breath === 'blow'), '4 blow'],
    [sounds.some(({ breath }) => breath === 'draw'), '-4 draw'],
    [notes.some(({ bend }) => bend >= 1), "' a half step bent"],
    [notes.some(({ bend }) => endsInQuarter(bend)), 'q a quarter step bent'],
    [notes.some(({ over }) => over), 'o overbend'],
    [notes.some(({ slide }) => slide), '* slide pressed'],
    [sounds.some((sound) => sound.notes.length > 1), '(1 2) together'],
    [sounds.some(({ tied }) => tied), `${SIGNS.held} held on`],
    [sounds.some(({ syllable }) => syllable), '/ta/ syllable to articulate with'],
    [events.length > sounds.length || bars.some((bar) => bar.events.length === 0), `${SIGNS.rest} rest`],
  ];
  const used = signs.filter(([isUsed]) => isUsed).map(([, words]) => words);
  return wrapped(used.join(', '));
}
