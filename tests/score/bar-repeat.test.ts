/** Signs for whole bars: bars played again, and rests of several bars. */
import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { barsShownAsSign, restsOfBars } from '../../src/score/bar-repeat.ts';
import type { Bar, Score } from '../../src/score/score.ts';
import { itemAt, present } from '../../src/values/checked.ts';

function scoreOf(text: string): Score {
  const { score, diagnostics } = readBlock(`slot: 1/4\n${text}`);
  expect(diagnostics).toEqual([]);
  return present(score, 'the score');
}

/** A score in which a bar is otherwise. */
function withBar(score: Score, index: number, change: (bar: Bar) => Partial<Bar>): Score {
  const bars = score.bars.map((bar) => (bar.index === index ? { ...bar, ...change(bar) } : bar));
  return { ...score, bars };
}

/** A bar in which all sounds glide on, or none does. */
const gliding =
  (glides: boolean) =>
  ({ events }: Bar): Partial<Bar> => ({
    events: events.map((event) => (event.kind === 'sound' ? { ...event, glides } : event)),
  });

const signs = (score: Score | string): number[] => [
  ...barsShownAsSign(typeof score === 'string' ? scoreOf(score) : score),
];
const rests = (score: Score | string): (readonly [number, number])[] => [
  ...restsOfBars(typeof score === 'string' ? scoreOf(score) : score),
];

describe('the sign of a repeated bar', () => {
  test('stands for each bar that plays the one before again', () => {
    expect(signs('4 5 6 7 | % | % | 4 =3')).toEqual([1, 2]);
    expect(signs('4 5 6 7 | %')).toEqual([1]);
    expect(signs('.4 | % | 4 =3')).toEqual([1]);
  });
  test('does not stand for a bar that is written out, although it is the same', () => {
    expect(signs('4 5 6 7 | 4 5 6 7')).toEqual([]);
  });
  test('does not stand for notes over other chords, which have other roles', () => {
    expect(signs('chords: I7 | I7 | IV7 | I7\n4 5 6 7 | % | % | 4 =3')).toEqual([1]);
    expect(signs('"I7" 4 5 "IV7" 6 7 | "I7" % | 4 =3')).toEqual([]);
    expect(signs('"I7" 4 5 6 7 | "IV7" % | 4 =3')).toEqual([]);
    expect(signs('"I7" 4 5 "IV7" 6 7 | % | 4 =3')).toEqual([1]);
  });
  test('does not stand for a bar whose chords change at another time', () => {
    const score = scoreOf('"I7" 4 5 "IV7" 6 7 | % | 4 =3');
    const later = withBar(score, 1, ({ chords, events }) => ({
      chords: [itemAt(chords, 0), { ...itemAt(chords, 1), onset: itemAt(events, 3).onset }],
    }));
    expect([signs(score), signs(later)]).toEqual([[1], []]);
  });
  test('does not stand for a bar in another key', () => {
    expect(signs('4 5 6 7 |\nposition: 2\n% | 4 =3')).toEqual([]);
    expect(signs('4 5 6 7 |\ntempo: 90\n% | 4 =3')).toEqual([1]);
  });
  test('does not stand for a bar in which the embouchure changes', () => {
    expect(signs('4 @tongue 5 6 7 | % | 4 =3')).toEqual([]);
    expect(signs('@tongue 4 5 6 7 | % | 4 =3')).toEqual([1]);
  });
  test('does not stand for notes that hang together with those of the bar behind it', () => {
    expect(signs('4 5 6 7 | % | = 5 6 7')).toEqual([]);
    expect(signs('4 5 6 7 | % | 7 5 6 7')).toEqual([1]);
    expect(signs('4 5 6 7 | % | . 5 6 7')).toEqual([1]);
    const score = scoreOf('4 5 6 7 | % | 7 5 6 7');
    expect(signs(withBar(score, 1, gliding(true)))).toEqual([]);
  });
  test('does not stand for notes that hang together with those of the bar before it', () => {
    const score = scoreOf('4 5 6 7 | % | 7 5 6 7');
    expect(signs(withBar(score, 0, gliding(true)))).toEqual([]);
    expect(signs(withBar(score, 2, gliding(true)))).toEqual([1]);
    expect(signs("-4 5 6 -4' > | -4 5 6 -4' | % | 4 =3")).toEqual([2]);
  });
});

describe('one sign for a rest of several bars', () => {
  test('stands for as many bars as were written as one', () => {
    expect(rests('4 5 6 7 | .x2 | .x3 | .4')).toEqual([
      [1, 2],
      [3, 3],
    ]);
    expect(rests('|: 4 5 6 7 |1 .x2 :|2 .x2 |]')).toEqual([
      [1, 2],
      [3, 2],
    ]);
    expect(rests('.4 | .4')).toEqual([]);
  });
  test('stands for no bars over chords that change', () => {
    expect(rests('chords: I7 | IV7 | V7 | I7\n4 =3 | .x2 | 4 =3')).toEqual([]);
    expect(rests('chords: I7 | IV7 | IV7 | I7\n4 =3 | .x2 | 4 =3')).toEqual([[1, 2]]);
  });
  // Only its first bar can have something at its start, and only as long as nobody puts it elsewhere.
  test.each<[string, Partial<Bar>]>([
    ['a repeat begins', { repeatStart: true }],
    ['a jump arrives', { target: 'segno' }],
    ['a part begins', { part: 'B' }],
    ['the player is spoken to', { direction: 'softly' }],
    ['an ending begins', { endings: [1] }],
  ])('stands for no bars if in the middle of them %s, but for bars that begin so', (_, change) => {
    const score = scoreOf('4 5 6 7 | .x3 | .4');
    expect(rests(score)).toEqual([[1, 3]]);
    expect(rests(withBar(score, 2, () => change))).toEqual([]);
    expect(rests(withBar(score, 3, () => change))).toEqual([]);
    expect(rests(withBar(score, 4, () => change))).toEqual([[1, 3]]);
    if (!change.endings) expect(rests(withBar(score, 1, () => change))).toEqual([[1, 3]]);
  });
  test('stands for silence alone', () => {
    const score = scoreOf('4 5 6 7 | .x2 | .4');
    expect(rests(withBar(score, 2, () => ({ events: itemAt(score.bars, 0).events })))).toEqual([]);
  });
  test('stands for bars that are there: a piece of a score may end before them', () => {
    const score = scoreOf('4 5 6 7 | .x3');
    const piece = (bars: number): Score => ({ ...score, bars: score.bars.slice(0, bars) });
    expect([rests(piece(4)), rests(piece(3))]).toEqual([[[1, 3]], []]);
  });
});
