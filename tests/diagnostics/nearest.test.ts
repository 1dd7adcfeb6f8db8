import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { knownNames, nearest, numbersIn } from '../../src/diagnostics/nearest.ts';
import { itemAt } from '../../src/values/checked.ts';

const FORMS = ['twelve-bar', 'twelve-bar-turnaround', 'minor-twelve-bar', 'quick-change-turnaround', 'eight-bar'];

describe('the nearest of the known words', () => {
  test.each([
    ['12-bar', 'twelve-bar'],
    ['12 bars', 'twelve-bar'],
    ['12bar', 'twelve-bar'],
    ['twelve-bar-blues', 'twelve-bar'],
    ['Twelvebar', 'twelve-bar'],
    ['12-bar-minor', 'minor-twelve-bar'],
    ['8-bar', 'eight-bar'],
    ['quick-change', 'quick-change-turnaround'],
    ['minor', 'minor-twelve-bar'],
    ['24-bar', undefined],
    ['turnaround', undefined],
    ['waltz', undefined],
    ['', undefined],
    ['%', undefined],
  ])('to %j among forms is %j', (written, meant) => {
    expect(nearest(written, FORMS)).toBe(meant);
  });

  test.each([
    ['Harp', ['RoleTable', 'HarpMap'], 'HarpMap'],
    ['Roles', ['RoleTable', 'HarpMap'], 'RoleTable'],
    ['2nd-position', ['first-position', 'second-position'], 'second-position'],
    ['position-2', ['first-position', 'second-position'], 'second-position'],
    ['sixth-notes', ['sixteenth-notes'], undefined],
    ['1/2-step-bends', ['whole-step-bends', 'half-step-bends'], 'half-step-bends'],
    ['uberblasen', ['überblasen'], 'überblasen'],
    ['the', ['the-turn'], undefined],
    ['x', ['y'], undefined],
    ['teach', ['title', 'teaches'], 'teaches'],
  ])('to %j among %j is %j', (written, known, meant) => {
    expect(nearest(written, known)).toBe(meant);
  });

  test('goes by other names as well, and returns the one that counts', () => {
    const table = [
      { id: 'aeolian', title: 'Aeolian (natural minor)' },
      { id: 'harmonic-minor', title: 'Harmonic minor' },
    ];
    expect(nearest('natural minor', knownNames(table))).toBe('aeolian');
    expect(nearest('Minor, harmonic', knownNames(table))).toBe('harmonic-minor');
  });

  test('is a word itself among others, whatever they are', () => {
    const word = fc.stringMatching(/^[a-z]{1,8}(-[a-z]{1,8}){0,3}$/);
    fc.assert(
      fc.property(fc.uniqueArray(word, { minLength: 1, maxLength: 8 }), fc.nat(), (words, place) => {
        const one = itemAt(words, place % words.length);
        const same = words.filter((other) => other.split('-').sort().join() === one.split('-').sort().join());
        fc.pre(same.length === 1);
        expect(nearest(one, words)).toBe(one);
        expect(nearest(one.toUpperCase().replaceAll('-', ' '), words)).toBe(one);
      }),
    );
  });
});

test('numbers are read in figures and in words', () => {
  expect(numbersIn('six-eight at 92,5 or the second 12')).toEqual([6, 8, 92.5, 2, 12]);
  expect(numbersIn('none')).toEqual([]);
});
