/** Music in bars, and the bars in rows. */
import type { BarLine } from '../tree.ts';
import type { Atom } from './atoms.ts';

/** A bar as it is written. */
export interface WrittenCell {
  readonly atoms: readonly Atom[];
  /** The bar lines behind it. */
  readonly lines: readonly Atom[];
  /** Whether a line of the author begins with it or with a bar line before it. */
  readonly begins: boolean;
}

/** Music in bars. */
export interface WrittenBars {
  /** The bar lines before the first bar. */
  readonly opening: readonly Atom[];
  readonly cells: readonly WrittenCell[];
  /** Whether the author divided a bar into two lines. */
  readonly isDivided: boolean;
}

/** A row of bars: what is before its first whole bar, then the bars. */
export interface WrittenRow {
  readonly opening: readonly Atom[];
  /** A pickup, which is not counted. */
  readonly pickup: WrittenCell | undefined;
  readonly cells: readonly WrittenCell[];
}

/** Divides lines of music into bars. A plain bar line both ends one line and begins the next in some hands; one is enough. */
export function barsOf(lines: readonly (readonly Atom[])[]): WrittenBars {
  const opening: Atom[] = [];
  const cells: { atoms: Atom[]; lines: Atom[]; begins: boolean }[] = [];
  let isDivided = false;
  lines.forEach((atoms) => {
    let begins = true;
    let open = cells.at(-1);
    if (open && open.lines.length === 0 && atoms.length > 0 && !atoms[0]?.line) isDivided = true;
    for (const atom of atoms) {
      open = cells.at(-1);
      if (atom.line) {
        const before = open ? open.lines : opening;
        if (atom === atoms[0] && isPlainLine(atom.line) && isPlainLine(before.at(-1)?.line)) continue;
        before.push(atom);
        continue;
      }
      if (!open || open.lines.length > 0) cells.push({ atoms: [atom], lines: [], begins });
      else open.atoms.push(atom);
      begins = false;
    }
  });
  return { opening, cells, isDivided };
}

/** Whether a bar line does nothing but divide. */
export const isPlainLine = (line: BarLine | undefined): boolean =>
  line !== undefined &&
  !line.repeatEnd &&
  !line.repeatStart &&
  !line.endings &&
  line.close === undefined &&
  line.signs === undefined;

/** Whether a bar line begins something, and so belongs to the bar behind it. */
const isOpening = ({ line }: Atom): boolean =>
  line !== undefined &&
  (line.repeatStart ||
    line.endings !== undefined ||
    line.signs?.some(({ sign }) => sign === 'segno' || sign === 'coda') === true);

/** How bars are divided into rows: so many in each, with a last one alone taken into the row before it or not. */
interface Division {
  readonly bars: number;
  readonly alone: boolean;
}

const DIVISIONS: readonly Division[] = [4, 3, 2].flatMap((bars) => [
  { bars, alone: true },
  { bars, alone: false },
]);

/**
 * The bars in rows. The rows of the author stay where they have two, three or four bars each; otherwise there are four in a row. A row
 * that does not fit is halved. A second ending begins a row, which is filled up to where the first one ended.
 */
export function rowsOf(bars: WrittenBars, hasPickup: boolean, fits: (row: WrittenRow) => boolean): WrittenRow[] {
  const own = bars.cells.flatMap(({ begins }, index) => (begins && index > 0 ? [index] : []));
  const divided = DIVISIONS.map((division) => startsOf(bars, hasPickup, division, fits));
  const chosen = bars.isDivided ? undefined : divided.find((starts) => starts.join() === own.join());
  return rowsAt(bars, hasPickup, chosen ?? divided[0] ?? []);
}

/** The numbers of the bars that begin a row, but for the first. */
function startsOf(
  bars: WrittenBars,
  hasPickup: boolean,
  { bars: most, alone }: Division,
  fits: (row: WrittenRow) => boolean,
): number[] {
  const { cells, opening } = bars;
  const starts: number[] = [];
  const first = hasPickup ? 1 : 0;
  let place = 0;
  /** Where in a row the first ending began. */
  let ending = 0;
  cells.forEach((_, index) => {
    if (index < first) return;
    const lines = cells[index - 1]?.lines ?? opening;
    const opens = lines.some(({ line }) => line?.endings !== undefined);
    const repeats = lines.some(({ line }) => line?.repeatEnd);
    const isNextEnding = opens && repeats && index > first;
    const isLastAlone = !alone && index === cells.length - 1 && place === most;
    if (isNextEnding) place = ending;
    else if (place >= most && !isLastAlone) place = 0;
    else if (index > first && lines.some(({ line }) => line?.close !== undefined)) place = 0;
    else {
      if (opens) ending = place;
      place++;
      return;
    }
    if (opens && !isNextEnding) ending = place;
    if (index > first) starts.push(index);
    place++;
  });
  return halved(bars, hasPickup, starts, fits);
}

/** Rows that do not fit, halved until they do. */
function halved(
  bars: WrittenBars,
  hasPickup: boolean,
  starts: readonly number[],
  fits: (row: WrittenRow) => boolean,
): number[] {
  const rows = rowsAt(bars, hasPickup, starts);
  const found: number[] = [];
  let at = 0;
  for (const row of rows) {
    const from = at + (row.pickup ? 1 : 0);
    at = from + row.cells.length;
    if (row.cells.length > 1 && !fits(row)) found.push(from + Math.ceil(row.cells.length / 2));
  }
  return found.length === 0
    ? [...starts]
    : halved(
        bars,
        hasPickup,
        [...starts, ...found].sort((a, b) => a - b),
        fits,
      );
}

/** The rows that begin at these bars. */
function rowsAt({ opening, cells }: WrittenBars, hasPickup: boolean, starts: readonly number[]): WrittenRow[] {
  const edges = [0, ...starts, cells.length];
  let opened: readonly Atom[] = opening;
  return edges.slice(0, -1).map((from, index) => {
    const to = edges[index + 1] ?? cells.length;
    const own = cells.slice(from, to);
    const row = { opening: opened, pickup: undefined, cells: own };
    opened = [];
    const last = own.at(-1);
    // What opens the next row is written there.
    const cut = last && to < cells.length ? last.lines.findIndex(isOpening) : -1;
    if (last && cut >= 0) {
      opened = last.lines.slice(cut);
      row.cells = [...own.slice(0, -1), { ...last, lines: last.lines.slice(0, cut) }];
    }
    const [first, ...others] = row.cells;
    return hasPickup && index === 0 && first ? { ...row, pickup: first, cells: others } : row;
  });
}

/** All bars in one row. */
export const oneRow = (bars: WrittenBars, hasPickup = false): WrittenRow => {
  const [row = { opening: bars.opening, pickup: undefined, cells: [] }] = rowsAt(bars, hasPickup, []);
  return row;
};
