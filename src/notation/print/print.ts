/** A score printed as a block: canonical text that reads back as the same score. */
import { type Chord, type NoChord, plainChord, writtenChord } from '../../harmony/chord.ts';
import { type ChordChange, printFormBar } from '../../harmony/form.ts';
import { harpName } from '../../instrument/harp.ts';
import { tabOfNotes } from '../../instrument/playable.ts';
import { throughEndings } from '../../score/endings.ts';
import { formBarsOf } from '../../score/form-bars.ts';
import { type Mark, markText } from '../../score/mark.ts';
import { isSameEnding, isSoundEvent } from '../../score/queries.ts';
import type { Bar, BarSettings, Event, Mouth, Score, Sound } from '../../score/score.ts';
import { feelName } from '../../time/feel.ts';
import {
  add,
  compare,
  divide,
  equals,
  type Fraction,
  fraction,
  isWhole,
  multiply,
  subtract,
  toNumber,
  ZERO,
} from '../../time/fraction.ts';
import { barLength, meterName } from '../../time/meter.ts';
import { itemAt, lastOf, present } from '../../values/checked.ts';
import { chordsWithin, namedIn } from '../harmonise.ts';
import { MOST_SHARES } from '../scan.ts';
import { slotName } from '../setting-values.ts';
import { printChanges, saysMode } from './changes.ts';
import { printTextUnder } from './under.ts';

/** Bars to a written line: a twelve-bar prints as three lines. */
const BARS_A_LINE = 4;

/**
 * A score as the text of a block that reads back to the same score. Music that was quoted from blocks with other slots
 * may be too fine for this block's: it is then printed in a finer slot, which changes no sound.
 */
export function printScore(score: Score): string {
  let finest: PrintedScore | undefined;
  for (const slot of slotsFor(score)) {
    finest = printIn(score, slot);
    if (finest.mostShares <= MOST_SHARES) break;
  }
  return present(finest, 'a slot that divides every bar').text;
}

/** The slots as they were written, and finer ones, as far as every bar is a whole number of its own. */
function slotsFor({ slot, bars }: Score): (Fraction | undefined)[] {
  const plain = [1, 2, 4, 8, 16, 32].map((parts) => fraction(1, parts)).filter((each) => compare(each, slot) < 0);
  return [undefined, ...plain].filter((most) => bars.every((bar) => isWhole(divide(bar.length, slotIn(bar, most)))));
}

/** The slot of a bar that is printed in slots of a length at most. */
const slotIn = ({ slot }: BarSettings, most: Fraction | undefined): Fraction =>
  most && compare(most, slot) < 0 ? most : slot;

interface PrintedScore {
  readonly text: string;
  /** Of the group that has the most. */
  readonly mostShares: number;
}

/** Prints a score in slots of a length at most, or in its own. */
function printIn(score: Score, most: Fraction | undefined): PrintedScore {
  const inSlots = <Own extends BarSettings>(own: Own): Own => ({ ...own, slot: slotIn(own, most) });
  const start = inSlots(score);
  const lines = printHeader(start);
  let mostShares = 0;
  lines.push('');
  const places = formBarsOf(score);
  let mouth = score.mouth;
  let carried: Chord | NoChord | undefined;
  let settings: BarSettings = start;
  const through = throughEndings({ mouth, carried, settings });
  let beforeCoda = { mouth, carried };
  let line: string[] = [];
  let lineBars: Bar[] = [];
  /** Bars that are left of a rest of several. */
  let resting = 0;
  score.bars.map(inSlots).forEach((bar, index) => {
    const opened = opensEnding(score.bars[index - 1], bar) ? bar.endings : undefined;
    ({ mouth, carried, settings } = through({ mouth, carried, settings }, opened));
    if (bar.target === 'coda') ({ mouth, carried } = beforeCoda);
    const changes = printChanges(settings, bar, bar.tempo);
    if (saysMode(settings, bar)) carried = undefined;
    settings = bar;
    const begins = bar.part !== undefined || bar.direction !== undefined || changes.length > 0;
    if (begins || (lineBars.length >= BARS_A_LINE && resting === 0)) endLine();
    if (bar.part !== undefined) lines.push(`part: ${bar.part}`);
    if (bar.direction !== undefined) lines.push(`text: ${bar.direction}`);
    // Right below the head a change would be read as a setting of it; a bar line ends the head.
    if (index === 0 && changes.length > 0) lines.push('|');
    lines.push(...changes);
    // What opens a bar is written with the line before it, which the first bar has not.
    if (index === 0) line.push(...startOf(undefined, bar));
    const base = baseChords(score, bar, places[index], carried);
    const stated = statedChords(bar.chords, base);
    const again = bar.restBars === undefined ? '%' : `.x${bar.restBars}`;
    const inRest = resting > 0;
    resting = inRest ? resting - 1 : (bar.restBars ?? 1) - 1;
    const isSign = bar.repeatsLast || bar.restBars !== undefined;
    const printed =
      isSign || inRest ? printSign(inRest ? [] : [again], stated, mouth) : printBar(bar, bar.slot, mouth, stated);
    if (printed.text !== '') line.push(printed.text);
    if (resting === 0) line.push(barLine(bar, score.bars[index + 1]));
    mouth = printed.mouth;
    mostShares = Math.max(mostShares, printed.mostShares);
    carried = bar.chords.at(-1)?.chord ?? carried;
    if (bar.jump === 'to-coda') beforeCoda = { mouth, carried };
    lineBars.push(bar);
  });
  endLine();
  return { text: `${lines.join('\n')}\n`, mostShares };

  function endLine(): void {
    if (line.length > 0) lines.push(line.join(' '));
    lines.push(...printTextUnder(lineBars.filter(({ repeatsLast }) => !repeatsLast)));
    line = [];
    lineBars = [];
  }
}

