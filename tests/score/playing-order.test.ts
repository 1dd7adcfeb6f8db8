import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jumpPlaces, passesOf, playOrder, repeatStarts } from '../../src/score/playing-order.ts';
import type { Score } from '../../src/score/score.ts';
import { itemAt } from '../../src/values/checked.ts';
import { barsOf, jumping, shapes, withPickup } from './letters.ts';

/** The numbers of the bars, in the order they are played. */
const order = (music: string): string => playOrder(barsOf(music)).join(' ');
/** The numbers of the bars that playing goes back to. */
const starts = (music: string): string => [...repeatStarts(barsOf(music))].join(' ');

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
        const score = barsOf(shapes.join('\n'));
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

describe('the time through its repeat in which a bar is played', () => {
  const passes = (music: string): string => passesOf(barsOf(music)).join(' ');
  test.each([
    ['a | b', '1 1'],
    ['a |: b :| c', '1 1 2 1'],
    ['|: a | b :|x3 c', '1 1 2 2 3 3 1'],
    ['|: a |1 b :|2 c |]', '1 1 2 2'],
    ['|: a |1,2 b :|3 c | d', '1 1 2 2 3 3 1'],
  ])('%s: %s', (music, expected) => {
    expect(passes(music)).toBe(expected);
  });
  test.each([
    ['in a repeat the last one', 'a |: b :|x3 c |D.C.', '1 1 2 3 1 2 3 2'],
    ['outside of repeats the second one', 'a | b |D.C.', '1 1 2 2'],
    ['the first one where it was not played before', 'a |to-coda b |D.C.,coda c | d', '1 1 2 1 1'],
    ['the last one in an ending', '|: a |1 b :|2 c |D.C.', '1 1 2 2 2 2'],
    ['the last one in a repeat that was not played before', 'a |to-coda b |D.C.,coda |: c :|x3', '1 1 2 3'],
  ])('is behind a jump %s', (_, music, expected) => {
    expect(passes(music)).toBe(expected);
  });
  test('is for each bar one of the times that its ending is for, and counts up', () => {
    fc.assert(
      fc.property(shapes, (music) => {
        const score = barsOf(music.join('\n'));
        const times = passesOf(score);
        const before = new Map<number, number>();
        const played = playOrder(score);
        expect(times).toHaveLength(played.length);
        played.forEach((index, place) => {
          const time = itemAt(times, place);
          const { endings = [time] } = itemAt(score.bars, index);
          expect(endings).toContain(time);
          if (!itemAt(score.bars, index).endings) expect(time).toBe((before.get(index) ?? 0) + 1);
          before.set(index, time);
        });
      }),
    );
  });
});

describe('the places of jumps', () => {
  const places = (score: Score) => {
    const jump = score.bars.findIndex((bar) => bar.jump === 'D.C.' || bar.jump === 'D.S.');
    const { repeatsDone, playedOnce, afterJump } = jumpPlaces(score, jump);
    return { done: [...repeatsDone].join(' '), once: [...playedOnce].join(' '), after: afterJump.join(' ') };
  };
  test('are behind bars with which all repeats are done, and the last endings are what is played once', () => {
    expect(places(barsOf('a |: b |1 c :|2 d || e |D.C.'))).toEqual({
      done: '0 3 4',
      once: '0 1 3 4',
      after: '0 1 3 4',
    });
  });
  test('leave out what is before the segno and between the jump to the coda and the coda', () => {
    expect(places(barsOf('a |segno b |to-coda |: c :|D.S.,coda d |]')).after).toBe('1 3');
  });
  test('have a pickup once, where the repeat before the jump has it each time', () => {
    const score = withPickup('4 | 1 1 1 1 | 1 1 1 :|D.C.');
    expect(places(score)).toEqual({ done: '0 2', once: '0 1 2', after: '0 1 2' });
    expect(playOrder(score)).toEqual([0, 1, 2, 0, 1, 2, 0, 1, 2]);
  });
  test('are followed by what is last in the order of playing, without repeats', () => {
    fc.assert(
      fc.property(jumping, (music) => {
        const score = barsOf(music);
        const jump = score.bars.findIndex((bar) => bar.jump === 'D.C.' || bar.jump === 'D.S.');
        const { afterJump, playedOnce } = jumpPlaces(score, jump);
        expect(playOrder(score).slice(-afterJump.length)).toEqual(afterJump);
        expect(afterJump).toEqual(afterJump.toSorted((a, b) => a - b));
        expect(afterJump.filter((index) => !playedOnce.has(index))).toEqual([]);
        expect(new Set(afterJump).size).toBe(afterJump.length);
      }),
    );
  });
});
