/** How long each note of a picture lasts, read from what is drawn: heads, stems, flags, beams, dots, rests and tuplet figures. */

import type { Inked } from './intended.ts';
import { codePointOf } from './kinds.ts';
import { type Mask, SAMPLES } from './mask.ts';

/** A note, chord or rest as it stands on the staff. */
export interface Column {
  /** The middle of its heads, in CSS pixels. */
  readonly x: number;
  readonly left: number;
  readonly right: number;
  /** As a share of a whole note. */
  readonly duration: number;
  /** As it is called in a report: `1/8`, `1/4.`, `1/8 of 3`. */
  readonly name: string;
  readonly rest: boolean;
}

const HEADS: ReadonlyMap<number, number> = new Map([
  [0xe0a0, 2],
  [0xe0a2, 1],
  [0xe0a3, 1 / 2],
  [0xe0a4, 1 / 4],
]);
/** Rests with a ledger line of their own. */
const HIGH_RESTS: ReadonlyMap<number, number> = new Map([
  [0xe4f3, 2],
  [0xe4f4, 1],
  [0xe4f5, 1 / 2],
]);

const middleOf = ({ box: [left, , right] }: Inked): number => (left + right) / 2;

/** The columns of one picture in order. The rest of a whole bar, which stands in its middle, is none. */
export function columnsOf(items: readonly Inked[]): readonly Column[] {
  const of = (kind: Inked['kind']): readonly Inked[] => items.filter((item) => item.kind === kind);
  const tuplets = tupletsOf(items);
  const notes = clusters(of('notehead')).map((heads) => noteOf(heads, items, tuplets));
  const rests = of('rest').map((rest) => restOf(rest, items, tuplets));
  const columns = [...notes, ...rests].toSorted((one, other) => one.x - other.x);
  return columns.length === 1 && columns[0]?.rest ? [] : columns;
}

/** Heads of one event that stand at one stem, or would. */
function clusters(heads: readonly Inked[]): readonly (readonly Inked[])[] {
  const found: Inked[][] = [];
  for (const head of heads.toSorted((one, other) => middleOf(one) - middleOf(other))) {
    const own = found.find(
      ([first]) =>
        first &&
        first.drawn.event === head.drawn.event &&
        middleOf(head) - middleOf(first) < 1.25 * (first.box[2] - first.box[0]),
    );
    if (own) own.push(head);
    else found.push([head]);
  }
  return found;
}

function noteOf(heads: readonly Inked[], items: readonly Inked[], tuplets: readonly Tuplet[]): Column {
  const side = ownSide(heads, stemsOf(heads, items)[0]);
  const x = side.reduce((sum, head) => sum + middleOf(head), 0) / side.length;
  const left = Math.min(...heads.map(({ box }) => box[0]));
  const right = Math.max(...heads.map(({ box }) => box[2]));
  const code = Math.max(...heads.map(({ drawn }) => codePointOf(drawn) ?? 0));
  const base = HEADS.get(code) ?? 1 / 4;
  const tails = base === 1 / 4 ? Math.max(flagsAt(heads, items), beamsAt(heads, items)) : 0;
  const dots = dotsAfter(heads, right, items);
  return timed({ x, left, right, rest: false }, base / 2 ** tails, dots, tuplets);
}

/** Where a second puts heads on both sides of a stem, those on the side where all the others would be. */
function ownSide(heads: readonly Inked[], stem: Inked | undefined): readonly Inked[] {
  if (!stem) return heads.slice(0, 1);
  const above = Math.min(...heads.map(({ box }) => box[1])) - stem.box[1];
  const below = stem.box[3] - Math.max(...heads.map(({ box }) => box[3]));
  // A stem that goes up stands to the right of its heads, one that goes down to the left.
  const own = heads.filter((head) =>
    above > below ? middleOf(head) < middleOf(stem) : middleOf(head) > middleOf(stem),
  );
  return own.length > 0 ? own : heads;
}

function restOf(rest: Inked, items: readonly Inked[], tuplets: readonly Tuplet[]): Column {
  const code = codePointOf(rest.drawn) ?? 0;
  // From 0xe4e2, a double whole rest, each next is half as long.
  const base = HIGH_RESTS.get(code) ?? 2 / 2 ** (code - 0xe4e2);
  const [left, , right] = rest.box;
  return timed({ x: middleOf(rest), left, right, rest: true }, base, dotsAfter([rest], right, items), tuplets);
}

function timed(
  place: Pick<Column, 'x' | 'left' | 'right' | 'rest'>,
  base: number,
  dots: number,
  tuplets: readonly Tuplet[],
): Column {
  const tuplet = tuplets.find(({ from, to }) => place.x >= from && place.x <= to);
  const written = base * (2 - 1 / 2 ** dots);
  const name = `${base >= 1 ? base : `1/${1 / base}`}${'.'.repeat(dots)}`;
  if (!tuplet) return { ...place, duration: written, name };
  return { ...place, duration: (written * tuplet.normal) / tuplet.actual, name: `${name} of ${tuplet.actual}` };
}

