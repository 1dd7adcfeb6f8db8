/** Elements whose ink overlaps without intention, or is nearer than it should be. */
import type { Box, DrawnBlock } from './collect.ts';
import { type Inked, isIntended, onGround, pairName } from './intended.ts';
import { type Kind, kindsOf } from './kinds.ts';
import { boxOf, distanceOf, maskOf, overlapOf } from './mask.ts';

/** Something wrong at a place of a block. */
export interface Fault {
  /** What it is called in a table of counts. */
  readonly kind: string;
  /** Facts of this one. */
  readonly detail: string;
  readonly bar: string | undefined;
  /** In CSS pixels from the block's corner. */
  readonly box: Box;
}

/** Less shared ink than this is lines that touch. In square pixels, and pixels of the smaller side. */
const LEAST_AREA = 0.25;
const LEAST_DEPTH = 0.5;

/** Kinds that keep a distance, in CSS pixels as drawn. */
const DISTANCES: readonly { readonly pair: readonly [Kind, Kind]; readonly least: number }[] = [
  { pair: ['role shape', 'role shape'], least: 2 },
  { pair: ['ledger line', 'ledger line'], least: 1 },
];
const LEAST = new Map(DISTANCES.map(({ pair: [one, other], least }) => [pairName(one, other), least]));
/** Any two words, which would else be read as one. */
const BETWEEN_WORDS = 1;
const FARTHEST = Math.max(BETWEEN_WORDS, ...LEAST.values());

const leastBetween = (one: Inked, other: Inked): number =>
  LEAST.get(pairName(one.kind, other.kind)) ??
  (one.drawn.text !== undefined && other.drawn.text !== undefined ? BETWEEN_WORDS : 0);

/** Every element of a block that leaves ink. */
export function inked({ drawn }: DrawnBlock): readonly Inked[] {
  const kinds = kindsOf(drawn);
  return drawn.flatMap((own, index) => {
    const mask = maskOf(own);
    const kind = kinds[index];
    if (!mask || !kind) return [];
    return [{ kind, drawn: own, mask, box: boxOf(mask), scale: Math.hypot(own.matrix[0], own.matrix[1]) }];
  });
}

/** Finds all pairs that collide, and those that are too near. */
export function collisionsIn(items: readonly Inked[]): readonly Fault[] {
  // Of an element without a kind nobody can say what it may touch, nor whether it is music.
  const faults: Fault[] = items
    .filter(({ kind }) => kind === 'unknown')
    .map(({ drawn, box }) => ({
      kind: 'unknown',
      detail: `<${drawn.tag} class="${drawn.classes.join(' ')}">`,
      bar: drawn.bar,
      box,
    }));
  const sorted = items.toSorted((one, other) => one.box[0] - other.box[0]);
  let open: Inked[] = [];
  for (const item of sorted) {
    open = open.filter(({ box }) => box[2] + FARTHEST > item.box[0]);
    for (const other of open) {
      if (other.box[1] >= item.box[3] + FARTHEST || item.box[1] >= other.box[3] + FARTHEST) continue;
      const fault = between(other, item);
      if (fault) faults.push(fault);
    }
    open.push(item);
  }
  return faults;
}

function between(one: Inked, other: Inked): Fault | undefined {
  if (onGround(one.kind, other.kind)) return undefined;
  const pair = pairName(one.kind, other.kind);
  const bar = one.drawn.bar ?? other.drawn.bar;
  const names = `${nameOf(one)} and ${nameOf(other)}`;
  const overlap = overlapOf(one.mask, other.mask);
  if (overlap) {
    const [left, top, right, bottom] = overlap.box;
    const deep = overlap.area >= LEAST_AREA && Math.min(right - left, bottom - top) >= LEAST_DEPTH;
    if (deep && !isIntended(one, other, overlap)) {
      return { kind: pair, detail: `${names} share ${overlap.area.toFixed(1)} px²`, bar, box: overlap.box };
    }
  }
  const least = leastBetween(one, other);
  if (least === 0) return undefined;
  const distance = overlap ? 0 : distanceOf(one.mask, other.mask);
  if (distance >= least || (overlap && isIntended(one, other, overlap))) return undefined;
  const box: Box = [
    Math.min(one.box[0], other.box[0]),
    Math.min(one.box[1], other.box[1]),
    Math.max(one.box[2], other.box[2]),
    Math.max(one.box[3], other.box[3]),
  ];
  return { kind: `near: ${pair}`, detail: `${names} are ${distance.toFixed(2)} px apart`, bar, box };
}

const nameOf = ({ kind, drawn }: Inked): string => (drawn.text === undefined ? kind : `${kind} “${drawn.text}”`);
