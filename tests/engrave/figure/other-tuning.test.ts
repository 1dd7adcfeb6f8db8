/** Figures on a harp of another tuning, which may have fewer holes than the one they are written for. */
import { expect, test } from 'vitest';
import type { FigureOnHarp } from '../../../src/engrave/figure/figure.ts';
import { hasHolesOf } from '../../../src/engrave/figure/other-tuning.ts';
import { keyInPosition } from '../../../src/harmony/key.ts';
import { readHarp } from '../../../src/instrument/harp.ts';
import { RICHTER, type Tuning } from '../../../src/instrument/tuning.ts';
import { present } from '../../../src/values/checked.ts';

const harpOf = (tuning: Tuning) => present(readHarp('C', tuning), 'the harp');
const harp = harpOf(RICHTER);
const four = harpOf({ id: 'four', title: 'Four', blow: [0, 4, 7, 12], draw: [2, 7, 11, 14] });
const key = keyInPosition(harp.key, 1, 'major');

test('a harp of four holes shows its own holes, and no ladder or target above them', () => {
  const ladder = (hole: number): FigureOnHarp => ({
    kind: 'bend-ladder',
    harp,
    hole,
    cents: false,
    hertz: false,
    overbends: false,
  });
  expect([1, 4, 5, 10].map((hole) => hasHolesOf(ladder(hole), four))).toEqual([true, true, false, false]);
  expect(hasHolesOf(ladder(10), harp)).toBe(true);
  const targets = (from: number, to: number): FigureOnHarp => ({
    kind: 'target-notes',
    harp,
    key,
    position: 1,
    chords: [],
    holes: [from, to],
    bends: true,
    overbends: false,
  });
  expect([targets(1, 4), targets(4, 9), targets(5, 9)].map((one) => hasHolesOf(one, four))).toEqual([
    true,
    true,
    false,
  ]);
});
