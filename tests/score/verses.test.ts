/** Verses: which is sung when, and the lines they are shown in. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { passesOf, playOrder } from '../../src/score/playing-order.ts';
import { isSoundEvent, soundsOf } from '../../src/score/queries.ts';
import type { Score } from '../../src/score/score.ts';
import {
  firstVerse,
  linesOfWords,
  lyricIn,
  verseInEnding,
  verseSung,
  versesIn,
  withVerses,
} from '../../src/score/verses.ts';
import { itemAt } from '../../src/values/checked.ts';
import { scoreOf } from '../engrave/pictures.ts';
import { blockText } from '../notation/arbitrary.ts';
import { cases } from '../setup/long.ts';

/** What is sung, in the order of playing. */
const sung = (score: Score): string => {
  const passes = passesOf(score);
  return playOrder(score)
    .flatMap((index, place) => {
      const bar = itemAt(score.bars, index);
      const verse = verseSung(bar, itemAt(passes, place));
      return bar.events.flatMap((event) => (isSoundEvent(event) ? (lyricIn(event, verse)?.text ?? '-') : []));
    })
    .join(' ');
};
const sungIn = (text: string): string => sung(scoreOf(`slot: 1/2\n${text}`));

describe('the verse of a time through a repeat', () => {
  test.each([
    ['is that of its number', '|: 4 4 :|x3\nwords: a b\nwords: c d\nwords: e f', 'a b c d e f'],
    ['is the only one there is, each time', '|: 4 4 :|x3\nwords: a b', 'a b a b a b'],
    ['is none where there is no such verse', '|: 4 4 :|x3\nwords: a b\nwords: c d', 'a b c d - -'],
    ['may be one that begins later', '|: 4 4 :|\nwords 2: c d', '- - c d'],
    ['is the first outside of a repeat', '4 4 | 4 4 |]\nwords: a b c d\nwords: e f g h', 'a b c d'],
    [
      'is for each bar its own: a refrain is sung each time',
      '|: 4 4 |\nwords: a b\nwords: c d\n5 5 :|\nwords: la la',
      'a b la la c d la la',
    ],
  ])('%s', (_, text, expected) => {
    expect(sungIn(text)).toBe(expected);
  });

  test.each([
    ['one line has the words of both', 'words: a b c d e f', 'a b c d a b e f'],
    ['each line has those of its time', 'words: a b c d\nwords: g h * * e f', 'a b c d g h e f'],
    ['a number says the verse', 'words: a b c d\nwords 2: g h * * e f', 'a b c d g h e f'],
    ['the first line has those of both', 'words: a b c d e f\nwords: g h', 'a b c d g h e f'],
  ])('in endings: %s', (_, words, expected) => {
    expect(sungIn(`|: 4 4 |1 5 5 :|2 6 6 |]\n${words}`)).toBe(expected);
  });

  test('in an ending for several times is one of them', () => {
    expect(sungIn('|: 4 4 |1,2 5 5 :|3 6 6 |]\nwords: a b c d e f\nwords: g h i j')).toBe('a b c d g h i j - - e f');
    expect(sungIn('|: 4 4 |1 5 5 :|2,3 6 6 |]\nwords: a b c d e f')).toBe('a b c d a b e f a b e f');
  });
});

test('in an ending every verse is one of its times, and each note has a verse once', () => {
  fc.assert(
    fc.property(blockText, (text) => {
      const score = scoreOf(text);
      for (const bar of score.bars) for (const verse of versesIn(bar)) expect(bar.endings ?? [verse]).toContain(verse);
      for (const { lyrics } of soundsOf(score)) {
        const verses = (lyrics ?? []).map(({ verse }) => verse);
        expect(verses).toEqual([...new Set(verses)].sort((a, b) => a - b));
        expect(lyrics?.length).not.toBe(0);
      }
      expect(passesOf(score).length).toBe(playOrder(score).length);
    }),
    { numRuns: cases(150, 3000) },
  );
});

test('words are in one line without a number where each bar has those of its first time', () => {
  const numbers = (text: string) => linesOfWords(scoreOf(`slot: 1/2\n${text}`).bars).map(({ verse }) => verse);
  expect(numbers('4 4')).toEqual([]);
  expect(numbers('|: 4 4 |1 5 5 :|2 6 6 |]\nwords: a b c d e f')).toEqual([undefined]);
  expect(numbers('4 4\nwords: a b\nwords: c d')).toEqual([1, 2]);
  expect(numbers('|: 4 4 :|\nwords 2: a b')).toEqual([2]);
});

test('lines of words are in the order of their verses, whichever is met first', () => {
  const lines = linesOfWords(scoreOf('slot: 1/2\n4 4 | 5 5 |]\nwords 3: * * a b\nwords 2: c d').bars);
  expect(lines.map(({ verse }) => verse)).toEqual([2, 3]);
  const [sound] = soundsOf(scoreOf('slot: 1/2\n4 4\nwords: a b\nwords: c d'));
  const both = linesOfWords(scoreOf('slot: 1/2\n4 4\nwords: a b\nwords: c d').bars);
  expect(both.map(({ of }) => sound && of(sound)?.text)).toEqual(['a', 'c']);
});

test('words for a time that an ending is not for are sung its first time', () => {
  expect([1, 2, 3, 4].map((verse) => verseInEnding(verse, [2, 3]))).toEqual([2, 2, 3, 2]);
  expect(verseInEnding(4, undefined)).toBe(4);
  expect([firstVerse({}), firstVerse({ endings: [2, 3] })]).toEqual([1, 2]);
});

describe('a bar with the words of some of its times', () => {
  const [bar] = scoreOf('slot: 1/2\n|: 4 4 :|x3\nwords: a b\nwords: c *\nwords: e f').bars;
  const words = (passes: readonly number[]) =>
    bar &&
    withVerses(bar, passes).events.map((event) =>
      isSoundEvent(event) ? event.lyrics?.map(({ verse, text }) => `${verse} ${text}`).join(', ') : undefined,
    );
  test('counts them from one', () => {
    expect(words([2])).toEqual(['1 c', undefined]);
    expect(words([3])).toEqual(['1 e', '1 f']);
    expect(words([2, 3])).toEqual(['1 c, 2 e', '2 f']);
  });
  test('has none for a time without words', () => {
    expect(words([7])).toEqual([undefined, undefined]);
  });
  test('is the same bar where nothing changes', () => {
    expect(bar && withVerses(bar, [1, 2, 3])).toBe(bar);
    const [wordless] = scoreOf('slot: 1/2\n4 4').bars;
    expect(wordless && withVerses(wordless, [2])).toBe(wordless);
  });
});