function printHeader(score: Score): string[] {
  const { harp, progression, pickup } = score;
  const lines: string[] = [];
  const put = (key: string, value: string | undefined): void => {
    if (value !== undefined) lines.push(`${key}: ${value}`);
  };
  put('id', score.id);
  put('formerly', score.formerly?.join(', '));
  put('title', score.title);
  put('harp', harpName(harp));
  put('tuning', harp.tuning.id);
  put('position', `${score.position}`);
  put('key', score.keyNamed ? score.key.mode : undefined);
  put('meter', meterName(score.meter));
  put('tempo', `${score.tempo}`);
  put('feel', feelName(score.feel));
  put('slot', slotName(score.slot));
  if (progression?.form !== undefined) {
    put('form', progression.form + (progression.range ? ` bars ${progression.range.join('-')}` : ''));
  } else put('chords', progression?.bars.map(printFormBar).join(' | '));
  if (pickup) put('pickup', `${toNumber(divide(pickup, score.slot))}`);
  put('mouth', score.mouth);
  return lines;
}

/** The chords a reader would give a bar that states none. */
function baseChords(
  score: Score,
  bar: Bar,
  place: number | undefined,
  carried: Chord | NoChord | undefined,
): readonly ChordChange[] {
  const given = place === undefined ? undefined : score.progression?.bars[place];
  if (given) return chordsWithin(given, bar.key, barLength(bar.meter), bar.length);
  if (score.progression) return [];
  const before = score.bars[bar.index - 1];
  const again = bar.repeatsLast ? before?.chords : carried && [{ onset: ZERO, chord: carried }];
  return (again ?? []).map(({ onset, chord }) => ({ onset, chord: namedIn(chord, bar.key, before?.key) }));
}

/** The chord symbols a bar has to state, so that its chords come out against those it gets of itself. */
function statedChords(chords: readonly ChordChange[], base: readonly ChordChange[]): readonly ChordChange[] {
  const falling = base.filter((change, index) => !sameName(change, base[index - 1]));
  let same = 0;
  while (sameChange(chords[same], falling[same])) same++;
  if (same === chords.length && same === falling.length) return [];
  const next = chords[same];
  const suppressed = falling[same];
  // The progression would change the chord here and the bar does not: the sounding chord is stated again, which holds
  // to the bar's end.
  const again = suppressed && same > 0 && (!next || compare(suppressed.onset, next.onset) < 0);
  return chords.slice(again ? same - 1 : same);
}

const sameName = (a: ChordChange, b: ChordChange | undefined): boolean =>
  b !== undefined && plainChord(a.chord) === plainChord(b.chord);

const sameChange = (a: ChordChange | undefined, b: ChordChange | undefined): boolean =>
  a !== undefined &&
  b !== undefined &&
  sameName(a, b) &&
  equals(a.onset, b.onset) &&
  writtenChord(a.chord) === writtenChord(b.chord);

interface PrintedBar {
  readonly text: string;
  /** The embouchure at its end. */
  readonly mouth: Mouth;
  readonly mostShares: number;
}

