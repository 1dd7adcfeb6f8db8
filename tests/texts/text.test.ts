import { describe, expect, test } from 'vitest';
import { markup, splitAtMarkup, textsIn } from '../../src/texts/text.ts';

const say = textsIn(
  {
    plain: 'Play',
    slots: '{from} to {to}, {from} again',
    plural: { one: '{count} lesson of {all}', other: '{count} lessons of {all}' },
  },
  'en',
);

describe('a text', () => {
  test('without slots is its row', () => expect(say('plain')).toBe('Play'));
  test('has each slot filled, wherever and as often as it stands', () =>
    expect(say('slots', { from: 1, to: 'the end' })).toBe('1 to the end, 1 again'));
  test('takes what a value says as it is', () =>
    expect(say('slots', { from: '{to}', to: '$&' })).toBe('{to} to $&, {to} again'));
  test.each([
    [0, '0 lessons of 9'],
    [1, '1 lesson of 9'],
    [2, '2 lessons of 9'],
  ])('of a number takes the form for %i', (count, text) => expect(say('plural', { count, all: 9 })).toBe(text));
});

test('a text is split at the slots that hold markup', () => {
  const pieces = splitAtMarkup(say('slots', { from: markup('link'), to: 'the {end}' }));
  expect(pieces).toEqual([
    { text: '', slot: 'link' },
    { text: ' to the {end}, ', slot: 'link' },
    { text: ' again', slot: undefined },
  ]);
  expect(splitAtMarkup('Play')).toEqual([{ text: 'Play', slot: undefined }]);
});

test('what is asked for is checked by the compiler', () => {
  // @ts-expect-error: no such key.
  expect(() => say('other')).toThrow('no text other');
  // @ts-expect-error: a slot without a value stays.
  expect(say('slots', { from: 1 })).toBe('1 to {to}, 1 again');
  // @ts-expect-error: a plural needs its count.
  expect(say('plural', { all: 9 })).toContain('lessons of 9');
});
