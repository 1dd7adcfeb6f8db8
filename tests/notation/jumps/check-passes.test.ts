/** What is probably not meant where bars are played several times. */
import { describe, expect, test } from 'vitest';
import { readBlock } from '../../../src/notation/read.ts';

/** Each problem of a block in quarters, with the characters it is at. */
function problems(...lines: string[]): string[] {
  const text = ['slot: 1/4', ...lines].join('\n');
  return readBlock(text).diagnostics.map(({ code, span }) => `${code} ${text.slice(span.from, span.to)}`);
}

describe('a gradual tempo in a repeat', () => {
  test('begins each time with the tempo that it has reached, unless that is set in the repeat', () => {
    expect(problems('|: 4 =3 |', 'tempo: to 120', '4 =3 :|]')).toEqual(['tempo-again tempo']);
    expect(problems('|: 4 =3 |', 'tempo: 90 to 120', '4 =3 :|]')).toEqual([]);
    expect(problems('tempo: 90', '4 =3 |:', 'tempo: 100', '4 =3 |', 'tempo: to 120', '4 =3 :|]')).toEqual([]);
  });
  test('may be set before the repeat in vain', () => {
    expect(problems('4 =3 |', 'tempo: 100', '4 =3 |: 4 =3 |', 'tempo: to 120', '4 =3 :|]')).toEqual([
      'tempo-again tempo',
    ]);
  });
  test('may begin before the repeat and go on in it', () => {
    expect(problems('4 =3 |', 'tempo: to 120', '4 =3 |: 4 =3 :|]')).toEqual(['tempo-again tempo']);
  });
  test('is none where another tempo is reached before the repeat, or the repeat ends before it', () => {
    expect(problems('4 =3 |', 'tempo: to 120', '4 =3 |', 'tempo: 90', '4 =3 |: 4 =3 :|]')).toEqual([]);
    expect(problems('|: 4 =3 :| 4 =3 |', 'tempo: to 120', '4 =3 | 4 =3 |]')).toEqual([]);
    expect(problems('4 =3 |', 'tempo: to 120', '4 =3 | 4 =3 |]')).toEqual([]);
  });
  test('is none in a later ending alone, which is played once', () => {
    expect(problems('|: 4 =3 |1 4 =3 :|2', 'tempo: to 120', '4 =3 |]')).toEqual([]);
  });
  test('is not asked about behind a jump, where no repeat is taken', () => {
    expect(problems('4 =3 |', 'tempo: to 120', '4 =3 |D.C.')).toEqual([]);
  });
});

describe('a verse', () => {
  test('for more times than its repeat is played is not sung, where the block says how often that is', () => {
    expect(problems('|: 4 = 5 = :|x3', 'words: a b', 'words: c d', 'words: e f', 'words: g h')).toEqual([
      'verse-unsung  g h',
    ]);
    expect(problems('|: 4 = 5 = :|x3', 'words: a b', 'words: c d', 'words: e f')).toEqual([]);
    // The endings say how often: twice.
    const inEndings = problems('|: 4 = 5 = |1 4 =3 :|2 5 =3 |]', 'words: a b', 'words: c d', 'words: e f');
    expect(inEndings.filter((problem) => problem.startsWith('verse'))).toEqual(['verse-unsung  e f']);
  });
  test('may be for more times than are usual, where nothing says how many there are', () => {
    expect(problems('|: 4 = 5 = :|]', 'words: a b', 'words: c d', 'words: e f')).toEqual([]);
    expect(problems('4 = 5 = |]', 'words: a b', 'words: c d')).toEqual([]);
  });
});

describe('a bar that is shorter for the pickup, and repeats', () => {
  const short = (music: string) => readBlock(`slot: 1/4\npickup: 1\n${music}`).diagnostics.map(({ code }) => code);
  test('goes back to the pickup, or loses a beat', () => {
    expect(short('4 | 4 =3 | 4 =2 :| 4 =3 | 4 =2 |]')).toEqual([]);
    expect(short('4 |: 4 =3 | 4 =2 :|]')).toEqual(['repeat-loses-pickup']);
    expect(short('4 | 4 =3 :| 4 =3 | 4 =2 :|]')).toEqual(['repeat-loses-pickup']);
  });
  test('is said once, however often it is played', () => {
    expect(short('4 |: 4 =3 | 4 =2 :|x4')).toEqual(['repeat-loses-pickup']);
  });
});

test('nothing is said of a block with errors', () => {
  expect(problems('|: 4 =3 |', 'tempo: to 120', '4 =2 :|]').map((problem) => problem.split(' ')[0])).toEqual([
    'bar-too-short',
  ]);
});