/** What is at a point of the bar and lasts: a piece of an event no longer than up to the next stated chord. */
interface Piece {
  readonly onset: Fraction;
  readonly duration: Fraction;
  readonly event: Event;
  /** Whether the event begins here; else this holds it on. */
  readonly begins: boolean;
  readonly chord?: string;
}

/** The sign for whole bars, with a chord of its own before it. A chord that comes in at the end is behind it. */
const printSign = (sign: readonly string[], stated: readonly ChordChange[], mouth: Mouth): PrintedBar => {
  const words = stated.map(({ chord }) => `"${writtenChord(chord)}"`);
  const first = stated[0]?.onset.n === 0 ? 1 : 0;
  return { text: [...words.slice(0, first), ...sign, ...words.slice(first)].join(' '), mouth, mostShares: 0 };
};

function printBar(bar: Bar, slot: Fraction, startMouth: Mouth, stated: readonly ChordChange[]): PrintedBar {
  let mouth = startMouth;
  let mostShares = 0;
  let pieces: readonly Piece[] = piecesOf(bar, stated);
  const words: string[] = [];
  while (pieces.length > 0) {
    const { run, remaining } = nextRun(pieces, slot);
    words.push(...printRun(run));
    pieces = remaining;
  }
  // A chord after the last event of the block takes no time, and is kept where it was written.
  for (const { onset, chord } of stated) if (compare(onset, bar.length) >= 0) words.push(`"${writtenChord(chord)}"`);
  return { text: words.join(' '), mouth, mostShares };

  function printRun(run: readonly Piece[]): string[] {
    const [first, last] = [itemAt(run, 0), lastOf(run)];
    const slots = toNumber(divide(subtract(endOf(last), first.onset), slot));
    if (run.length === 1) return printPiece(first, slots);
    const unit = unitOf(run);
    mostShares = Math.max(mostShares, toNumber(divide(subtract(endOf(last), first.onset), unit)));
    const inside = run.flatMap((piece) => printPiece(piece, toNumber(divide(piece.duration, unit))));
    return [`{${inside.join(' ')}}${slots === 1 ? '' : slots}`];
  }

  function printPiece(piece: Piece, shares: number): string[] {
    const { event, begins } = piece;
    const words: string[] = piece.chord === undefined ? [] : [`"${piece.chord}"`];
    if (!isSoundEvent(event)) return [...words, `.${shares === 1 ? '' : shares}`];
    if (!begins) return [...words, `=${shares === 1 ? '' : shares}${glide(piece)}`];
    if (event.mouth !== mouth) {
      mouth = event.mouth;
      words.push(`@${mouth}`);
    }
    const note = tabOfNotes(event.notes, event.breath) + printMarks(event.marks);
    if (shares === 1) return [...words, note + glide(piece)];
    return [...words, note, `=${shares === 2 ? '' : shares - 1}${glide(piece)}`];
  }

  function glide({ event, onset, duration }: Piece): string {
    const ends = equals(add(onset, duration), add(event.onset, event.duration));
    return isSoundEvent(event) && event.glides && ends ? '>' : '';
  }
}

/** The events of a bar, those tied within it joined again where no stated chord parts them, and all cut at stated chords. */
function piecesOf(bar: Bar, stated: readonly ChordChange[]): Piece[] {
  const joined: { event: Event; begins: boolean }[] = [];
  for (const event of bar.events) {
    const before = joined.at(-1);
    const parted = stated.some(({ onset }) => equals(onset, event.onset));
    if (isSoundEvent(event) && event.tied && before && isSoundEvent(before.event) && !parted) {
      const held: Sound = before.event;
      before.event = { ...held, duration: add(held.duration, event.duration), glides: event.glides };
    } else joined.push({ event, begins: !(isSoundEvent(event) && event.tied) });
  }
  return joined.flatMap(({ event, begins }) => {
    const end = add(event.onset, event.duration);
    const cuts = stated.filter(({ onset }) => compare(onset, event.onset) > 0 && compare(onset, end) < 0);
    const onsets = [event.onset, ...cuts.map(({ onset }) => onset)];
    return onsets.map((onset, index): Piece => {
      const chord = stated.find((change) => equals(change.onset, onset))?.chord;
      return {
        onset,
        duration: subtract(onsets[index + 1] ?? end, onset),
        event,
        begins: begins && index === 0,
        ...(chord ? { chord: writtenChord(chord) } : {}),
      };
    });
  });
}

