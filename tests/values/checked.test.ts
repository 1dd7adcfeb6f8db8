import { describe, expect, test } from 'vitest';
import { itemAt, lastOf, present, valueAt } from '../../src/values/checked.ts';

describe('checked access', () => {
  test('hands out what is there, falsy values too', () => {
    expect(itemAt([1, 0], 1)).toBe(0);
    expect(itemAt(Int32Array.of(7), 0)).toBe(7);
    expect(lastOf(['a', ''])).toBe('');
    expect(valueAt(new Map([['a', false]]), 'a')).toBe(false);
    expect(present(0, 'a count')).toBe(0);
  });

  test('throws for what is not, and says what it looked for', () => {
    expect(() => itemAt([1, 2], 2)).toThrow('no item 2 in a list of 2');
    expect(() => itemAt([1, 2], -1)).toThrow('no item -1 in a list of 2');
    expect(() => lastOf([])).toThrow('no item -1 in a list of 0');
    expect(() => valueAt(new Map([['a', 1]]), 'b')).toThrow('no value for b');
    expect(() => present(undefined, 'a harp')).toThrow('a harp is missing');
    expect(() => present(null, 'a harp')).toThrow('a harp is missing');
  });
});