/** Stems that touch the heads. */
const stemsOf = (heads: readonly Inked[], items: readonly Inked[]): readonly Inked[] =>
  items.filter(
    ({ kind, box, scale }) =>
      kind === 'stem' &&
      heads.some(
        (head) =>
          box[2] >= head.box[0] - scale &&
          box[0] <= head.box[2] + scale &&
          box[1] <= head.box[3] &&
          box[3] >= head.box[1],
      ),
  );

/** How many tails the flag of these heads has. */
function flagsAt(heads: readonly Inked[], items: readonly Inked[]): number {
  const stems = stemsOf(heads, items);
  const flags = items.filter(
    ({ kind, box, scale }) =>
      kind === 'flag' &&
      stems.some(
        (stem) =>
          Math.abs(box[0] - middleOf(stem)) <= 2 * scale &&
          box[1] <= stem.box[3] + 4 * scale &&
          box[3] >= stem.box[1] - 4 * scale,
      ),
  );
  return Math.max(0, ...flags.map(({ drawn }) => (((codePointOf(drawn) ?? 0) - 0xe240) >> 1) + 1));
}

/** How many beams the stem of these heads ends at: runs of their ink on a line beside the stem. */
function beamsAt(heads: readonly Inked[], items: readonly Inked[]): number {
  const beams = items.filter(({ kind }) => kind === 'beam').map(({ mask }) => mask);
  return Math.max(
    0,
    ...stemsOf(heads, items).map((stem) => {
      const beside = [-1.5, 1.5].map((away) => Math.round((middleOf(stem) + away * stem.scale) * SAMPLES));
      const from = Math.round((stem.box[1] - 6 * stem.scale) * SAMPLES);
      const to = Math.round((stem.box[3] + 6 * stem.scale) * SAMPLES);
      return Math.max(...beside.map((x) => runs(beams, x, from, to)));
    }),
  );
}

function runs(masks: readonly Mask[], x: number, from: number, to: number): number {
  let count = 0;
  let inside = false;
  for (let y = from; y <= to; y++) {
    const ink = masks.some(
      ({ left, top, width, height, ink: own }) =>
        x >= left && x < left + width && y >= top && y < top + height && own[(y - top) * width + x - left] === 1,
    );
    if (ink && !inside) count++;
    inside = ink;
  }
  return count;
}

/** Dots behind a note: as many as one of its heads has. */
function dotsAfter(heads: readonly Inked[], right: number, items: readonly Inked[]): number {
  const [first] = heads;
  if (!first) return 0;
  const reach = right + 18 * first.scale;
  const xs = items
    .filter(
      ({ kind, box, drawn }) =>
        kind === 'dot' &&
        drawn.event !== undefined &&
        drawn.event === first.drawn.event &&
        box[0] >= right &&
        box[2] <= reach,
    )
    .map((dot) => Math.round(middleOf(dot)));
  return new Set(xs).size;
}

interface Tuplet {
  readonly from: number;
  readonly to: number;
  readonly actual: number;
  readonly normal: number;
}

/** Which part of the staff each tuplet's number speaks of: as far as its bracket goes, or else the beam it is at. */
function tupletsOf(items: readonly Inked[]): readonly Tuplet[] {
  const digits = items
    .filter(({ kind }) => kind === 'tuplet figure')
    .toSorted((one, other) => one.box[0] - other.box[0]);
  const numbers: Inked[][] = [];
  for (const digit of digits) {
    const last = numbers.at(-1)?.at(-1);
    if (last && digit.box[0] - last.box[2] < 3 * digit.scale) numbers.at(-1)?.push(digit);
    else numbers.push([digit]);
  }
  return numbers.flatMap((number) => {
    const [first] = number;
    const last = number.at(-1);
    if (!first || !last) return [];
    const x = (first.box[0] + last.box[2]) / 2;
    const actual = Number(number.map(({ drawn }) => (codePointOf(drawn) ?? 0xe880) - 0xe880).join(''));
    const spans = items
      .filter(({ kind, box }) => (kind === 'tuplet bracket' || kind === 'beam') && box[0] <= x && box[2] >= x)
      .toSorted((one, other) => away(one, first) - away(other, first));
    const bracket = spans.find(({ kind }) => kind === 'tuplet bracket') ?? spans[0];
    if (!bracket) return [];
    const air = 12 * first.scale;
    // So many in the time of the next smaller power of two; of two and four, in the time of three.
    const normal = actual === 2 || actual === 4 ? 3 : 2 ** Math.floor(Math.log2(actual - 1));
    return [{ from: bracket.box[0] - air, to: bracket.box[2] + air, actual, normal }];
  });
}

const away = (span: Inked, digit: Inked): number => Math.abs(span.box[1] - digit.box[3]);
