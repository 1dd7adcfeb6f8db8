import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastWidth, place, type Spacing } from '../../src/engrave/spacing.ts';
import { itemAt, lastOf } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';

const needs = fc.integer({ min: 1, max: 16 }).chain((count) =>
  fc.record({
    before: fc.integer({ min: 9, max: 40 }),
    after: fc.integer({ min: 9, max: 40 }),
    lengths: fc.array(fc.constantFrom(1, 2, 3, 4, 8), { minLength: count, maxLength: count }),
    gaps: fc.array(fc.integer({ min: 14, max: 40 }), { minLength: count - 1, maxLength: count - 1 }),
    apart:
      count < 3
        ? fc.constant([])
        : fc.array(
            fc.integer({ min: 0, max: count - 3 }).map((from) => ({ from, to: from + 2, least: 90 })),
            { maxLength: 3 },
          ),
  }),
);

const spaced = (more: Partial<Spacing>): number[] =>
  place({
    width: 200,
    before: 20,
    after: 20,
    beyond: 0,
    lengths: [1, 1, 1, 1],
    gaps: [14, 14, 14],
    apart: [],
    ...more,
  });

describe('spacing', () => {
  it('gives longer notes more room', () => {
    const [a, b, c] = spaced({ lengths: [1, 4, 1, 1] }) as [number, number, number];
    expect(c - b).toBeGreaterThan(1.5 * (b - a));
  });
  it('spaces equal notes evenly', () => {
    const xs = spaced({});
    expect(new Set(xs.slice(1).map((x, index) => (x - itemAt(xs, index)).toFixed(6))).size).toBe(1);
  });
  it('keeps every gap and every far pair apart where the width allows, and stays within it', () => {
    fc.assert(
      fc.property(needs, fc.integer({ min: 0, max: 300 }), (own, extra) => {
        const width = leastWidth(own) + extra + 30 * own.apart.length;
        const xs = place({ ...own, width, beyond: 0 });
        expect(xs[0]).toBeCloseTo(own.before, 3);
        own.gaps.forEach((gap, index) => {
          expect(itemAt(xs, index + 1) - itemAt(xs, index)).toBeGreaterThan(gap * 0.98 - 0.5);
        });
        expect(lastOf(xs) + own.after).toBeLessThan(width + 0.5 + own.after * 0.02);
      }),
      { numRuns: cases(200, 1000) },
    );
  });
  it('spaces notes of one length alike, whatever they carry, where the bar has the width it needs', () => {
    fc.assert(
      fc.property(needs, fc.integer({ min: 0, max: 100 }), (own, extra) => {
        fc.pre(own.apart.length === 0);
        const xs = place({ ...own, width: leastWidth(own) + extra, beyond: 0 });
        const byLength = Map.groupBy(own.gaps.keys(), (index) => itemAt(own.lengths, index));
        for (const indices of byLength.values()) {
          const gaps = indices.map((index) => itemAt(xs, index + 1) - itemAt(xs, index));
          expect(Math.max(...gaps) / Math.min(...gaps)).toBeLessThan(1.15);
        }
      }),
      { numRuns: cases(200, 1000) },
    );
  });
  it('squeezes all alike where it must', () => {
    const xs = spaced({ width: 60, gaps: [30, 30, 30] });
    expect(xs.every((x, index) => index === 0 || x > itemAt(xs, index - 1))).toBe(true);
    expect(xs.at(-1)).toBeLessThan(60);
  });
  it('places nothing where there is nothing', () => {
    expect(spaced({ lengths: [], gaps: [] })).toEqual([]);
  });
});
