/** What is said of words of the music that are spelled as elsewhere. */
import { describe, expect, test } from 'vitest';
import {
  SPELLINGS,
  type SpellingFacts,
  spellingHelp,
  spellingMessage,
  unquotedChord,
} from '../../../src/notation/mistakes/spelling-words.ts';

const facts = (more: Partial<SpellingFacts>): SpellingFacts => ({
  kind: 'sign-behind',
  pairs: [['4-', '-4']],
  count: 1,
  isCertain: true,
  ...more,
});
/** So many different words with what they mean. */
const pairs = (count: number): (readonly [string, string])[] =>
  Array.from({ length: count }, (_, index) => [`${index + 1}-`, `-${index + 1}`]);

describe('the message', () => {
  test('has the first word, why it is none, and how many more there are', () => {
    expect(spellingMessage(facts({}))).toBe('“4-” is not a slot: the sign of the breath is before the hole.');
    expect(spellingMessage(facts({ count: 3 }))).toMatch(/ The block has 3 places of this kind\.$/);
    expect(spellingMessage(facts({ kind: 'bar-line', pairs: [['/', '|']] }))).toMatch(/^“\/” is no bar line: /);
  });
  test('of a chord is about its quotation marks', () => {
    expect(spellingMessage(facts({ kind: 'chord', pairs: [['A7', '"A7"']], count: 2 }))).toBe(
      'A chord symbol is in quotation marks ("), and “A7” is not. The block has 2 places of this kind.',
    );
  });
  test('is another one for each kind but those that are alike', () => {
    expect(new Set(Object.values(SPELLINGS)).size).toBe(Object.keys(SPELLINGS).length - 2);
  });
});

describe('the help', () => {
  test('says what to write, or asks where something else may be meant', () => {
    expect(spellingHelp(facts({}))).toBe('Write -4');
    expect(spellingHelp(facts({ isCertain: false }))).toBe('Did you mean “-4”?');
  });
  test('lists several words, the first four of many', () => {
    expect(spellingHelp(facts({ pairs: pairs(2) }))).toBe('Write -1 for 1-, -2 for 2-');
    expect(spellingHelp(facts({ pairs: pairs(2), isCertain: false }))).toBe('Did you mean -1 for 1-, -2 for 2-?');
    expect(spellingHelp(facts({ pairs: pairs(4) }))).toBe('Write -1 for 1-, -2 for 2-, -3 for 3-, -4 for 4-');
    expect(spellingHelp(facts({ pairs: pairs(5) }))).toBe('Write -1 for 1-, -2 for 2-, -3 for 3-, -4 for 4- …');
  });
  test('of a dash has both things it may be', () => {
    expect(spellingHelp(facts({ kind: 'dash', pairs: [['-', '=']] }))).toBe(
      'Write = where the note before goes on, and . where there is silence.',
    );
  });
  test('of a letter with a hole has the chord that it may be, too', () => {
    const letter = (...own: SpellingFacts['pairs']) =>
      spellingHelp(facts({ kind: 'breath-letter', pairs: own, isCertain: false }));
    expect(letter(['D7', '-7'])).toBe('Write -7 for the note, or "D7" for the chord.');
    expect(letter(['D4', '-4'])).toBe('Did you mean “-4”?');
    expect(letter(['D7', '-7'], ['B7', '7'])).toBe('Did you mean -7 for D7, 7 for B7?');
  });
});

test('a chord symbol is seen without its quotation marks, or with one of them', () => {
  expect(['A7', "'A7'", 'A7"', 'iv7', 'bVI7', '♭VII', 'N.C.', 'F#m7b5'].map(unquotedChord)).toEqual([
    'A7',
    'A7',
    'A7',
    'iv7',
    'bVI7',
    '♭VII',
    'N.C.',
    'F#m7b5',
  ]);
  for (const text of ['', '7', 'b7', '#4', '4', 'x', 'H7', '"A7"', "'A7", 'xA7', '-4'])
    expect(unquotedChord(text), text).toBeUndefined();
});
