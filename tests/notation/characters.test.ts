import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nameOfText, plainCharacters } from '../../src/notation/characters.ts';

describe('look-alikes of word processors', () => {
  test.each([
    ['apostrophes', '‘’‚‛′´`ʼ＇', "'"],
    ['quotation marks', '“”„‟«»＂', '"'],
    ['hyphens, dashes and minus signs', '‐‑‒–—―−－﹣', '-'],
    ['vertical lines', '│┃¦｜∣❘', '|'],
    ['spaces', '\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\u3000\t\u200b\ufeff', ' '],
    ['equals signs', '＝', '='],
    ['figures', '７', '7'],
    ['slashes', '⁄∕／', '/'],
    ['opening parentheses', '（', '('],
    ['closing parentheses', '）', ')'],
  ])('%s are read as the plain one', (_, lookalikes, plain) => {
    expect(plainCharacters(lookalikes)).toBe(plain.repeat(lookalikes.length));
  });
  test('are replaced place for place, and everything else stays', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const plain = plainCharacters(text);
        expect(plain.length).toBe(text.length);
        expect(plainCharacters(plain)).toBe(plain);
      }),
    );
    expect(plainCharacters('phrase über: 4″ -3‴ é # 1:2\r\n')).toBe('phrase über: 4″ -3‴ é # 1:2\r\n');
  });
});

describe('a text in a message', () => {
  test('is shown up to 40 characters', () => {
    expect(nameOfText('x'.repeat(40))).toBe('x'.repeat(40));
    expect(nameOfText('x'.repeat(41))).toBe(`${'x'.repeat(40)}…`);
  });
  test('has code points where nothing could be seen, and other characters as they are', () => {
    expect(nameOfText('a\u0007b\u0085\u2028\u2029')).toBe('a[U+0007]b[U+0085][U+2028][U+2029]');
    expect(nameOfText('\ud83c')).toBe('[U+D83C]');
    expect(nameOfText('é 🎵 ♭')).toBe('é 🎵 ♭');
  });
});
