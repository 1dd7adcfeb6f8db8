/** Pairs the items of two lists that are the same, in their order. */

/** What an item goes by; undefined for one that has no counterpart by this. */
export type NameOf<Item> = (item: Item) => string | undefined;
/** An item of each list that are the same. */
export type Aligned<Item> = readonly [before: Item, after: Item];

/** A table for two long lists would take too much memory: what is between their equal ends is then replaced. */
const MOST_COMPARED = 1_000_000;

/**
 * The longest list of pairs that have the same name. Between these pairs the items are paired by the next name, and so on: the names
 * are given from the one that says most to the one that says least.
 */
export function align<Item>(
  before: readonly Item[],
  after: readonly Item[],
  names: readonly NameOf<Item>[],
): Aligned<Item>[] {
  const [name, ...others] = names;
  if (!name || before.length === 0 || after.length === 0) return [];
  const pairs: Aligned<Item>[] = [];
  let [i, j] = [0, 0];
  for (const [k, l] of [...commonIn(before.map(name), after.map(name)), [before.length, after.length] as const]) {
    pairs.push(...align(before.slice(i, k), after.slice(j, l), others));
    const [one, other] = [before[k], after[l]];
    if (one !== undefined && other !== undefined) pairs.push([one, other]);
    [i, j] = [k + 1, l + 1];
  }
  return pairs;
}

type Places = readonly [before: number, after: number];
type Names = readonly (string | undefined)[];

/** The places of a longest common part of two lists. */
function commonIn(before: Names, after: Names): Places[] {
  const isSame = (i: number, j: number): boolean => before[i] !== undefined && before[i] === after[j];
  let start = 0;
  let [end, last] = [before.length, after.length];
  while (start < Math.min(end, last) && isSame(start, start)) start++;
  while (end > start && last > start && isSame(end - 1, last - 1)) [end, last] = [end - 1, last - 1];
  const equal = (length: number, i: number, j: number): Places[] =>
    Array.from({ length }, (_, index) => [i + index, j + index]);
  return [...equal(start, 0, 0), ...longest(start, end, last, isSame), ...equal(before.length - end, end, last)];
}

function longest(start: number, end: number, last: number, isSame: (i: number, j: number) => boolean): Places[] {
  const [height, width] = [end - start, last - start];
  if (height * width === 0 || height * width > MOST_COMPARED) return [];
  /** The length of the longest common part from each pair of places on, row by row. */
  const lengths = new Uint32Array((height + 1) * (width + 1));
  const at = (i: number, j: number): number => lengths[i * (width + 1) + j] ?? 0;
  for (let i = height - 1; i >= 0; i--) {
    for (let j = width - 1; j >= 0; j--) {
      lengths[i * (width + 1) + j] = isSame(start + i, start + j)
        ? 1 + at(i + 1, j + 1)
        : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const found: Places[] = [];
  for (let i = 0, j = 0; i < height && j < width; ) {
    if (isSame(start + i, start + j)) found.push([start + i++, start + j++]);
    else if (at(i + 1, j) >= at(i, j + 1)) i++;
    else j++;
  }
  return found;
}
