import { expect, test } from 'vitest';
import { barInWords, barsInWords } from '../../src/score/bar-words.ts';

test.each([
  [5, 5, 'bar 5'],
  [5, 8, 'bars 5 to 8'],
  [0, 0, 'the pickup'],
  [0, 1, 'the pickup and bar 1'],
  [0, 4, 'the pickup and bars 1 to 4'],
])('bars %i to %i are “%s”', (first, last, words) => {
  expect(barsInWords(first, last)).toBe(words);
});

test('the pickup has no number', () => {
  expect([barInWords(0), barInWords(1)]).toEqual(['the pickup', 'bar 1']);
});
