import { describe, expect, test } from 'vitest';
import { BEAT, beatGroups, type Grid, gridOf } from '../../src/score/grid.ts';
import { readMeter } from '../../src/time/meter.ts';
import { present } from '../../src/values/checked.ts';

const meterOf = (name: string) => present(readMeter(name), name);

/** A bar's grid, asked in notes of the meter. */
function asked(name: string) {
  const meter = meterOf(name);
  const grid: Grid = gridOf(meter, []);
  const unit = grid.whole / meter.unit;
  return {
    level: (at: number) => grid.level(at * unit),
    strongest: (from: number, to: number) => {
      const { level, first, last } = present(grid.strongest(from * unit, to * unit), 'a point');
      return { level, first: first / unit, last: last / unit };
    },
    noteFits: (from: number, to: number) => grid.noteFits(from * unit, to * unit),
    restFits: (from: number, to: number) => grid.restFits(from * unit, to * unit),
    beatAt: (at: number) => grid.beatAt(at * unit),
  };
}

describe('the beats of a meter', () => {
  test.each([
    ['4/4', '1 1 1 1'],
    ['5/4', '1 1 1 1 1'],
    ['2/2', '1 1'],
    ['6/8', '3 3'],
    ['9/8', '3 3 3'],
    ['12/8', '3 3 3 3'],
    ['1/8', '1'],
    ['2/8', '2'],
    ['3/8', '3'],
    ['4/8', '2 2'],
    ['5/8', '3 2'],
    ['7/8', '2 2 3'],
    ['8/8', '3 3 2'],
    ['10/8', '2 2 2 2 2'],
    ['11/8', '2 2 2 2 3'],
  ])('%s is counted in %s', (name, groups) => {
    expect(beatGroups(meterOf(name)).join(' ')).toBe(groups);
  });
});

describe('the points of a bar', () => {
  test('are strongest at its ends, then in its middle, at its beats, and at their parts', () => {
    const { level } = asked('4/4');
    expect([0, 4].map(level)).toEqual([0, 0]);
    expect(level(2)).toBe(1);
    expect([1, 3].map(level)).toEqual([BEAT, BEAT]);
    expect([0.5, 2.5, 0.25, 3.75].map(level)).toEqual([3, 3, 4, 4]);
    expect(level(1 / 3)).toBe(Number.POSITIVE_INFINITY);
  });
  test.each([
    ['4/4', [2]],
    ['6/4', [3]],
    ['5/4', [3]],
    ['7/4', [4]],
    ['2/4', []],
    ['3/4', []],
    ['12/8', [6]],
    ['9/8', []],
    ['6/8', []],
    ['10/8', [6]],
  ])('of %s have a stronger one inside at %j', (name, strong) => {
    const { level } = asked(name);
    const inside = Array.from({ length: meterOf(name).beats - 1 }, (_, at) => at + 1);
    expect(inside.filter((at) => level(at) === 1)).toEqual(strong);
  });
  test('of uneven beats are their eighths', () => {
    const { level } = asked('7/8');
    expect([1, 2, 3, 4, 5, 6].map(level)).toEqual([3, BEAT, 3, BEAT, 3, 3]);
  });
  test('between two are asked for the strongest, the first and the last of them', () => {
    const { strongest } = asked('4/4');
    expect(strongest(0, 4)).toEqual({ level: 1, first: 2, last: 2 });
    expect(strongest(0, 2)).toEqual({ level: BEAT, first: 1, last: 1 });
    expect(strongest(2.5, 3)).toEqual({ level: 4, first: 2.75, last: 2.75 });
    expect(strongest(2, 2.75)).toEqual({ level: 3, first: 2.5, last: 2.5 });
    expect(asked('3/4').strongest(0, 3)).toEqual({ level: BEAT, first: 1, last: 2 });
    expect(asked('6/8').strongest(0, 3)).toEqual({ level: 3, first: 1, last: 2 });
  });
  test('belong to a beat, the last one to the last beat', () => {
    const { beatAt } = asked('5/8');
    expect([0, 2, 2.5, 3, 4, 5].map(beatAt)).toEqual([0, 0, 0, 1, 1, 1]);
  });
});

describe('one rest stands for', () => {
  const fits = (name: string, ...stretches: readonly (readonly [from: number, to: number])[]) =>
    stretches.map(([from, to]) => asked(name).restFits(from, to));

  test('a half of the bar, a beat or an even part of one', () => {
    expect(fits('4/4', [0, 2], [2, 4], [1, 2], [1.5, 2], [1.25, 1.5])).toEqual([true, true, true, true, true]);
  });
  test('no two beats with the middle between them, and no two parts of different halves', () => {
    expect(fits('4/4', [1, 3], [0.5, 1.5], [0.25, 0.75])).toEqual([false, false, false]);
  });
  test('no length that takes two, and none with a dot where beats are plain', () => {
    expect(fits('4/4', [0, 1.25], [0, 3], [0, 0.75], [0, 1.5])).toEqual([false, false, false, false]);
  });
  test('a whole beat of three with its dot, or a third of it; not two thirds from its middle', () => {
    expect(fits('6/8', [0, 3], [3, 6], [0, 1], [0, 2], [1, 3])).toEqual([true, true, true, true, false]);
    expect(fits('6/8', [0.5, 2], [1.5, 3])).toEqual([false, false]);
  });
  test('two beats of three that make half a bar', () => {
    expect(fits('12/8', [0, 6], [6, 12], [3, 9])).toEqual([true, true, false]);
  });
  test('no two beats of a bar without a middle', () => {
    expect(fits('3/4', [0, 2], [1, 3])).toEqual([false, false]);
  });
});

describe('one note stands for', () => {
  const fits = (name: string, ...stretches: readonly (readonly [from: number, to: number])[]) =>
    stretches.map(([from, to]) => asked(name).noteFits(from, to));

  test('the quarter between two eighths, but not across the middle of the bar', () => {
    expect(fits('4/4', [0.5, 1.5], [1.5, 2.5])).toEqual([true, false]);
  });
  test('what begins on a beat, over the middle as well, but not what begins off the beat', () => {
    expect(fits('4/4', [1, 3], [0, 3], [1, 4], [0.5, 3.5])).toEqual([true, true, true, false]);
  });
  test('no part of an uneven beat and of the next', () => {
    expect(fits('7/8', [0, 2], [1, 3], [2, 4], [4, 7], [3, 5])).toEqual([true, false, true, true, false]);
  });
});
