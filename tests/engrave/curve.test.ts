import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { InkBox } from '../../src/engrave/staff/box.ts';
import { type Curve, curveBoxes, findCurve } from '../../src/engrave/staff/curve.ts';
import { cases } from '../setup/long.ts';

/** Points of a cubic Bézier curve, by de Casteljau’s construction. */
function pointsOf({ from, one, two, to }: Curve): { x: number; y: number }[] {
  const between = (a: { x: number; y: number }, b: { x: number; y: number }, t: number) => ({
    x: a.x + (b.x - a.x) * t,
    y: a.y + (b.y - a.y) * t,
  });
  return Array.from({ length: 101 }, (_, index) => {
    const t = index / 100;
    const [a, b, c] = [between(from, one, t), between(one, two, t), between(two, to, t)];
    return between(between(a, b, t), between(b, c, t), t);
  });
}

const inside = (curve: Curve, box: InkBox): boolean =>
  pointsOf(curve).some(({ x, y }) => x > box.left && x < box.right && y > box.top && y < box.bottom);

/** An accidental before the note that a slur leads to. */
const accidental = fc.record({
  width: fc.integer({ min: 6, max: 17 }),
  above: fc.integer({ min: 5, max: 18 }),
  below: fc.integer({ min: 5, max: 14 }),
});

describe('a curve', () => {
  it('goes clear of an accidental before its end, within an octave, whatever its size', () => {
    fc.assert(
      fc.property(
        accidental,
        fc.integer({ min: 12, max: 170 }),
        fc.integer({ min: -4, max: 12 }),
        fc.integer({ min: -7, max: 7 }),
        fc.boolean(),
        ({ width, above, below }, room, start, steps, up) => {
          const length = 18 + width + room;
          const [from, to] = [5 * start, 5 * (start + steps)];
          const side = up ? -7.5 : 7.5;
          const ink = [
            { left: -5.9, right: 5.9, top: from - 5, bottom: from + 5 },
            { left: length - 5.9, right: length + 5.9, top: to - 5, bottom: to + 5 },
            { left: length - 9 - width, right: length - 9, top: to - above, bottom: to + below },
          ];
          const ends = { from: { x: 2.5, y: from + side }, to: { x: length - 2.5, y: to + side }, up };
          const curve = findCurve(ends, ink);
          expect(ink.filter((box) => inside(curve, box))).toEqual([]);
        },
      ),
      { numRuns: cases(300, 3000) },
    );
  });

  it('is the plain one where nothing is in its way: level, above or below its ends', () => {
    for (const up of [true, false]) {
      const curve = findCurve({ from: { x: 0, y: 20 }, to: { x: 60, y: 20 }, up }, []);
      expect([curve.from.y, curve.to.y]).toEqual([20, 20]);
      const boxes = curveBoxes(curve);
      const [top, bottom] = [Math.min(...boxes.map((box) => box.top)), Math.max(...boxes.map((box) => box.bottom))];
      expect(up ? top < 20 && bottom < 22 : bottom > 20 && top > 18).toBe(true);
    }
  });

  it('lifts the end that something is at, and leaves the other at its note', () => {
    const ends = { from: { x: 0, y: 0 }, to: { x: 80, y: 0 }, up: true };
    const curve = findCurve(ends, [{ left: 64, right: 74, top: -10, bottom: 20 }]);
    expect(curve.from).toEqual(ends.from);
    expect(curve.to.y).toBeLessThan(0);
  });
});
