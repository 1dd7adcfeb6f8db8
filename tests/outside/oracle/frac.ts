// Exact fractions of a whole note. Always reduced, the denominator positive.

export type Frac = [number, number];

function gcd(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return Math.abs(a);
}

export function frac(n: number, d = 1): Frac {
  if (d < 0) [n, d] = [-n, -d];
  const g = gcd(n, d) || 1;
  return [n / g, d / g];
}

export const ZERO: Frac = [0, 1];
export const add = (a: Frac, b: Frac): Frac => frac(a[0] * b[1] + b[0] * a[1], a[1] * b[1]);
export const sub = (a: Frac, b: Frac): Frac => frac(a[0] * b[1] - b[0] * a[1], a[1] * b[1]);
export const mul = (a: Frac, b: Frac): Frac => frac(a[0] * b[0], a[1] * b[1]);
export const div = (a: Frac, b: Frac): Frac => frac(a[0] * b[1], a[1] * b[0]);
export const cmp = (a: Frac, b: Frac): number => a[0] * b[1] - b[0] * a[1];
export const floor = (a: Frac): number => Math.floor(a[0] / a[1]);
