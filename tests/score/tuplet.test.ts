/** Which stretch of a bar is one tuplet, and how many notes it has in the time of how many. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gridOf } from '../../src/score/grid.ts';
import { findTuplets } from '../../src/score/tuplet.ts';
import { compare, format, fraction, subtract, ZERO } from '../../src/time/fraction.ts';
import { barLength, readMeter } from '../../src/time/meter.ts';
import { present } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';
import { rhythm } from './rhythm.ts';

/** Each tuplet of a bar with its place from the bar's start: `3:2 from 1/4 to 1/2`. */
function tuplets(durations: string, name = '4/4', pickup = false): string[] {
  const meter = present(readMeter(name), name);
  const { events, length } = rhythm(durations);
  const grid = gridOf(meter, events, pickup ? subtract(barLength(meter), length) : undefined);
  return findTuplets(grid).map(
    ({ from, to, actual, normal }) =>
      `${actual}:${normal} from ${format(grid.onset(from))} to ${format(grid.onset(to))}`,
  );
}

type Case = readonly [durations: string, expected: readonly string[], meter?: string];
const each = (rows: readonly Case[]) =>
  test.each(rows.map(([durations, expected, meter = '4/4']) => ({ durations, expected, meter })));
const asExpected = ({
  durations,
  expected,
  meter,
}: {
  durations: string;
  expected: readonly string[];
  meter: string;
}) => expect(tuplets(durations, meter)).toEqual(expected);

describe('a tuplet', () => {
  each([
    ['1/4 1/8 1/8 1/2', []],
    ['1/12 1/12 1/12 3/4', ['3:2 from 0 to 1/4']],
    ['1/4 1/24 1/24 1/24 5/8', ['3:2 from 1/4 to 3/8']],
    ['1/20 1/20 1/20 1/20 1/20 3/4', ['5:4 from 0 to 1/4']],
    ['1/28 1/28 1/28 1/28 1/28 1/28 1/28 3/4', ['7:4 from 0 to 1/4']],
    ['3/16 3/16 3/8', [], '6/8'],
    ['3/40 3/40 3/40 3/40 3/40 3/8', ['5:3 from 0 to 3/8'], '6/8'],
    ['5/24 5/24 5/24', ['3:5 from 0 to 5/8'], '5/8'],
    ['1/4 1/6 1/6 1/6', ['3:2 from 1/4 to 3/4'], '6/8'],
  ])('of even notes: $durations in $meter', asExpected);

  each([
    ['1/12 1/6 3/4', ['3:2 from 0 to 1/4']],
    ['1/10 3/20 3/4', ['5:4 from 0 to 1/4']],
    ['1/8 1/24 1/12 3/4', ['3:2 from 1/8 to 1/4']],
    ['1/16 1/48 1/24 7/8', ['3:2 from 1/16 to 1/8']],
    ['3/8 1/24 1/12 1/2', ['3:2 from 3/8 to 1/2']],
    ['5/4 1/12 1/6', ['3:2 from 5/4 to 3/2'], '12/8'],
  ])('of uneven notes is no wider than a beat: $durations in $meter', asExpected);

  each([
    ['1/6 1/3 1/2', ['3:2 from 0 to 1/2']],
    ['1/3 1/6 1/2', ['3:2 from 0 to 1/2']],
    ['1/4 1/6 1/3 1/4', ['3:2 from 1/4 to 3/4']],
    ['1/3 2/3', ['3:2 from 0 to 1']],
    ['1/5 3/10', ['5:4 from 0 to 1/2'], '2/4'],
    ['1/4 1/5 3/10 1/4', ['5:4 from 1/4 to 3/4']],
  ])('may be wider where none of its notes is written shorter than a beat: $durations in $meter', asExpected);

  each([
    ['1/12 1/3 1/12 1/2', ['3:2 from 0 to 1/4', '3:2 from 1/4 to 1/2']],
    ['7/12 1/6', ['3:2 from 1/2 to 3/4'], '3/4'],
    ['1/2 1/12 5/12', ['3:2 from 1/2 to 3/4']],
    // Half the beat, where that holds the first note which needs it.
    ['3/8 1/12 13/24', ['3:2 from 3/8 to 1/2']],
    ['1/16 1/12 1/12 25/48', ['3:2 from 1/8 to 1/4'], '3/4'],
    ['1/8 1/24 1/12 1/12 1/6 1/2', ['3:2 from 1/8 to 1/4', '3:2 from 1/4 to 1/2']],
  ])('ends with its beat, also where a note is held into it or out of it: $durations in $meter', asExpected);
});

