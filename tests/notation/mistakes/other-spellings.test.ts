/** Notes, rests and bar lines as they are spelled elsewhere, and what they are here. */
import { describe, expect, test } from 'vitest';
import { otherSpelling } from '../../../src/notation/mistakes/other-spellings.ts';
import { readBlock } from '../../../src/notation/read.ts';

/** What a word means, with a question mark where it may mean something else. */
const meaning = (text: string): string | undefined => {
  const found = otherSpelling(text);
  return found && `${found.meant}${found.isCertain ? '' : ' ?'}`;
};

describe('a word of the music is', () => {
  test.each([
    ['rest', 'r', '.'],
    ['rest', 'R2', '.2'],
    ['rest', 'z4', '.4'],
    ['rest', 'rest', '.'],
    ['ellipsis', '…', '...'],
    ['dash', '-', '= ?'],
    ['dash', '---', '=3 ?'],
    ['dash', '__', '=2 ?'],
    ['dash', '~', '= ?'],
    ['arrow', '↑4', '4 ?'],
    ['arrow', "↓3''", "-3'' ?"],
    ['arrow', '10⬆', '10 ?'],
    ['arrow', "3'▼", "-3' ?"],
    ['arrow', '△5', '5 ?'],
    ['arrow', '▽5', '-5 ?'],
    ['sign-behind', '4+', '4'],
    ['sign-behind', '4-', '-4'],
    ['sign-behind', "3'-", "-3'"],
    ['sign-behind', "10-'", "-10'"],
    ['bend-letter', '-3b', "-3' ?"],
    ['bend-letter', '-2bb', "-2'' ?"],
    ['bend-letter', '-bbb3', "-3''' ?"],
    ['bend-letter', '3bb', "-3'' ?"],
    ['bend-letter', '6bb', "-6'' ?"],
    ['bend-letter', '10bb', "10'' ?"],
    ['bend-quotes', '-3"', "-3''"],
    ['bend-quotes', `-3'"`, "-3'''"],
    ['bend-quotes', '+10"', "+10''"],
    ['breath-letter', '4d', '-4 ?'],
    ['breath-letter', '10B', '10 ?'],
    ['breath-letter', "3D'", "-3' ?"],
    ['breath-letter', 'd4', '-4 ?'],
    ['breath-letter', "b10'", "10' ?"],
    ['over-letters', '6ob', '6o'],
    ['over-letters', '6OB', '6o'],
    ['over-letters', '-7O', '-7o'],
    ['over-letters', '7od', '-7o'],
    ['over-letters', '-10OD', '-10o'],
    ['over-letters', 'o6', '6o'],
    ['over-letters', '-O7', '-7o'],
    ['comma', '4,', '4'],
    ['comma', "-3'';", "-3''"],
    ['comma', '6o,', '6o'],
    ['glued', '4-4+5', '4 -4 +5 ?'],
    ['glued', "-3'-10", "-3' -10 ?"],
    ['together', '4/5', '(4 5) ?'],
    ['together', '-4&5', '-(4 5) ?'],
    ['together', '1,2,10', '(1 2 10) ?'],
    ['together', '-4,-5', '-(4 5) ?'],
    ['bar-line', '/', '| ?'],
    ['bar-line', ']', '|]'],
    ['chord', 'A7', '"A7"'],
    ['chord', "'F#m7b5'", '"F#m7b5"'],
    ['chord', 'bVI7"', '"bVI7"'],
  ])('a %s: %s, %s', (kind, text, meant) => {
    expect([otherSpelling(text)?.kind, meaning(text)]).toEqual([kind, meant]);
  });
  test.each(['x', '4', '-3', "-3'", '123d', '4dd', 'hello', '', 'r123', 'rests', 'bbbb3', '4bbbb', '4//5', '1/2/3/4/5/6', '…4', '//', ']]'])(
    'none of these: %s',
    (text) => {
      expect(otherSpelling(text)).toBeUndefined();
    },
  ); // biome-ignore format: a list
  test('the same with marks, holds and rests behind it', () => {
    expect(['↓4==', '4d[accent]=2', '4-[slap][pull]..', 'r=', '6ob[shake 5]'].map(meaning)).toEqual([
      '-4== ?',
      '-4[accent]=2 ?',
      '-4[slap][pull]..',
      '.=',
      '6o[shake 5]',
    ]);
  });
  test('none where it is as long as no word is', () => {
    expect(meaning('_'.repeat(40))).toBe('=40 ?');
    expect(meaning('_'.repeat(41))).toBeUndefined();
  });
});

describe('in a block', () => {
  /** Each problem with its words, and the music after its fix where that is certain. */
  const problems = (music: string) =>
    readBlock(`slot: 1/4\n${music}`).diagnostics.map(({ code, span, fix, message }) => ({
      code,
      at: `slot: 1/4\n${music}`.slice(span.from, span.to),
      to: fix?.edits.map(({ text }) => text).join(' '),
      certain: fix?.certain,
      places: /has (\d+) places/.exec(message)?.[1],
    }));

  test('one problem names all words of one kind, and its fix is for all', () => {
    expect(problems('4+ 4- 5+ 6')).toEqual([
      { code: 'other-spelling', at: '4+', to: '4 -4 5', certain: true, places: '3' },
    ]);
  });
  test('words of two kinds are two problems', () => {
    expect(problems('4+ r 5- r').map(({ at, to }) => [at, to])).toEqual([
      ['4+', '4 -5'],
      ['r', '. .'],
    ]);
  });
  test('`b` behind a hole is a bend where draw notes have their sign', () => {
    expect(problems('-4 3b -4 10b').map(({ to }) => to)).toEqual(["-3' 10'"]);
    expect(problems('4d 3b 4d 5b').map(({ to }) => to)).toEqual(['-4 3 -4 5']);
    expect(problems('-4 3b 4d 5').map(({ to }) => to)).toEqual(['3 -4']);
  });
  test('`D7` is a chord beside other chords, and a note beside other notes', () => {
    expect(problems('A7 4 D7 5 4 5').map(({ to }) => to)).toEqual(['"A7" "D7"']);
    expect(problems('D7 B7 D4 5').map(({ to }) => to)).toEqual(['-7 7 -4']);
    expect(problems('A7 4 d4 5 4 5').map(({ to }) => to)).toEqual(['"A7"', '-4']);
  });
  test('a last bar line is certain at the end of its line alone', () => {
    expect(problems('4 5 6 7 ]').map(({ to, certain }) => [to, certain])).toEqual([['|]', true]]);
    expect(problems('4 5 6 7 ] # the end').map(({ to, certain }) => [to, certain])).toEqual([['|]', true]]);
  });
});
