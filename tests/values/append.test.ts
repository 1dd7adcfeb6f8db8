import { expect, test } from 'vitest';
import { append } from '../../src/values/append.ts';

test('puts items at the end of a list in their order, however many there are', () => {
  const list = [1, 2];
  append(list, new Set([3, 4]));
  append(list, []);
  expect(list).toEqual([1, 2, 3, 4]);
  append(
    list,
    Array.from({ length: 300_000 }, () => 5),
  );
  expect(list).toHaveLength(300_004);
});
