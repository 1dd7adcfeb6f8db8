/**
 * Exact time. A fraction is kept reduced with a positive denominator, so equal fractions have equal fields.
 * Plain numbers rather than a bignum library: denominators here are a slot's (at most 64) times a group's
 * (at most 12), and a large course adds millions of them.
 */
export interface Fraction {
  readonly n: number;
  readonly d: number;
}

/** The greatest common divisor, never negative. */
export const gcd = (a: number, b: number): number => {
  while (b !== 0) [a, b] = [b, a % b];
  return a < 0 ? -a : a;
};

/** The least common multiple of two positive numbers. */
export const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** A reduced fraction. Throws on a zero denominator or on parts that are not safe integers: both are bugs. */
export function fraction(n: number, d = 1): Fraction {
  if (d === 0 || !Number.isSafeInteger(n) || !Number.isSafeInteger(d))
    throw new RangeError(`not a fraction: ${n}/${d}`);
  if (n === 0) return ZERO;
  const g = d < 0 ? -gcd(n, d) : gcd(n, d);
  return reduced(n / g, d / g);
}

/** The same few onsets and lengths come up all through a course: those of small parts are one value each. */
const SMALL = 64;
const small: Fraction[] = [];

function reduced(n: number, d: number): Fraction {
  if (n < 0 || n >= SMALL || d >= SMALL) return { n, d };
  const place = n * SMALL + d;
  const known = small[place];
  if (known) return known;
  const made = { n, d };
  small[place] = made;
  return made;
}

/** The start of a bar. */
export const ZERO: Fraction = { n: 0, d: 1 };
/** A whole note. */
export const ONE: Fraction = { n: 1, d: 1 };

/** The exact sum. */
export const add = (a: Fraction, b: Fraction): Fraction =>
  a.d === b.d ? fraction(a.n + b.n, a.d) : fraction(a.n * b.d + b.n * a.d, a.d * b.d);

/** The exact difference `a - b`. */
export const subtract = (a: Fraction, b: Fraction): Fraction => add(a, { n: -b.n, d: b.d });

/** The exact product. */
export const multiply = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.n, a.d * b.d);

/** The exact quotient `a / b`; `b` must not be zero. */
export const divide = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d, a.d * b.n);
/** Negative, zero or positive as `a` is less than, equal to or greater than `b`. */
export const compare = (a: Fraction, b: Fraction): number => a.n * b.d - b.n * a.d;

/** Whether both are the same number; fractions are always in lowest terms. */
export const equals = (a: Fraction, b: Fraction): boolean => a.n === b.n && a.d === b.d;

/** The smaller of the two. */
export const minimum = (a: Fraction, b: Fraction): Fraction => (compare(a, b) <= 0 ? a : b);

/** Whether it is an integer. */
export const maximum = (a: Fraction, b: Fraction): Fraction => (compare(a, b) >= 0 ? a : b);
export const isWhole = (a: Fraction): boolean => a.d === 1;

/** The nearest floating-point number. */
export const toNumber = (a: Fraction): number => a.n / a.d;
/** `3/8`, or `2` for a whole number. */
export const format = (a: Fraction): string => (a.d === 1 ? `${a.n}` : `${a.n}/${a.d}`);
