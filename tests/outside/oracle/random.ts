// A small seeded generator, so that the same seed gives the same sample.

export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x85ebca6b) >>> 0;
    for (let i = 0; i < 4; i++) this.next();
  }

  /** A number from 0 up to, not including, 1 (the "mulberry32" mixing steps, from memory). */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  chance(p: number): boolean {
    return this.next() < p;
  }

  /** A whole number from low to high, both included. */
  int(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.next() * list.length)]!;
  }

  /** One of the values, each as likely as its weight says. */
  weighted<T>(list: readonly (readonly [T, number])[]): T {
    let left = this.next() * list.reduce((sum, [, w]) => sum + w, 0);
    for (const [value, w] of list) {
      left -= w;
      if (left < 0) return value;
    }
    return list[list.length - 1]![0];
  }

  shuffle<T>(list: readonly T[]): T[] {
    const out = [...list];
    for (let i = out.length - 1; i > 0; i--) {
      const j = this.int(0, i);
      [out[i], out[j]] = [out[j]!, out[i]!];
    }
    return out;
  }
}
