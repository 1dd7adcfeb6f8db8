/** Rows of bars as lines of text: bars in columns, and what is under a row under its notes. */
import type { Atom } from './atoms.ts';
import type { WrittenRow } from './bars.ts';
import type { UnderElement, WrittenSyllable } from './elements.ts';
import { columnsOfText, padColumns } from './width.ts';

/** In columns. A row that is longer is divided where its music allows that. */
export const LONGEST_ROW = 110;

/** A row with what belongs to it. */
export interface RowToPrint {
  /** What is before the music: `phrase answer:`. Labels of lines under the music are as wide. */
  readonly label: string;
  readonly row: WrittenRow;
  /** Behind it; empty for none. */
  readonly comment: string;
  readonly under: readonly UnderElement[];
}

/** A run of atoms, and where notes begin in it. */
interface Piece {
  readonly text: string;
  /** Columns it takes; more than its text where what is under it needs room. */
  width: number;
  /** Where it begins in a row that stands alone, without its label. */
  readonly start: number;
  readonly attacks: readonly number[];
}

interface PlacedCell extends Piece {
  readonly lines: string;
}

/** A row, measured. */
interface PlacedRow {
  readonly lead: Piece;
  readonly cells: readonly PlacedCell[];
}

/** The columns that rows share. */
interface Columns {
  readonly lead: number;
  readonly cells: readonly number[];
  readonly lines: readonly number[];
}

/** The columns a row takes by itself, behind a label of some width. */
export function widthOfRow(row: WrittenRow, under: readonly UnderElement[], label: number): number {
  const placed = placeRow(row, under);
  return label + columnsOfText(printRow(placed, columnsFor([placed])).text);
}

/** How many notes begin in the atoms; undefined where a quotation is among them. */
export function attacksOf(atoms: readonly Atom[]): number | undefined {
  let count = 0;
  for (const { attacks } of atoms) {
    if (attacks === undefined) return undefined;
    count += attacks;
  }
  return count;
}

/** All atoms of a row, in order. */
export const atomsOfRow = ({ opening, pickup, cells }: WrittenRow): Atom[] => [
  ...opening,
  ...[...(pickup ? [pickup] : []), ...cells].flatMap(({ atoms, lines }) => [...atoms, ...lines]),
];

/** The labels of a section, all as wide as the widest. */
export const labelWidth = (rows: readonly Pick<RowToPrint, 'label' | 'under'>[]): number => {
  const labels = rows.flatMap(({ label, under }) => [label, ...under.map((one) => one.label)]);
  const widest = Math.max(0, ...labels.map(columnsOfText));
  return widest === 0 ? 0 : widest + 1;
};

/** The lines of each row: its music, then what is under it. */
export function printRows(rows: readonly RowToPrint[]): string[][] {
  const label = labelWidth(rows);
  const placed = rows.map(({ row, under }) => placeRow(row, under));
  const columns = sharedColumns(placed, LONGEST_ROW - label);
  const printed = placed.map((row, index) => printRow(row, columns[index] ?? columnsFor([row])));
  const music = printed.map(({ text }, index) => (padColumns(rows[index]?.label ?? '', label) + text).trimEnd());
  const beside = music.filter((_, index) => rows[index]?.comment);
  const widest = Math.max(0, ...beside.map(columnsOfText));
  return rows.map(({ comment, under }, index) => {
    const line = music[index] ?? '';
    const attacks = printed[index]?.attacks.map((at) => at + label) ?? [];
    return [
      comment === '' ? line : `${padColumns(line, widest)}  ${comment}`,
      ...under.map((one) => printUnder(one, attacks, label)),
    ];
  });
}

/** For each row the columns it shares with others: with all if they fit, or else with neighbours that have as many bars. */
function sharedColumns(rows: readonly PlacedRow[], longest: number): Columns[] {
  const widest = (group: readonly PlacedRow[], columns: Columns): number =>
    Math.max(...group.map((row) => columnsOfText(printRow(row, columns).text)));
  const alone = rows.map((row) => columnsFor([row]));
  const isLong = rows.map((row, index) => widest([row], alone[index] ?? columnsFor([row])) > longest);
  const short = rows.filter((_, index) => !isLong[index]);
  const all = columnsFor(short);
  if (widest(short, all) <= longest) return rows.map((_, index) => (isLong[index] ? alone[index] : undefined) ?? all);
  const found: Columns[] = [];
  for (let from = 0; from < rows.length; ) {
    let to = from + 1;
    while (to < rows.length && rows[to]?.cells.length === rows[from]?.cells.length && isLong[to] === isLong[from]) to++;
    const group = rows.slice(from, to);
    const columns = columnsFor(group);
    const fit = !isLong[from] && widest(group, columns) <= longest;
    found.push(...(fit ? group.map(() => columns) : alone.slice(from, to)));
    from = to;
  }
  return found;
}

