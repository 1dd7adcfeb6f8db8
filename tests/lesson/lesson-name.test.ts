import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isLessonName, isReservedName, lessonNameFrom } from '../../src/lesson/lesson-name.ts';
import { cases } from '../setup/long.ts';

test.each([
  ['The second step', 'the-second-step'],
  ['Über die Brücke', 'uber-die-brucke'],
  ['Straße, Łódź & Ærø', 'strasse-lodz-aero'],
  ["Don’t rush, don't stop", 'dont-rush-dont-stop'],
  ['  –3 and 4?  ', '3-and-4'],
  ['snake_case', 'snake_case'],
  ['ﬁve', 'five'],
  ['吹く', undefined],
  ['…', undefined],
])('%s is called %s', (title, name) => {
  expect(lessonNameFrom(title)).toBe(name);
});

test('a long title is cut between words', () => {
  expect(lessonNameFrom('one two '.repeat(20))).toMatch(/^(one-two-)+(one|one-two)$/);
  expect(lessonNameFrom('x'.repeat(200))).toBe('x'.repeat(60));
});

test('every title gives a name that can be part of an address, or none', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (title) => {
      const name = lessonNameFrom(title);
      if (name === undefined) return;
      expect(isLessonName(name)).toBe(true);
      expect(name.length).toBeLessThanOrEqual(60);
      expect(lessonNameFrom(name)).toBe(name);
    }),
    { numRuns: cases(100, 2000) },
  );
});

test('names of devices and of index pages are reserved', () => {
  expect(['con', 'NUL', 'com1', 'index'].filter((name) => !isReservedName(name))).toEqual([]);
  expect(['console', 'com', 'indexes'].filter(isReservedName)).toEqual([]);
});
