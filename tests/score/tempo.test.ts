/** How fast each bar is, and where time waits. */
import { describe, expect, test } from 'vitest';
import { pacesOf, temposOf, waitsOf } from '../../src/score/tempo.ts';
import { format } from '../../src/time/fraction.ts';
import { scoreOf } from '../engrave/pictures.ts';

const BAR = '4 = = =';
const tempos = (...lines: string[]) =>
  temposOf(scoreOf(`tempo: 60\nslot: 1/4\n${lines.join('\n')}`)).map(({ from, to }) =>
    from === to ? from : [from, to],
  );

describe('the tempo of a bar', () => {
  test('is that of the block, or of the last change before it', () => {
    expect(tempos(`${BAR} |`, 'tempo: 100', `${BAR} | ${BAR} |]`)).toEqual([60, 100, 100]);
  });
  test('moves evenly to the goal of a gradual change, up to the next change', () => {
    expect(tempos('4 = = = |', 'tempo: to 100', `${BAR} | ${BAR} |`, 'tempo: 90', `${BAR} |]`)).toEqual([
      60,
      [60, 80],
      [80, 100],
      90,
    ]);
  });
  test('reaches its goal at the end of the block where no change follows', () => {
    expect(tempos(`${BAR} |`, 'tempo: 80 to 40', `${BAR} |]`)).toEqual([60, [80, 40]]);
  });
  test('moves by the length of bars, not by their number', () => {
    const score = scoreOf(`tempo: 60\nslot: 1/4\n4 = = = |\ntempo: to 90\n${BAR} |\nmeter: 2/4\n4 = |]`);
    expect(temposOf(score).at(-1)).toEqual({ from: 80, to: 90 });
  });
  test('in an ending is that of the bar before the first one, unless it has its own', () => {
    expect(tempos(`|: ${BAR} |1`, 'tempo: 40', `${BAR} :|2 ${BAR} |]`)).toEqual([60, 40, 60]);
  });
  test('in a later ending is at the same place of a gradual change that began before the endings', () => {
    expect(tempos('4 = = = |:', 'tempo: to 40', `${BAR} |1 ${BAR} :|2 ${BAR} |]`)).toEqual([
      60,
      [60, 50],
      [50, 40],
      [50, 40],
    ]);
    expect(tempos('4 = = = |:', 'tempo: to 40', `${BAR} |1`, 'tempo: 100', `${BAR} :|2 ${BAR} |]`)).toEqual([
      60,
      [60, 40],
      100,
      40,
    ]);
  });
  test('in a later ending is not that of a gradual change within the first one', () => {
    expect(tempos(`|: ${BAR} |1`, 'tempo: to 40', `${BAR} :|2 ${BAR} |]`)).toEqual([60, [60, 40], 60]);
  });
  test('counts the beats of its own meter: from 4/4 to 6/8 the beat stays as long', () => {
    const score = scoreOf(`tempo: 60\nslot: 1/4\n${BAR} |\nmeter: 6/8\nslot: 1/8\n4 = = 5 = = |]`);
    expect(temposOf(score)).toEqual([
      { from: 60, to: 60 },
      { from: 60, to: 60 },
    ]);
    expect(pacesOf(score)).toEqual([
      { from: 1, to: 1 },
      { from: 1.5, to: 1.5 },
    ]);
  });
});

describe('time waits', () => {
  const waits = (music: string) =>
    waitsOf(scoreOf(`slot: 1/8\n${music}`)).map((bar) =>
      bar.map(({ at, length }) => `${format(at)}+${format(length)}`),
    );
  test.each([
    ['a quarter as long again', '4[fermata] = . . . . . .', [['1/4+1/4']]],
    ['an eighth a beat', '4[fermata] . . . . . . .', [['1/8+1/4']]],
    ['a whole note two beats', '4[fermata] = = = = = = =', [['1+1/2']]],
    ['a note over a bar line where it ends', '. . . . . . 4[fermata] = | = = . . . . . .', [[], ['1/4+1/2']]],
    ['a note under which the chord changes once', '"I7" 4[fermata] = "IV7" = = . . . .', [['1/2+1/2']]],
    ['no note without a fermata', '4 = = = = = = =', [[]]],
    ['two notes in one bar', '4[fermata] = 5[fermata] = . . . .', [['1/4+1/4', '1/2+1/4']]],
  ])('at the end of a fermata: %s', (_, music, expected) => {
    expect(waits(music)).toEqual(expected);
  });
});
