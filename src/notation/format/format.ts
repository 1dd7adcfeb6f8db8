/**
 * A block in its clean form: bars in columns, words under their notes, comments where they were. What the block says stays the same.
 */

import { hasError } from '../../diagnostics/diagnostic.ts';
import { itemAt, valueAt } from '../../values/checked.ts';
import { parseBlock } from '../parse.ts';
import type { Atom } from './atoms.ts';
import { barsOf, oneRow, rowsOf, type WrittenRow } from './bars.ts';
import { type Element, elementsOf, type MusicElement, type UnderElement } from './elements.ts';
import { atomsOfRow, attacksOf, LONGEST_ROW, labelWidth, printRows, type RowToPrint, widthOfRow } from './layout.ts';
import { saysTheSame } from './same.ts';
import { columnsOfText, padColumns } from './width.ts';

/** What became of a block. */
export type Formatted =
  /** Its lines, without breaks. */
  | { readonly lines: readonly string[] }
  /** It has errors, so it is not known what it means. */
  | { readonly errors: number }
  /** The clean form would say something else: a fault of Reedway. */
  | { readonly fault: readonly string[] };

/** Brings the text of a block into its clean form. A block with errors, as far as they can be seen without other blocks, has none. */
export function formatBlock(text: string): Formatted {
  const tree = parseBlock(text);
  if (hasError(tree.diagnostics))
    return { errors: tree.diagnostics.filter(({ severity }) => severity === 'error').length };
  const lines = new Printer(elementsOf(text), tree.header.has('pickup')).lines();
  return saysTheSame(tree, parseBlock(lines.join('\n'))) ? { lines } : { fault: lines };
}

/** Music whose lines may be divided again, with what belongs to its last line. */
interface Segment {
  readonly lines: readonly MusicElement[];
  readonly comment: string;
  readonly under: readonly UnderElement[];
  /** Whether it stays on one line. */
  readonly isFixed: boolean;
}

/** What shares its columns: segments or phrases, and lines between them. */
type Entry = Segment | string | { readonly label: string; readonly phrase: Element & { kind: 'phrase' } };

/** Goes through the lines of a block once; what it has printed so far is the only thing that changes. */
class Printer {
  private readonly elements: readonly Element[];
  private readonly printed: string[] = [];
  private section: Entry[] = [];
  private sectionOf: 'music' | 'phrase' = 'music';
  private pickupAhead: boolean;

  constructor(elements: readonly Element[], hasPickup: boolean) {
    this.elements = elements;
    this.pickupAhead = hasPickup;
  }

  lines(): string[] {
    const fixed = fixedLines(this.elements);
    for (let index = 0; index < this.elements.length; index++) {
      const element = this.elements[index];
      switch (element?.kind) {
        case 'blank':
          this.endSection();
          if (this.printed.length > 0 && this.printed.at(-1) !== '') this.printed.push('');
          break;
        case 'comment':
          this.section.push(element.text);
          break;
        case 'under':
          this.section.push(printLoose(element));
          break;
        case 'keyed':
          index = this.keyed(index);
          break;
        case 'phrase':
          this.begin('phrase');
          this.section.push({ label: element.label, phrase: element });
          break;
        case 'music':
          index = this.music(index, fixed);
          break;
      }
    }
    this.endSection();
    while (this.printed.at(-1) === '') this.printed.pop();
    return this.printed;
  }

  private begin(kind: 'music' | 'phrase'): void {
    if (this.sectionOf !== kind) this.endSection();
    this.sectionOf = kind;
  }

  /** Settings one below the other, with their comments in one column; the index of the last one. */
  private keyed(from: number): number {
    const run: (Element & { kind: 'keyed' })[] = [];
    for (let index = from; ; index++) {
      const element = this.elements[index];
      if (element?.kind !== 'keyed') break;
      run.push(element);
    }
    // Words to the player are above their bar, and its columns go on.
    if (!run.every(({ key }) => key === 'text')) this.endSection();
    const lines = run.map(({ key, value }) => `${key}: ${value}`.trimEnd());
    const widest = Math.max(...lines.filter((_, index) => run[index]?.comment).map(columnsOfText), 0);
    lines.forEach((line, index) => {
      const comment = run[index]?.comment ?? '';
      this.section.push(comment === '' ? line : `${padColumns(line, widest)}  ${comment}`);
    });
    return from + run.length - 1;
  }

