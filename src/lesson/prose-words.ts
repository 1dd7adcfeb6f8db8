/** How many words of running text a lesson has. */
import type { TextSpan } from '../diagnostics/diagnostic.ts';

/**
 * The number of words in these pieces of a text, which are in order, by the rules of its language (a tag such as `en`).
 * A word that is partly emphasised is in several pieces and counts once.
 */
export function wordsIn(source: string, pieces: readonly TextSpan[], language: string): number {
  let text = '';
  let end = 0;
  for (const { from, to } of pieces) {
    text += `${/^[*_~`]*$/.test(source.slice(end, from)) ? '' : '\n'}${source.slice(from, to)}`;
    end = to;
  }
  const segmenter = new Intl.Segmenter(language, { granularity: 'word' });
  let words = 0;
  for (const { isWordLike } of segmenter.segment(text)) if (isWordLike) words++;
  return words;
}
