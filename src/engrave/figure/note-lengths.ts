/** How long notes are: each length as the breath lanes draw it, with its name, its beats and how the tab writes it. */
import { add, divide, type Fraction, format, fraction, lcm, multiply, toNumber } from '../../time/fraction.ts';
import { beatLength, type Meter } from '../../time/meter.ts';
import { CLASS } from '../classes.ts';
import { BLOW_RISE, heldLine } from '../lanes/lanes.ts';
import { escapeText, n } from '../markup.ts';
import { shapeText } from '../role-shape.ts';
import { lengthInWords } from '../text-alternative.ts';
import type { NoteLengthsFigure } from './figure.ts';
import { aloud } from './markup.ts';

/** A length with the notes that show it: as many as fill whole beats. */
export interface LengthRow {
  readonly name: string;
  /** Fractions of a whole note; the first is the length that is shown. */
  readonly lengths: readonly Fraction[];
}

const several = (count: number, n: number, d: number): readonly Fraction[] => new Array(count).fill(fraction(n, d));

/** From the longest to the shortest. */
export const LENGTH_ROWS: readonly LengthRow[] = [
  { name: 'Whole note', lengths: [fraction(1, 1)] },
  { name: 'Dotted half note', lengths: [fraction(3, 4)] },
  { name: 'Half note', lengths: [fraction(1, 2)] },
  { name: 'Dotted quarter and eighth note', lengths: [fraction(3, 8), fraction(1, 8)] },
  { name: 'Quarter note', lengths: [fraction(1, 4)] },
  { name: 'Eighth notes', lengths: several(2, 1, 8) },
  { name: 'Triplet of eighth notes', lengths: several(3, 1, 12) },
  { name: 'Sixteenth notes', lengths: several(4, 1, 16) },
];

/** The meter in which beats are counted here. */
const METER: Meter = { beats: 4, unit: 4 };
/** The note that is shown: any will do. */
const HOLE = '4';
/** More holds than these are written with their number. */
const MOST_SIGNS = 3;

/** How the tab writes notes of these lengths, in a slot: `4 = = =`, `4 =7`, `{4 4 4}2`. */
export function signOfLengths(lengths: readonly Fraction[], slot: Fraction): string {
  const slots = lengths.map((length) => divide(length, slot));
  if (slots.every(({ d }) => d === 1)) return slots.map(({ n: count }) => held(count)).join(' ');
  // Shares of a group, as fine as its notes need.
  const all = slots.reduce(add);
  const shares = slots.reduce((parts, own) => lcm(parts, divide(own, all).d), 1);
  const notes = slots.map((own) => held(toNumber(multiply(divide(own, all), fraction(shares, 1)))));
  return `{${notes.join(' ')}}${all.n === 1 ? '' : all.n}`;
}

const held = (count: number): string => {
  const holds = count - 1;
  return `${HOLE}${holds > MOST_SIGNS ? ` =${holds}` : ' ='.repeat(holds)}`;
};

/** CSS pixels. */
const BEAT = 52;
const LEFT = 12;
const RIGHT = 8;
const CENTRE = 24;
const HEIGHT = 32;
/** From the middle of a number to the line after it, and from a line's end to the next number, as in the lanes. */
const AFTER = 9;
const BEFORE = 11;

/** The note lengths as an HTML list. */
export function drawNoteLengths({ slot, title }: NoteLengthsFigure): string {
  const items = LENGTH_ROWS.map(({ name, lengths }) => {
    return (
      `<li>${picture(lengths)}<div><b>${name}</b>${aloud(':')} <span class="beats">${beatsInWords(lengths)}</span>${aloud(', written')} ` +
      `<code class="tab">${escapeText(signOfLengths(lengths, slot))}</code></div></li>`
    );
  });
  return (
    `<figcaption>${escapeText(title ?? 'How long notes are')}<span class="on">, in slots of ${format(slot)}</span></figcaption>` +
    `<ol class="note-lengths">${items.join('')}</ol>`
  );
}

function beatsInWords(lengths: readonly Fraction[]): string {
  const words = [...new Set(lengths.map((length) => lengthInWords(length, METER)))];
  return words.join(' and ') + (lengths.length > words.length ? ' each' : '');
}

function picture(lengths: readonly Fraction[]): string {
  const beat = beatLength(METER);
  const width = LEFT + METER.beats * BEAT + RIGHT;
  const y = CENTRE - BLOW_RISE;
  const onsets: number[] = [];
  let at = fraction(0, 1);
  const notes = lengths.map((length) => {
    const x = xOf(at);
    onsets.push(x);
    at = add(at, length);
    const end = xOf(at) - (lengths.length > 1 ? BEFORE : 2);
    const line = end - x - AFTER < 3 ? '' : heldLine(x + AFTER, end, [y]);
    return line + shapeText(HOLE, x, y, undefined);
  });
  const marks = Array.from({ length: METER.beats }, (_, index) => xOf(multiply(beat, fraction(index, 1))))
    .filter((x) => !onsets.includes(x))
    .map((x) => `M${n(x)} ${CENTRE - 4}V${CENTRE + 4}`);
  return (
    `<svg viewBox="0 0 ${width} ${HEIGHT}" width="${width}" height="${HEIGHT}" aria-hidden="true" focusable="false">` +
    `<path class="${CLASS.laneLine}" d="M0 ${CENTRE}H${width}${marks.join('')}"/>${notes.join('')}</svg>`
  );

  function xOf(time: Fraction): number {
    return LEFT + toNumber(divide(time, beat)) * BEAT;
  }
}