/** Bars that are alone in their row, and long words at a bar line, make no column wider. */
function columnsFor(rows: readonly PlacedRow[]): Columns {
  const cells: number[] = [];
  const lines: number[] = [];
  for (const row of rows)
    row.cells.forEach((cell, index) => {
      const line = columnsOfText(cell.lines);
      const isLast = index === row.cells.length - 1;
      cells[index] = Math.max(cells[index] ?? 0, row.cells.length < 2 ? 0 : cell.width);
      lines[index] = Math.max(lines[index] ?? 0, isLast || line > LONGEST_SIGN ? 0 : line);
    });
  return { lead: Math.max(0, ...rows.map(({ lead }) => lead.width)), cells, lines };
}

/** `:|2`. */
const LONGEST_SIGN = 3;

/** Measures a row. Where what is under a note is longer than the way to the next note, that way is made longer. */
function placeRow({ opening, pickup, cells }: WrittenRow, under: readonly UnderElement[]): PlacedRow {
  const isKnown = under.length > 0 && attacksOf(atomsOfRow({ opening, pickup, cells })) !== undefined;
  let count = 0;
  let next = 0;
  let before: Piece | undefined;
  const pieceOf = (atoms: readonly Atom[], from: number): Piece => {
    const attacksAt: number[] = [];
    let start = from;
    const line = new Line();
    for (const { text, joined, attacks } of atoms) {
      if (line.text !== '' && !joined) line.put(' ');
      if (attacks === 1 && isKnown) {
        const missing = Math.max(0, next - start - line.columns);
        if (line.text !== '') line.fill(next - start);
        else if (before) {
          before.width += missing;
          start += missing;
        }
        attacksAt.push(line.columns);
        next = start + line.columns + Math.max(0, ...under.map(({ syllables }) => roomOf(syllables, count)));
        count++;
      }
      line.put(text);
    }
    before = { text: line.text, width: line.columns, start, attacks: attacksAt };
    return before;
  };
  const lead = pieceOf([...opening, ...(pickup ? [...pickup.atoms, ...pickup.lines] : [])], 0);
  let from = lead.width === 0 ? 0 : lead.width + 1;
  const placed = cells.map(({ atoms, lines }): PlacedCell => {
    const piece = pieceOf(atoms, from);
    const behind = textOfLines(lines);
    from = piece.start + piece.width + columnsOfText(behind) + 2;
    return Object.assign(piece, { lines: behind });
  });
  return { lead, cells: placed };
}

const textOfLines = (lines: readonly Atom[]): string => lines.map(({ text }) => text).join(' ');

/** The columns from a syllable to the next one. */
function roomOf(syllables: readonly WrittenSyllable[], index: number): number {
  const own = syllables[index];
  const next = syllables[index + 1];
  if (!own || !next) return 0;
  return columnsOfText(own.text) + (isJoined(own, next) ? 0 : 1);
}

/** Whether two syllables are of one word and may touch. */
const isJoined = (own: WrittenSyllable, next: WrittenSyllable): boolean =>
  own.kind === 'text' && own.text.endsWith('-') && next.kind === 'text';

interface PrintedRow {
  readonly text: string;
  /** The columns at which notes begin. */
  readonly attacks: readonly number[];
}

function printRow({ lead, cells }: PlacedRow, columns: Columns): PrintedRow {
  const line = new Line();
  if (columns.lead > 0) line.put(lead.text).fill(columns.lead + 1);
  const attacks = [...lead.attacks];
  let column = line.columns;
  cells.forEach((cell, index) => {
    line.fill(column);
    const from = line.columns;
    attacks.push(...cell.attacks.map((at) => from + at));
    column += (columns.cells[index] ?? 0) + 1;
    line.put(cell.text).fill(Math.max(from + cell.width + 1, column));
    line.put(`${cell.lines} `);
    column += (columns.lines[index] ?? 0) + 1;
  });
  return { text: line.text.trimEnd(), attacks };
}

/** A line that is being written, with its columns counted once. */
class Line {
  text = '';
  columns = 0;

  put(text: string): this {
    this.text += text;
    this.columns += columnsOfText(text);
    return this;
  }

  /** Adds spaces up to a column, if it is not there yet. */
  fill(column: number): this {
    return this.put(' '.repeat(Math.max(0, column - this.columns)));
  }
}

function printUnder({ label, syllables }: UnderElement, attacks: readonly number[], width: number): string {
  const line = new Line().put(label).fill(width);
  syllables.forEach((syllable, index) => {
    const before = syllables[index - 1];
    if (before && line.columns >= (attacks[index] ?? 0) && !isJoined(before, syllable)) line.put(' ');
    line.fill(attacks[index] ?? 0).put(syllable.text);
  });
  return line.text.trimEnd();
}
