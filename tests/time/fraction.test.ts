import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  add,
  compare,
  divide,
  equals,
  format,
  fraction,
  gcd,
  lcm,
  minimum,
  multiply,
  ONE,
  subtract,
  ZERO,
} from '../../src/time/fraction.ts';

const some = fc
  .tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: 1, max: 96 }))
  .map(([n, d]) => fraction(n, d));

describe('a fraction', () => {
  test('is reduced, with its sign above the line', () => {
    expect(fraction(6, -8)).toEqual({ n: -3, d: 4 });
  });
  test('of nothing is a zero without a sign', () => {
    expect(fraction(0, -5)).toEqual({ n: 0, d: 1 });
    expect(fraction(0, 5)).toEqual({ n: 0, d: 1 });
  });
  test('of small parts is one value, however it is come by', () => {
    expect(fraction(6, 16)).toBe(fraction(3, 8));
    expect(subtract(fraction(3, 4), fraction(1, 2))).toBe(fraction(1, 4));
    expect(fraction(1, 4)).not.toBe(fraction(1, 3));
  });
  test('is itself, however large its parts are', () => {
    for (const [n, d] of [1, 2, 63, 64, 65, 129].flatMap((n) => [1, 64, 65, 127, 128].map((d) => [n, d] as const)))
      if (gcd(n, d) === 1)
        expect([fraction(n, d), fraction(-n, d)]).toEqual([
          { n, d },
          { n: -n, d },
        ]);
  });
  test('has names for the start of a bar and for a whole note', () => {
    expect([ZERO, ONE].map(format)).toEqual(['0', '1']);
  });
  test('prints as musicians write lengths', () => {
    expect([fraction(3, 8), fraction(4, 2)].map(format)).toEqual(['3/8', '2']);
  });
  test('refuses a zero below the line and numbers too large to be exact', () => {
    expect(() => fraction(1, 0)).toThrow(RangeError);
    expect(() => fraction(2 ** 53, 1)).toThrow(RangeError);
  });
  test('adds and multiplies as numbers do', () => {
    fc.assert(
      fc.property(some, some, some, (a, b, c) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(add(add(a, b), c)).toEqual(add(a, add(b, c)));
        expect(multiply(a, add(b, c))).toEqual(add(multiply(a, b), multiply(a, c)));
        expect(subtract(add(a, b), b)).toEqual(a);
        if (b.n !== 0) expect(divide(multiply(a, b), b)).toEqual(a);
      }),
    );
  });
  test('compares as its value does', () => {
    fc.assert(
      fc.property(some, some, (a, b) => {
        expect(Math.sign(compare(a, b))).toBe(Math.sign(a.n / a.d - b.n / b.d));
        expect(equals(a, b)).toBe(compare(a, b) === 0);
        expect(minimum(a, b)).toEqual(a.n / a.d < b.n / b.d ? a : b);
      }),
    );
  });
});

test('common divisors and multiples are never negative', () => {
  expect([gcd(12, -18), gcd(-12, 18), gcd(0, -5), gcd(0, 0)]).toEqual([6, 6, 5, 0]);
  expect(lcm(4, 6)).toBe(12);
});
