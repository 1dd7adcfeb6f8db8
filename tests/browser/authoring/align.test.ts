import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { align } from '../../../src/browser/authoring/align.ts';
import { cases } from '../../setup/long.ts';

const whole = (item: string): string => item;
const initial = (item: string): string | undefined => (item === '' ? undefined : item.charAt(0));

/** The length of a longest common part, by trying everything. */
const longestOf = (one: readonly string[], other: readonly string[]): number => {
  const [first, ...rest] = one;
  if (first === undefined) return 0;
  const at = other.indexOf(first);
  const without = longestOf(rest, other);
  return at < 0 ? without : Math.max(without, 1 + longestOf(rest, other.slice(at + 1)));
};
const items = fc.array(fc.constantFrom('a', 'a1', 'a2', 'b', 'b1', 'c', ''), { maxLength: 8 });

describe('two lists are aligned', () => {
  test('by what is the same, and between that by what is alike', () => {
    expect(align(['a1', 'b', 'c'], ['a2', 'b', 'x', 'c'], [whole, initial])).toEqual([
      ['a1', 'a2'],
      ['b', 'b'],
      ['c', 'c'],
    ]);
  });

  test('items without a name have no partner by it', () => {
    expect(align(['', 'a'], ['', 'a'], [initial])).toEqual([['a', 'a']]);
  });

  test('in order, each item once, with as many pairs as can be', () => {
    fc.assert(
      fc.property(items, items, (before, after) => {
        const numbered = (list: readonly string[]) => list.map((name, index) => ({ name, index }));
        const pairs = align(numbered(before), numbered(after), [({ name }) => name]);
        for (const [one, other] of pairs) expect(one.name).toBe(other.name);
        const rising = (places: readonly number[]) =>
          places.every((place, at) => at === 0 || place > (places[at - 1] ?? 0));
        expect(rising(pairs.map(([one]) => one.index))).toBe(true);
        expect(rising(pairs.map(([, other]) => other.index))).toBe(true);
        expect(pairs).toHaveLength(longestOf(before, after));
      }),
      { numRuns: cases(200, 5000) },
    );
  });

  test('very long lists still in a moment, though not all of what they share may be found', () => {
    const long = Array.from({ length: 3000 }, (_, index) => `${index}`);
    const begun = performance.now();
    const pairs = align(['x', ...long, 'y'], ['z', ...long.toReversed(), 'y'], [whole]);
    expect(pairs.at(-1)).toEqual(['y', 'y']);
    expect(performance.now() - begun).toBeLessThan(1000);
  });
});
