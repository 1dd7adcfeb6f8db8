import { expect, test } from 'vitest';
import { barAmongAll, barInWords, barsInWords } from '../../src/score/bar-words.ts';

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

test('a bar of an ending has another name than the bars of its number in the others', () => {
  expect(barAmongAll({ number: 2, ending: 'first ending' })).toBe('bar 2, first ending');
  expect(barAmongAll({ number: 0 })).toBe('the pickup');
});
