import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { playOrder, repeatStarts, withRepeatsOfTwo } from '../../src/score/playing-order.ts';
import type { Score } from '../../src/score/score.ts';
import { present } from '../../src/values/checked.ts';

/** A letter up to w is a bar. */
const scoreOf = (music: string): Score => {
  const { score, diagnostics } = readBlock(
    `meter: 1/4\nslot: 1/8\n${music.replace(/(?<![\w.-])[a-w](?![\w.-])/g, '4 5')}`,
  );
  expect(diagnostics).toEqual([]);
  return present(score, music);
};
/** The numbers of the bars, in the order they are played. */
const order = (music: string): string => playOrder(scoreOf(music)).join(' ');
/** The numbers of the bars that playing goes back to. */
const starts = (music: string): string => [...repeatStarts(scoreOf(music))].join(' ');
const withPickup = (music: string): Score => present(readBlock(`pickup: 1\nslot: 1/4\n${music}`).score, music);

describe('the order of playing', () => {
  test.each([
    ['a | b | c', '0 1 2'],
    ['a | b :| c', '0 1 0 1 2'],
    ['a |: b | c :| d', '0 1 2 1 2 3'],
    ['|: a :|: b :|', '0 0 1 1'],
    ['a |: b |1 c :|2 d | e', '0 1 2 1 3 4'],
    ['|: a |1 b :|2 c :|3 d |]', '0 1 0 2 0 3'],
    ['|: a |1 b | c :|2 d | e || f', '0 1 2 0 3 4 5'],
    ['|: a :|x3 b', '0 0 0 1'],
    ['a | b :|x4 |: c :|', '0 1 0 1 0 1 0 1 2 2'],
    ['|: a |1,2 b :|3 c |]', '0 1 0 1 0 2'],
    ['|: a |1,3 b :|2,4 c :| d', '0 1 0 2 0 1 0 2 3'],
    ['|: a |1 b :|2,3 c :| d', '0 1 0 2 0 2 3'],
    ['|: a |1,2 b :|3 c |: d |1 e :|2 f |]', '0 1 0 1 0 2 3 4 3 5'],
    ['a :| b :| c', '0 0 1 1 2'],
    ['a |: b :| c |: d :|', '0 1 1 2 3 3'],
    ['a | b :| c | d :| e', '0 1 0 1 2 3 2 3 4'],
    ['|: a |1 b :|2 c | d :|3 e |]', '0 1 0 2 3 0 4'],
    ['a |1 b :|2 c |]', '0 1 0 2'],
    ['|: a |1 b :|2 c |: d |1 e :|2 f |]', '0 1 0 2 3 4 3 5'],
    ['|1 a :|2 b |: c :|', '0 1 2 2'],
    ['|: a |1 b :|', '0 1 0'],
    ['|: a |1 b :|2 c |1 d :|2 e |]', '0 1 0 2 3 4'],
  ])('%s', (music, played) => {
    expect(order(music)).toBe(played);
  });
  // After the jump no repeat is taken and the last of its endings is played (common practice, no source).
  test.each([
    ['a | b |D.C.', '0 1 0 1'],
    ['a | b |D.C. c', '0 1 0 1 2'],
    ['a |fine b |D.C.', '0 1 0'],
    ['a :|x3,fine |: b :|D.C.', '0 0 0 1 1 0'],
    ['a |segno b |fine c |D.S.', '0 1 2 1'],
    ['a |to-coda b |D.C.,coda c | d |]', '0 1 0 2 3'],
    ['a |segno b |to-coda c |D.S.,coda d |]', '0 1 2 1 3'],
    ['a |: b |1 c :|2 d |D.C.', '0 1 2 1 3 0 1 3'],
    ['|: a |1 b :|2 c ||D.C. d', '0 1 0 2 0 2 3'],
    ['|: a |1 b :|2,segno c |fine d |D.S.', '0 1 0 2 3 2'],
    ['|: a |segno b :|to-coda c |D.S.,coda d |: e :|', '0 1 0 1 2 1 3 4'],
    ['|:segno a :| b |D.S.', '0 0 1 0 1'],
  ])('jumps: %s', (music, played) => {
    expect(order(music)).toBe(played);
  });
  test('da capo goes back to the pickup where the bar of the jump leaves room for it', () => {
    const played = (music: string) => playOrder(withPickup(music));
    expect(played('4 | 1 1 1 1 | 1 1 1 |D.C.')).toEqual([0, 1, 2, 0, 1, 2]);
    expect(played('4 | 1 1 1 1 |fine 1 1 1 1 |D.C.')).toEqual([0, 1, 2, 1]);
    expect(played('4 |segno 1 1 1 1 | 1 1 1 |D.S.')).toEqual([0, 1, 2, 1, 2]);
  });
  test('a repeat without a beginning goes back to the pickup where its last bar is the shorter for it', () => {
    const played = (music: string) => playOrder(withPickup(music));
    expect(played('4 | 1 1 1 1 | 1 1 1 :| 1 1 1')).toEqual([0, 1, 2, 0, 1, 2, 3]);
    expect(played('4 | 1 1 1 1 | 1 1 1 1 :| 1 1 1')).toEqual([0, 1, 2, 1, 2, 3]);
    expect(played('4 | 1 1 1 1 |1 1 1 1 :|2 1 1 1 |]')).toEqual([0, 1, 2, 0, 1, 3]);
    expect(played('4 |: 1 1 1 1 | 1 1 1 :|')).toEqual([0, 1, 2, 1, 2]);
    // A later repeat goes back to the end of the one before it.
    expect(played('4 | 1 1 1 1 :| 1 1 1 1 | 1 1 1 :|')).toEqual([0, 1, 1, 2, 3, 2, 3]);
  });
});

