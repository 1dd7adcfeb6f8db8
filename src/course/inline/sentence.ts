/** Where sentences begin in the text of a lesson. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';

/** Marks and tags that open right before a word: `**`, `(`, `<b>`. */
const OPENING = /(?:[*_[(“‘"]|<[a-z][^<>]*>)+$/;
/** The end of a sentence, with marks that close there and a footnote’s number. */
const SENTENCE_END = /[.!?…][*_)\]”’"]*(?:\[\^[^\]\s]*\])?\s+$/;
/** A full stop that ends no sentence. */
const ABBREVIATION = /(?:^|[\s(])(?:e\.g|i\.e|cf|vs|approx|incl|viz)\.\s+$/i;
/** The marks of a list item, a task, a heading or a footnote, with nothing behind them. */
const LINE_MARKS =
  /^[ \t]*(?:(?:[-*+]|\d{1,9}[.)])[ \t]+)*(?:(?:[-*+]|\d{1,9}[.)])[ \t]+(?:\[[ xX]\][ \t]+)?|#{1,6}[ \t]+|\[\^[^\]\s]*\]:[ \t]*)$/;
/** What ends above the first line of a paragraph: nothing, an empty line, front matter, a heading, a block. */
const PARAGRAPH_ABOVE =
  /(?:^|\n[ \t]*\r?\n|(?:^|[\r\n])[ \t]*(?:-{3,}|\*{3,}|`{3,}|~{3,}|#{1,6}[ \t][^\r\n]*)[ \t]*\r?\n)[ \t]*$/;

/**
 * Whether what is at `span` begins a sentence: it is the first of its paragraph, heading, list item or cell, or a full stop, a
 * question mark or an exclamation mark is before it. Emphasis and brackets that open there do not count.
 */
export function beginsSentence(source: string, { from }: TextSpan): boolean {
  // Far enough back for any marks; a whole lesson for each component would take the square of its length.
  const before = source
    .slice(Math.max(0, from - 200), from)
    .replace(/(^|[\r\n])[ \t]*>[ \t>]*/g, '$1')
    .replace(OPENING, '');
  if (ABBREVIATION.test(before)) return false;
  if (SENTENCE_END.test(before)) return true;
  const line = /(?:^|[\r\n])([^\r\n]*)$/.exec(before)?.[1] ?? '';
  if (LINE_MARKS.test(line) || /(?:^|[^\\])\|[ \t]*$/.test(line)) return true;
  // The first word of its line begins a sentence where nothing of its paragraph is above.
  return /^[ \t]*$/.test(line) && PARAGRAPH_ABOVE.test(before);
}
