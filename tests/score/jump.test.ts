/** Signs at bar lines that lead elsewhere: what they are, in print and in words. */
import { describe, expect, test } from 'vitest';
import { isJumpBack, isJumpTarget, JUMP_SIGNS, type Jump, jumpInPrint, jumpInWords } from '../../src/score/jump.ts';

/** Bars with these signs at their ends. */
const bars = (...jumps: Jump[]): { readonly jump?: Jump }[] => [{}, ...jumps.map((jump) => ({ jump })), {}];

test('jumps arrive at a segno and a coda, and go back with D.C. and D.S.', () => {
  expect(JUMP_SIGNS.filter(isJumpTarget)).toEqual(['segno', 'coda']);
  expect(JUMP_SIGNS.filter(isJumpBack)).toEqual(['D.C.', 'D.S.']);
  expect(isJumpBack(undefined)).toBe(false);
});

describe('a jump back says where the music leads behind it', () => {
  test.each<[string, Jump[], string, string]>([
    ['to its end', ['D.C.'], 'D.C.', 'Then from the beginning, without repeats'],
    ['to its end', ['D.S.'], 'D.S.', 'Then from the segno, without repeats'],
    ['to the fine', ['fine', 'D.C.'], 'D.C. al Fine', 'Then from the beginning to Fine, without repeats'],
    ['to the fine', ['fine', 'D.S.'], 'D.S. al Fine', 'Then from the segno to Fine, without repeats'],
    ['to the coda', ['to-coda', 'D.S.'], 'D.S. al Coda', 'Then from the segno and over to the coda, without repeats'],
    [
      'to the coda, where the fine may be',
      ['to-coda', 'D.C.', 'fine'],
      'D.C. al Coda',
      'Then from the beginning and over to the coda, without repeats',
    ],
  ])('%s: %j', (_, jumps, printed, words) => {
    const back = jumps.find(isJumpBack) ?? 'fine';
    expect([jumpInPrint(back, bars(...jumps)), jumpInWords(back, bars(...jumps))]).toEqual([printed, words]);
  });
});

test('the other signs say what they are for, whichever jump there is', () => {
  const others: Jump[] = ['fine', 'to-coda'];
  for (const all of [bars('fine', 'D.C.'), bars('to-coda', 'D.S.')]) {
    expect(others.map((jump) => jumpInPrint(jump, all))).toEqual(['Fine', 'To Coda']);
    expect(others.map((jump) => jumpInWords(jump, all))).toEqual([
      'Fine: the last time the music ends here',
      'The last time from here to the coda',
    ]);
  }
});
