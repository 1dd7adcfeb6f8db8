import { expect, test } from 'vitest';
import { readLessonText } from '../../src/lesson/lesson-text.ts';
import { wordsIn } from '../../src/lesson/prose-words.ts';

const count = (body: string, language = 'en'): number => {
  const { source, prose } = readLessonText(`---\ntitle: Not counted\n---\n\n${body}\n`);
  return wordsIn(source, prose, language);
};

test.each([
  ['', 0],
  ['One two – three.', 3],
  ['It isn’t **so**, *re*done `code`.', 5],
  ['# Head\n\n- one\n- two\n\n| a | b |\n| - | - |\n| c | d |', 7],
  ['a\n\n```tab\n4 4 4 4 4 4 4 4\n```\n\n```sh\nls\n```\n\n{/* no comment */}\n\nb', 2],
  ['[a link](first) and ![a picture](media/x.svg)', 3],
  ['<details><summary>Why?</summary>Because.</details>', 2],
  ['Play <Note of="4" /> now.', 2],
])('%j has %i words', (body, words) => {
  expect(count(body)).toBe(words);
});

test('words are those of the language', () => {
  expect(count('ハーモニカを吹く', 'ja')).toBeGreaterThan(1);
});
