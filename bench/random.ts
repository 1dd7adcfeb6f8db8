/** Chance that comes out the same for the same seed, on every machine. */
import { itemAt } from '../src/values/checked.ts';
export interface Random {
  /** From 0 up to, but not including, 1. */
  next(): number;
  /** A whole number from `least` to `most`, both included. */
  whole(least: number, most: number): number;
  /** True so many times in a hundred. */
  percent(chance: number): boolean;
  pick<T>(of: readonly T[]): T;
  /** Some of a list, in a new order. */
  some<T>(of: readonly T[], count: number): T[];
}

/** The mulberry32 generator, which is in the public domain, over a mix of the seeds. */
export function seeded(...seeds: readonly number[]): Random {
  let state = seeds.reduce((mixed, seed) => Math.imul(mixed ^ seed, 0x9e3779b1) + 0x85ebca6b, 0x2545f491) | 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const whole = (least: number, most: number): number => least + Math.floor(next() * (most - least + 1));
  const pick = <T>(of: readonly T[]): T => {
    if (of.length === 0) throw new Error('nothing to pick from');
    return itemAt(of, whole(0, of.length - 1));
  };
  const some = <T>(of: readonly T[], count: number): T[] => {
    const left = [...of];
    const taken: T[] = [];
    while (taken.length < count && left.length > 0) taken.push(...left.splice(whole(0, left.length - 1), 1));
    return taken;
  };
  return { next, whole, percent: (chance) => next() * 100 < chance, pick, some };
}
