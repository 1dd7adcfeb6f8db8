/** Why bars are of a wrong length, where the text shows it: one line too many or missing, a dot behind a note, a count behind a space. */
import type { Diagnostic, Fix, TextEdit, TextSpan } from '../../diagnostics/diagnostic.ts';
import { perhaps } from '../../diagnostics/edit.ts';
import {
  add,
  compare,
  divide,
  equals,
  type Fraction,
  format,
  fraction,
  multiply,
  subtract,
  ZERO,
} from '../../time/fraction.ts';
import { itemAt } from '../../values/checked.ts';
import type { DraftBar } from '../bars.ts';
import { report } from '../problems.ts';

/** What is known of the bars of a block. */
export interface WrongBars {
  readonly bars: readonly DraftBar[];
  /** Those that are of a wrong length, in order. */
  readonly wrong: readonly number[];
  readonly wanted: (index: number) => Fraction;
  readonly slotOf: (index: number) => Fraction;
  /** The text of the block, its look-alikes as they are read. */
  readonly text: string;
  readonly hasPickup: boolean;
}

/** Reports what explains bars of a wrong length; returns the bars that are explained. */
export function explainBars(known: WrongBars, diagnostics: Diagnostic[]): ReadonlySet<number> {
  const explained = new Set<number>();
  explainDots(known, explained, diagnostics);
  explainLines(known, explained, diagnostics);
  return explained;
}

/** `4.`: read as a note and a rest. */
const DOTTED = /(?<=^|[\s|:}">])[-+]?\d{1,2}(?:['o*]*)\.(?![\d.x])/g;

function explainDots({ bars, wrong, text }: WrongBars, explained: Set<number>, diagnostics: Diagnostic[]): void {
  const dotted: TextSpan[] = [];
  for (const index of wrong) {
    const { span, unsure, repeatsLast } = itemAt(bars, index);
    const found = [...text.slice(span.from, span.to).matchAll(DOTTED)];
    if (unsure || found.length === 0 || repeatsLast) continue;
    explained.add(index);
    for (const { 0: written, index: at } of found)
      dotted.push({ from: span.from + at, to: span.from + at + written.length });
  }
  const [first] = dotted;
  if (first)
    diagnostics.push(report('dotted-note', first, { written: text.slice(first.from, first.to), count: dotted.length }));
}

/** Two bars that are one together, with a plain line between them. */
function explainLines(
  { bars, wrong, wanted, slotOf, hasPickup }: WrongBars,
  explained: Set<number>,
  diagnostics: Diagnostic[],
): void {
  const isWrong = new Set(wrong);
  for (const index of wrong) {
    const next = index + 1;
    if (explained.has(index) || !isWrong.has(next) || explained.has(next)) continue;
    const [one, other] = [itemAt(bars, index), itemAt(bars, next)];
    const line = one.repeatsLast || other.repeatsLast ? undefined : other.lineSpan;
    // Of two bars the first may be a pickup.
    if (!line || (!hasPickup && bars.length === 2) || (hasPickup && index === 0)) continue;
    if (!equals(add(one.length, other.length), wanted(index))) continue;
    explained.add(index).add(next);
    const inSlots = ({ length }: DraftBar): string => format(divide(length, slotOf(index)));
    const facts = {
      bar: one.number,
      has: [inSlots(one), inSlots(other)] as const,
      wants: format(divide(wanted(index), slotOf(index))),
    };
    diagnostics.push(report('bar-line-extra', line, facts, perhaps(line, '')));
  }
}

/** What is before the first note of a line is not longer. */
const LONGEST_HEAD = 80;

/** Where bar lines are missing in a bar that holds several. */
export interface MissingLines {
  readonly fix: Fix;
  /** Whether each is missing at the end of a line. */
  readonly atLineEnds: boolean;
  /** The slot behind the first of them. */
  readonly before: string;
}

/** The lines that are missing in a bar that holds several full ones; undefined where that cannot be seen. */
export function missingLines(bar: DraftBar, full: Fraction, text: string): MissingLines | undefined {
  const edits: TextEdit[] = [];
  let before: string | undefined;
  let atLineEnds = true;
  let at = full;
  let index = 0;
  for (; compare(at, bar.length) < 0; at = add(at, full)) {
    while (index < bar.events.length && compare(itemAt(bar.events, index).onset, at) < 0) index++;
    const found = bar.events[index];
    const event = found && equals(found.onset, at) ? found : undefined;
    if (!event || event.source.quote || (event.kind === 'sound' && event.tied)) return undefined;
    const { from, to } = event.source.span;
    const near = Math.max(0, from - LONGEST_HEAD);
    const lineBreak = text.slice(near, from).search(/[\r\n][^\r\n]*$/);
    const start = lineBreak === -1 ? near : near + lineBreak + 1;
    const isStart = lineBreak !== -1 || near === 0;
    // Chords and embouchures before the note are of its bar.
    const own = /(?:(?:"[^"]*"|@[a-z]+) *)*$/.exec(text.slice(start, from))?.[0] ?? '';
    const place = from - own.trimStart().length;
    atLineEnds &&= isStart && text.slice(start, place).trim() === '';
    edits.push({ span: { from: place, to: place }, text: '| ' });
    before ??= text.slice(from, to);
  }
  if (before === undefined || !equals(at, bar.length)) return undefined;
  return { fix: { edits, certain: atLineEnds }, atLineEnds, before };
}

/** `= 3` that would fill a bar as `=3`. */
export function spacedCount(
  bar: DraftBar,
  full: Fraction,
  slot: Fraction,
  text: string,
): { readonly meant: string; readonly fix: Fix } | undefined {
  for (const { 0: written, 1: sign, 2: count, index } of text
    .slice(bar.span.from, bar.span.to)
    .matchAll(/([=.]) +(\d{1,2})(?![^\s|])/g)) {
    const more = multiply(slot, fraction(Number(count) - 2));
    if (!equals(subtract(full, bar.length), more) || compare(more, ZERO) === 0) continue;
    const from = bar.span.from + index;
    return { meant: `${sign}${count}`, fix: perhaps({ from, to: from + written.length }, `${sign}${count}`) };
  }
  return undefined;
}
