import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHORDS, LANES, STAFF_HEIGHT } from '../../src/engrave/layout.ts';
import type { InkBox } from '../../src/engrave/staff/box.ts';
import { type TileInk, tileHeights } from '../../src/engrave/tile-heights.ts';
import { cases } from '../setup/long.ts';

const boxes = (top: number, bottom: number) =>
  fc.array(
    fc
      .tuple(
        fc.integer({ min: 0, max: 200 }),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: top, max: bottom }),
        fc.integer({ min: 1, max: 30 }),
      )
      .map(([left, width, from, height]): InkBox => ({ left, right: left + width, top: from, bottom: from + height })),
    { maxLength: 6 },
  );
const tileInk: fc.Arbitrary<TileInk> = fc.record({
  chords: boxes(0, 2).map((all) => all.map((box) => ({ ...box, bottom: CHORDS.baseline }))),
  staff: boxes(-60, 80),
  lanes: boxes(-60, 40),
});

const down = (box: InkBox, by: number): InkBox => ({ ...box, top: box.top + by, bottom: box.bottom + by });
const touch = (one: InkBox, other: InkBox): boolean =>
  one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;

describe('the heights of a tile', () => {
  it('keep chord names, staff and lanes clear of each other', () => {
    fc.assert(
      fc.property(tileInk, (ink) => {
        const { over, between } = tileHeights(ink);
        const staff = ink.staff.map((box) => down(box, over));
        const lanes = ink.lanes.map((box) => down(box, over + STAFF_HEIGHT + between));
        expect(ink.chords.filter((name) => staff.some((note) => touch(name, note)))).toEqual([]);
        expect(lanes.filter((number) => staff.some((note) => touch(number, note)))).toEqual([]);
      }),
      { numRuns: cases(300, 10_000) },
    );
  });

  it('hold all that is in the tile, and the lines of staff and lanes', () => {
    fc.assert(
      fc.property(tileInk, (ink) => {
        const { over, between, staffBelow, lanesAbove, lanesBelow } = tileHeights(ink);
        for (const { top, bottom } of ink.staff) {
          expect(top + over).toBeGreaterThanOrEqual(0);
          expect(bottom).toBeLessThanOrEqual(STAFF_HEIGHT + staffBelow);
          // The centre line of the lanes goes through the whole tile, and so do the lines of the staff.
          expect(bottom).toBeLessThan(STAFF_HEIGHT + between + LANES.centre);
        }
        for (const { top, bottom } of ink.lanes) {
          expect(top).toBeGreaterThanOrEqual(-lanesAbove);
          expect(top).toBeGreaterThan(-between);
          expect(bottom).toBeLessThanOrEqual(LANES.height + lanesBelow);
        }
      }),
      { numRuns: cases(300, 10_000) },
    );
  });

  it('are no higher for a note that is beside a name or a number than for a tile without it', () => {
    const name = { left: 0, right: 40, top: 0, bottom: CHORDS.baseline };
    const number = { left: 0, right: 24, top: -20, bottom: 4 };
    const high = { left: 60, right: 70, top: -12, bottom: 20 };
    const low = { left: 60, right: 70, top: 20, bottom: 52 };
    const apart = tileHeights({ chords: [name], staff: [high, low], lanes: [number] });
    const alone = tileHeights({ chords: [name], staff: [], lanes: [number] });
    expect([apart.over, apart.between]).toEqual([alone.over, alone.between]);
    const above = tileHeights({ chords: [{ ...name, right: 80 }], staff: [high], lanes: [] });
    const below = tileHeights({ chords: [], staff: [low], lanes: [{ ...number, right: 80 }] });
    expect(above.over).toBeGreaterThan(apart.over + 10);
    expect(below.between).toBeGreaterThan(apart.between + 10);
  });
});