describe('six notes in the time of four', () => {
  each([
    ['1/24 1/24 1/24 1/24 1/24 1/24 3/4', ['6:4 from 0 to 1/4']],
    ['1/1 1/24 1/24 1/24 1/24 1/24 1/24', ['6:4 from 1 to 5/4'], '5/4'],
    ['1/12 1/12 1/12 1/12 1/12 1/12 1/2', ['6:4 from 0 to 1/2'], '2/2'],
  ])('are two triplets that fill a beat evenly: $durations in $meter', asExpected);
  each([
    ['1/8 1/24 1/24 1/24 1/24 1/24 1/24 5/8', ['3:2 from 1/8 to 1/4', '3:2 from 1/4 to 3/8']],
    ['1/12 1/12 1/12 1/12 1/12 1/12 1/8', ['3:2 from 0 to 1/4', '3:2 from 1/4 to 1/2'], '5/8'],
    ['1/6 1/6 1/6 1/6 1/6 1/6', ['3:2 from 0 to 1/2', '3:2 from 1/2 to 1'], '2/2'],
    ['1/24 1/24 1/24 1/12 1/24 3/4', ['3:2 from 0 to 1/8', '3:2 from 1/8 to 1/4']],
    ['1/24 1/12 1/24 1/12 1/4', ['3:2 from 0 to 1/8', '3:2 from 1/8 to 1/4'], '2/4'],
    ['1/12 1/12 1/12 1/24 1/24 1/24', ['3:2 from 0 to 1/4', '3:2 from 1/4 to 3/8'], '3/8'],
    ['1/12 1/24 1/20 1/40 1/40 1/40 1/2', ['3:2 from 0 to 1/8', '5:4 from 1/8 to 1/4'], '3/4'],
  ])('are not what is uneven, wider, narrower or across beats: $durations in $meter', asExpected);
});

describe('a tuplet at an end of the bar', () => {
  test('is cut off where a pickup begins in it, or a short bar ends in it', () => {
    expect(tuplets('1/10', '2/4', true)).toEqual(['5:4 from 0 to 1/10']);
    expect(tuplets('1/12 1/12', '4/4', true)).toEqual(['3:2 from 0 to 1/6']);
    expect(tuplets('1/12 1/12 1/12', '4/4', true)).toEqual(['3:2 from 0 to 1/4']);
    expect(tuplets('1/4 1/12 1/12', '4/4')).toEqual(['3:2 from 1/4 to 5/12']);
    expect(tuplets('1/4 1/12', '4/4')).toEqual(['3:2 from 1/4 to 1/3']);
  });
});

describe('the tuplets of a bar', () => {
  /** Slots of a bar, of which each may be divided evenly, and some of the points that this gives. */
  const bars = fc
    .record({
      meter: fc.constantFrom('4/4', '3/4', '2/2', '6/8', '12/8', '5/8', '7/8'),
      parts: fc.array(fc.constantFrom(1, 1, 2, 3, 3, 5, 6, 7), { minLength: 16, maxLength: 16 }),
      slot: fc.constantFrom(4, 8, 16),
      left: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
    })
    .map(({ meter: name, parts, slot, left }) => {
      const length = barLength(present(readMeter(name), name));
      const points = [ZERO];
      for (let i = 0; i < 64; i++) {
        const count = present(parts[i % parts.length], 'a number');
        for (let part = 0; part < count; part++) {
          const at = fraction(i * count + part, slot * count);
          if (compare(at, ZERO) > 0 && compare(at, length) < 0 && left[(i + part) % left.length]) points.push(at);
        }
      }
      const durations = points.map((at, index) => format(subtract(points[index + 1] ?? length, at)));
      return { name, durations: durations.map((one) => (one.includes('/') ? one : `${one}/1`)).join(' ') };
    });
  test('lie apart, in order, from one plain point to another, and hold every point that is not plain', () => {
    fc.assert(
      fc.property(bars, ({ name, durations }) => {
        const { events } = rhythm(durations);
        const grid = gridOf(present(readMeter(name), name), events);
        const found = findTuplets(grid);
        let before = 0;
        for (const { from, to, actual } of found) {
          expect(from).toBeGreaterThanOrEqual(before);
          expect(to).toBeGreaterThan(from);
          expect([from, to].every(grid.isPlain)).toBe(true);
          expect(actual === 6 || actual % 2 === 1).toBe(true);
          before = to;
        }
        for (const { from: point } of grid.spans) {
          const own = found.find(({ from, to }) => from < point && point < to);
          if (!grid.isPlain(point)) expect(own).toBeDefined();
          // In parts of a tuplet every point of it has a note value, perhaps halved a few times.
          if (own) expect(((point - own.from) * own.actual * 64) % (own.to - own.from)).toBe(0);
        }
      }),
      { numRuns: cases(300, 3000) },
    );
  });
});
