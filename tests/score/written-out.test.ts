/** Music without its repeats and jumps, or with those alone that other programs have a sign for. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { playOrder, withPickupOnce, withRepeatsOfTwo, writtenOut } from '../../src/score/playing-order.ts';
import type { Bar, Score } from '../../src/score/score.ts';
import { versesIn } from '../../src/score/verses.ts';
import { present } from '../../src/values/checked.ts';
import { barsOf, jumping, shapes, spans, withPickup } from './letters.ts';

describe('repeats of more than two times', () => {
  test('are written as two and the times that are left', () => {
    const score = barsOf('a |: b | c :|x4 d :|x3');
    const bars = withRepeatsOfTwo(score);
    expect(
      bars.map(({ repeatStart, repeatEnd }) => `${repeatStart ? ':' : ''}.${repeatEnd ? ':' : ''}`).join(' '),
    ).toBe('. :. .: . . . . :.: .');
    expect(bars.some(({ times }) => times !== undefined)).toBe(false);
  });
  test('sound the same once they are written out', () => {
    const shape = fc.constantFrom('b |', '|: b :|', '|: b :|x3', 'b | b :|x4', '|: b |1,2 b :|3 b ||');
    fc.assert(
      fc.property(fc.array(shape, { minLength: 1, maxLength: 5 }), (shapes) => {
        const score = barsOf(shapes.join('\n'));
        const bars = withRepeatsOfTwo(score);
        expect(spans(bars, playOrder({ ...score, bars }))).toEqual(spans(score.bars, playOrder(score)));
      }),
    );
  });
});

describe('music written out', () => {
  const marks = ({ repeatStart, repeatEnd, times, endings, target, jump, repeatsLast }: Bar) =>
    repeatStart || repeatEnd || [times, endings, target, jump, repeatsLast].some((mark) => mark !== undefined);

  test('has the bars in the order they are played, and nothing that leads elsewhere', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          jumping,
          shapes.map((all) => all.join('\n')),
        ),
        (music) => {
          const score = barsOf(music);
          const bars = writtenOut(score);
          expect(bars.map(({ span }) => span)).toEqual(spans(score.bars, playOrder(score)));
          expect(bars.map(({ index }) => index)).toEqual([...bars.keys()]);
          expect(bars.filter(marks)).toEqual([]);
        },
      ),
    );
  });
  test('has a bar that is played again as one of its own', () => {
    const [, again] = writtenOut(barsOf('a | % | b'));
    expect(again && 'repeatsLast' in again).toBe(false);
    expect(again?.events).toHaveLength(2);
  });
  test('says where a part begins, and what it says to the player, the first time alone', () => {
    const score = barsOf('|: a | b :| c');
    const bars = score.bars.map((bar): Bar => (bar.index === 0 ? { ...bar, part: 'A', direction: 'softly' } : bar));
    expect(writtenOut({ bars }).map(({ part, direction }) => [part, direction])).toEqual([
      ['A', 'softly'],
      ...Array.from({ length: 4 }, () => [undefined, undefined]),
    ]);
  });
});

describe('repeats of more than two times, with what is around them', () => {
  test('stay as they are where there are none', () => {
    const score = barsOf('a |: b :|: c |1 d :|2 e |]');
    expect(withRepeatsOfTwo(score)).toEqual(score.bars);
  });
  test('have a sign at the start of a later repeat, which has others before it now', () => {
    const starts = (score: Score): boolean[] => withRepeatsOfTwo(score).map(({ repeatStart }) => repeatStart);
    expect(starts(barsOf('a :|x3 b :| c'))).toEqual([false, false, true, false]);
    expect(starts(barsOf('a :| b'))).toEqual([false, false]);
    expect(starts(withPickup('4 | 1 1 1 1 :|x3 1 1 1'))).toEqual([false, false, false, false]);
  });
  test('begin a part, and speak to the player, once', () => {
    const score = barsOf('|: a :|x4');
    const bars = score.bars.map((bar): Bar => ({ ...bar, part: 'A', direction: 'softly' }));
    expect(withRepeatsOfTwo({ bars }).map(({ part, direction }) => [part, direction])).toEqual([
      ['A', 'softly'],
      [undefined, undefined],
      [undefined, undefined],
    ]);
  });
  test('keep the words of each time', () => {
    const score = present(
      readBlock('slot: 1/2\n|: 4 4 :|x4\nwords: a b\nwords: c d\nwords: e f\nwords: g h').score,
      'the score',
    );
    const words = withRepeatsOfTwo(score).map(({ events }) =>
      events.map((event) => (event.kind === 'sound' ? (event.lyrics ?? []).map(({ text }) => text).join() : '')),
    );
    expect(words).toEqual([
      ['a,c', 'b,d'],
      ['e', 'f'],
      ['g', 'h'],
    ]);
    expect(withRepeatsOfTwo(score).map(versesIn)).toEqual([[1, 2], [1], [1]]);
  });
  test('are all written out where a jump goes back, and only if there are such', () => {
    const score = barsOf('a :|x3 b |D.C.');
    expect(withRepeatsOfTwo(score)).toEqual(writtenOut(score));
    const twice = barsOf('a :| b |D.C.');
    expect(withRepeatsOfTwo(twice).map(({ jump }) => jump)).toEqual([undefined, 'D.C.']);
    const onward = barsOf('a :|x3 b |segno c | d |D.S.');
    expect(withRepeatsOfTwo(onward).some(({ repeatEnd, jump }) => repeatEnd || jump)).toBe(false);
  });
  test('sound the same with jumps, too', () => {
    fc.assert(
      fc.property(jumping, (music) => {
        const score = barsOf(music);
        const bars = withRepeatsOfTwo(score);
        expect(spans(bars, playOrder({ ...score, bars }))).toEqual(spans(score.bars, playOrder(score)));
        expect(bars.map(({ index }) => index)).toEqual([...bars.keys()]);
      }),
    );
  });
});

describe('a pickup that da capo leaves out', () => {
  const FULL = '4 | 1 1 1 1 | 1 1 1 1 |D.C.';
  test('is passed over by a segno behind it', () => {
    const bars = withPickupOnce(withPickup(FULL));
    expect(bars.map(({ target, jump }) => [target, jump])).toEqual([
      [undefined, undefined],
      ['segno', undefined],
      [undefined, 'D.S.'],
    ]);
  });
  test('may be before a single bar, which then has both signs', () => {
    const bars = withPickupOnce(withPickup('4 | 1 1 1 1 |D.C.'));
    expect(bars.map(({ target, jump }) => [target, jump])).toEqual([
      [undefined, undefined],
      ['segno', 'D.S.'],
    ]);
  });
  test.each([
    ['da capo plays the pickup again', '4 | 1 1 1 1 | 1 1 1 |D.C.'],
    ['the jump has its segno', '4 |segno 1 1 1 1 | 1 1 1 1 |D.S.'],
    ['nothing goes back', '4 | 1 1 1 1 | 1 1 1'],
  ])('has no sign where %s', (_, music) => {
    const score = withPickup(music);
    expect(withPickupOnce(score)).toBe(score.bars);
  });
  test('has no sign where there is no pickup', () => {
    const score = barsOf('a | b |D.C.');
    expect(withPickupOnce(score)).toBe(score.bars);
  });
  test('leaves the order of playing as it is', () => {
    const end = fc.constantFrom(
      '1 1 1 1 |D.C.',
      '1 1 1 |D.C.',
      '1 1 1 1 |fine 1 1 1 1 |D.C.',
      '1 1 1 1 :|: 1 1 1 1 :|D.C.',
    );
    fc.assert(
      fc.property(end, fc.integer({ min: 0, max: 3 }), (last, bars) => {
        const score = withPickup(`4 | ${'1 1 1 1 | '.repeat(bars)}${last}`);
        expect(playOrder({ ...score, bars: withPickupOnce(score) })).toEqual(playOrder(score));
      }),
    );
  });
});
