/** Jumps that cannot be followed: each sign needs its partner, a place where it is met, and every bar is played. */
import { describe, expect, test } from 'vitest';
import { readBlock } from '../../../src/notation/read.ts';

/** A letter up to w is a bar. Each problem with the characters it is at. */
function problems(music: string): string[] {
  const text = `meter: 1/4\nslot: 1/8\n${music.replace(/(?<![\w.-])[a-w](?![\w.-])/g, '4 5')}`;
  return readBlock(text).diagnostics.map(({ code, span }) => `${code} ${text.slice(span.from, span.to)}`);
}

describe('jumps are clear', () => {
  test.each([
    'a | b |D.C.',
    'a |fine b |D.C.',
    'a |segno b | c |D.S.',
    'a |segno b |to-coda c |D.S.,coda d',
    'a |to-coda b |D.C.,coda c |fine d',
    '|: a |1 b :|2 c |D.C.',
    '|: a :|fine |: b :|D.C.',
    '|:segno a :| b |D.S.',
    'a |segno b |D.S. c | d |]',
  ])('%s', (music) => {
    expect(problems(music).filter((problem) => !problem.startsWith('bar-never'))).toEqual([]);
  });
});

describe('a sign', () => {
  test.each([
    ['segno', 'a |segno b | c', 'sign-alone segno'],
    ['segno', 'a |segno b | c |D.C.', 'sign-alone segno'],
    ['D.S.', 'a | b |D.S.', 'sign-alone D.S.'],
    ['coda', 'a |coda b |D.C.', 'sign-alone coda'],
    ['to-coda', 'a |to-coda b |D.C.', 'sign-alone to-coda'],
    ['fine', 'a |fine b', 'sign-alone fine'],
  ])('has its partner, as %s has not in %s', (_, music, problem) => {
    expect(problems(music)).toEqual([problem]);
  });
  test.each([
    ['a |segno b |segno c |D.S.', 'sign-twice segno'],
    ['a |fine b |fine c |D.C.', 'sign-twice fine'],
    ['a |D.C. b |D.C.', 'sign-twice D.C.'],
    ['a |segno b |D.S. c |D.C.', 'sign-twice D.C.'],
  ])('is there once: %s', (music, problem) => {
    expect(problems(music)).toEqual([problem]);
  });
  test.each([
    ['a jump back in the middle of a repeat', '|: a |D.C. b :|', 'jump-in-repeat D.C.'],
    ['a jump back in an ending that is not the last', '|: a |1 b |D.C. c :|2 d |]', 'jump-in-repeat D.C.'],
    ['a fine in an ending that is not played again', '|: a |1 b |fine c :|2 d |D.C.', 'sign-misplaced fine'],
    ['a segno behind the jump to it', 'a |D.S. b |segno c', 'sign-misplaced segno'],
    ['a coda before the jump back', 'a |to-coda b |coda c |D.C.', 'sign-misplaced coda'],
    ['a coda at the jump back’s own bar', 'a |to-coda |coda b |D.C.', 'sign-misplaced coda'],
    ['a fine that is not met', 'a |fine b |segno c |D.S.', 'sign-misplaced fine'],
    ['a jump to the coda behind the fine', 'a |fine b |to-coda c |D.C.,coda d', 'sign-misplaced to-coda'],
  ])('is where it is met, and %s is not', (_, music, problem) => {
    expect(problems(music)).toContain(problem);
    expect(problems(music)).toHaveLength(1);
  });
  test('that cannot be read may be the partner of any other', () => {
    expect(problems('a |sengo b |D.S.').map((problem) => problem.split(' ')[0])).not.toContain('sign-alone');
  });
});

test('every bar is played', () => {
  expect(problems('a |fine b |D.C. c | d').map((problem) => problem.split(' ')[0])).toEqual(['bar-never-played']);
  expect(problems('a |to-coda b |D.C. c |coda d').map((problem) => problem.split(' ')[0])).toEqual([
    'bar-never-played',
  ]);
});
