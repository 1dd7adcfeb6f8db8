import { expect, test } from 'vitest';
import { columnsOfText, padColumns } from '../../../src/notation/format/width.ts';

// From memory of UAX 11 and of what terminals do.
test.each([
  ['', 0],
  ['-3 =', 4],
  ['für', 3],
  ['fu\u0308r', 3],
  ['’Twas', 5],
  ['音楽', 4],
  ['ｆ', 2],
  ['🎵', 2],
  ['a\u200bb', 2],
])('%j takes %i columns', (text, columns) => {
  expect(columnsOfText(text)).toBe(columns);
});

test('a text is filled up to a column, and never cut', () => {
  expect(padColumns('音', 4)).toBe('音  ');
  expect(padColumns('words', 2)).toBe('words');
});