/** A group longer or finer than this is hard to read; its slots are printed one by one instead. */
const LONGEST_GROUP = 4;
const FINEST_GROUP = 12;

/**
 * The pieces from the front that print together: one that lies on the slot grid, or what shares its slots as a group.
 * With them what is left, since a piece may be cut at a slot to let a group end.
 */
function nextRun(pieces: readonly Piece[], slot: Fraction): { run: readonly Piece[]; remaining: readonly Piece[] } {
  const start = pieces[0]?.onset ?? ZERO;
  const slotsTo = (at: Fraction): Fraction => divide(subtract(at, start), slot);
  const last = pieces.findIndex((piece) => isWhole(slotsTo(endOf(piece))));
  const whole = pieces.slice(0, last + 1);
  const slots = toNumber(slotsTo(endOf(lastOf(whole))));
  const shares = slots / toNumber(divide(unitOf(whole), slot));
  if (whole.length === 1 || (slots <= LONGEST_GROUP && shares <= FINEST_GROUP)) {
    return { run: whole, remaining: pieces.slice(last + 1) };
  }
  // A first piece that fills slots of its own is alone; else one slot is filled, and what reaches over it is cut.
  const first = itemAt(pieces, 0);
  const full = Math.max(1, Math.floor(toNumber(divide(first.duration, slot))));
  const edge = add(start, multiply(slot, fraction(full)));
  const reaching = pieces.findIndex((piece) => compare(endOf(piece), edge) >= 0);
  const piece = itemAt(pieces, reaching);
  const [before, behind] = [pieces.slice(0, reaching), pieces.slice(reaching + 1)];
  if (equals(endOf(piece), edge)) return { run: [...before, piece], remaining: behind };
  const { chord: _, ...held } = piece;
  const after: Piece = { ...held, onset: edge, duration: subtract(endOf(piece), edge), begins: false };
  return {
    run: [...before, { ...piece, duration: subtract(edge, piece.onset) }],
    remaining: [after, ...behind],
  };
}

const endOf = (piece: Piece): Fraction => add(piece.onset, piece.duration);
const unitOf = (pieces: readonly Piece[]): Fraction => pieces.map(({ duration }) => duration).reduce(commonMeasure);

/** The largest length that measures both. */
function commonMeasure(a: Fraction, b: Fraction): Fraction {
  let [x, y] = [a, b];
  while (y.n !== 0) {
    const times = fraction(Math.floor(toNumber(divide(x, y))));
    [x, y] = [y, subtract(x, multiply(times, y))];
  }
  return x;
}

const printMarks = (marks: readonly Mark[]): string => (marks.length === 0 ? '' : `[${marks.map(markText).join(' ')}]`);

const opensEnding = (before: Bar | undefined, bar: Bar): boolean =>
  bar.endings !== undefined && (!isSameEnding(before, bar) || before?.repeatEnd === true);

/** The lines between two bars. What is at one plain line is in one list behind it. */
function barLine(bar: Bar, next: Bar | undefined): string {
  const atEnd = bar.jump ? [bar.jump] : [];
  const lines = bar.repeatEnd
    ? [lineWith(':|', [...(bar.times === undefined ? [] : [`x${bar.times}`]), ...atEnd])]
    : [];
  const close = bar.close === 'final' ? '|]' : '||';
  if (bar.close) lines.push(lineWith(close, bar.repeatEnd ? [] : atEnd));
  const left = lines.length === 0 ? atEnd : [];
  const start = next ? startOf(bar, next, left) : [];
  return [...lines, ...(start.length === 0 ? listAt('|', left) : start)].join(' ') || '|';
}

/** The lines that open a bar, the first with what is at the same place before it. Behind `|:` a number would be a hole. */
function startOf(before: Bar | undefined, bar: Bar, atEnd: readonly string[] = []): string[] {
  const target = bar.target ? [bar.target] : [];
  const endings = opensEnding(before, bar) ? (bar.endings ?? []) : [];
  if (bar.repeatStart) return [...listAt('|', atEnd), lineWith('|:', target), ...listAt('|', endings)];
  return target.length + endings.length === 0 ? [] : listAt('|', [...atEnd, ...target, ...endings]);
}

const listAt = (line: string, words: readonly (string | number)[]): string[] =>
  words.length === 0 ? [] : [lineWith(line, words)];
const lineWith = (line: string, words: readonly (string | number)[]): string => line + words.join(',');