  /** Lines of music that may be joined, from an index on, and what is under them; the index of the last one. */
  private music(from: number, fixed: ReadonlySet<number>): number {
    this.begin('music');
    const lines: MusicElement[] = [];
    let index = from;
    let under: UnderElement[] = [];
    for (; ; index++) {
      const element = this.elements[index];
      if (element?.kind !== 'music') break;
      under = this.underAt(index + 1);
      const standsAlone = element.comment !== '' || fixed.has(index) || under.length > 0;
      if (standsAlone && lines.length > 0) {
        under = [];
        break;
      }
      lines.push(element);
      if (!standsAlone) continue;
      index += 1 + (hasMusic(element) ? under.length : 0);
      break;
    }
    const [first] = lines;
    const owns = first !== undefined && lines.length === 1 && hasMusic(first);
    // How many notes a quotation has is not known here: its author may have put each word under its note.
    if (owns && under.length > 0 && attacksOf(first.atoms) === undefined) {
      this.section.push(first.written, ...under.map(({ written }) => written));
      this.pickupAhead = false;
      return index - 1;
    }
    this.section.push({
      lines,
      comment: first?.comment ?? '',
      under: owns ? under : [],
      isFixed: fixed.has(index - 1 - (owns ? under.length : 0)),
    });
    return index - 1;
  }

  private underAt(from: number): UnderElement[] {
    const found: UnderElement[] = [];
    for (let index = from; ; index++) {
      const element = this.elements[index];
      if (element?.kind !== 'under') return found;
      found.push(element);
    }
  }

  private endSection(): void {
    const label = labelWidth(
      this.section.map((one) => ({ label: '', under: typeof one !== 'string' && 'under' in one ? one.under : [] })),
    );
    const rows = this.section.flatMap((entry) => (typeof entry === 'string' ? [] : [this.rowsOfEntry(entry, label)]));
    const printed = printRows(rows.flat());
    let row = 0;
    let done = 0;
    for (const entry of this.section) {
      if (typeof entry === 'string') this.printed.push(entry);
      else {
        const count = rows[row++]?.length ?? 0;
        this.printed.push(...printed.slice(done, done + count).flat());
        done += count;
      }
    }
    this.section = [];
  }

  private rowsOfEntry(entry: Exclude<Entry, string>, label: number): RowToPrint[] {
    if ('phrase' in entry)
      return [
        { label: entry.label, row: oneRow(barsOf([entry.phrase.atoms])), comment: entry.phrase.comment, under: [] },
      ];
    const { lines, comment, under, isFixed } = entry;
    const bars = barsOf(lines.map(({ atoms }) => atoms));
    const hasPickup = this.pickupAhead && bars.cells.length > 0;
    if (hasPickup) this.pickupAhead = false;
    const whole = attacksOf(bars.cells.flatMap(({ atoms }) => atoms));
    const isShared = under.every(({ syllables }) => syllables.length === whole);
    const one = oneRow(bars, hasPickup);
    // A comment is about its line, and so are words that do not fit the notes. A line with words is whole if it can be.
    const isWhole = isFixed || comment !== '' || !isShared;
    if (isWhole || (under.length > 0 && widthOfRow(one, under, label) <= LONGEST_ROW))
      return [{ label: '', row: one, comment, under }];
    const underRow = wordsOfRows(under, one);
    const fits = (row: WrittenRow): boolean => widthOfRow(row, underRow(row), label) <= LONGEST_ROW;
    return rowsOf(bars, hasPickup, fits).map((row) => ({ label: '', row, comment: '', under: underRow(row) }));
  }
}

const hasMusic = ({ atoms }: MusicElement): boolean => atoms.some(({ line }) => !line);

/** Asks what of the words under a row of all bars is under some of them. */
function wordsOfRows(under: readonly UnderElement[], all: WrittenRow): (row: WrittenRow) => UnderElement[] {
  if (under.length === 0) return () => [];
  const before = new Map<Atom, number>();
  let count = 0;
  for (const atom of atomsOfRow(all)) {
    before.set(atom, count);
    count += atom.attacks ?? 0;
  }
  return (row) => {
    const own = atomsOfRow(row);
    const from = valueAt(before, itemAt(own, 0));
    const to = from + (attacksOf(own) ?? 0);
    return under.map((one) => ({ ...one, syllables: one.syllables.slice(from, to) }));
  };
}

/** The lines of music that words belong to which are further below: they stay as they are. */
function fixedLines(elements: readonly Element[]): Set<number> {
  const fixed = new Set<number>();
  let last: number | undefined;
  elements.forEach((element, index) => {
    const before = elements[index - 1];
    if (element.kind === 'music' && hasMusic(element)) last = index;
    else if (element.kind === 'under' && before?.kind !== 'under' && last !== undefined && last !== index - 1)
      for (let at = last; at < index; at++) fixed.add(at);
  });
  return fixed;
}

/** Words that are not right below their music. */
function printLoose({ label, syllables }: UnderElement): string {
  let text = label;
  syllables.forEach((syllable, index) => {
    const before = syllables[index - 1];
    const joined = before?.text.endsWith('-') && before.kind === 'text' && syllable.kind === 'text';
    text += `${joined ? '' : ' '}${syllable.text}`;
  });
  return text;
}