describe('the bars that playing goes back to', () => {
  test.each([
    ['a | b', ''],
    ['|: a :|', '0'],
    ['a :| b', '0'],
    ['a |: b | c :| d', '1'],
    ['|: a :|: b :|', '0 1'],
    ['a | b :| c | d :|', '0 2'],
    ['|: a |1 b :|2 c :|3 d |]', '0'],
    ['|1 a :|2 b |]', ''],
    ['a |: b |1 c :|2 d | e', '1'],
  ])('%s: %s', (music, bars) => {
    expect(starts(music)).toBe(bars);
  });
  test('may be the pickup', () => {
    expect([...repeatStarts(withPickup('4 | 1 1 1 1 | 1 1 1 :| 1 1 1'))]).toEqual([0]);
    expect([...repeatStarts(withPickup('4 | 1 1 1 1 | 1 1 1 1 :| 1 1 1'))]).toEqual([1]);
  });
  test('are few: from one to the next, playing goes on through every bar or leaves out an ending', () => {
    const shape = fc.constantFrom(
      'b |',
      '|: b :|',
      '|: b | b :|',
      '|: b |1 b :|2 b ||',
      '|: b |1,2 b :|3 b ||',
      'b :|',
    );
    fc.assert(
      fc.property(fc.array(shape, { minLength: 1, maxLength: 6 }), (shapes) => {
        const score = scoreOf(shapes.join('\n'));
        const played = playOrder(score);
        const back = repeatStarts(score);
        expect(new Set(played)).toEqual(new Set(score.bars.keys()));
        played.forEach((bar, place) => {
          const before = played[place - 1];
          if (before === undefined || bar === before + 1) return;
          // Back to a start, or past the first ending.
          expect(bar > before ? score.bars[before + 1]?.endings?.[0] : back.has(bar)).toBe(bar > before ? 1 : true);
        });
      }),
    );
  });
});

describe('repeats of more than two times', () => {
  test('are written as two and the times that are left', () => {
    const score = scoreOf('a |: b | c :|x4 d :|x3');
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
        const score = scoreOf(shapes.join('\n'));
        const bars = withRepeatsOfTwo(score);
        const spans = (all: Score['bars'], played: readonly number[]) => played.map((index) => all[index]?.span);
        expect(spans(bars, playOrder({ ...score, bars }))).toEqual(spans(score.bars, playOrder(score)));
      }),
    );
  });
});
