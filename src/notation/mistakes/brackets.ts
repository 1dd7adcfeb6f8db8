/** Brackets and quotation marks that are not closed: where they end as far as can be seen. */
import type { Fix } from '../../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../../diagnostics/edit.ts';
import { isChordSymbol } from '../../harmony/symbol.ts';
import { isMarkName, takesHole, takesNote } from '../../score/mark.ts';

/** The end of what is in brackets. */
export interface BracketEnd {
  /** Where what is inside ends. */
  readonly to: number;
  /** Whether the closing sign is there. */
  readonly isClosed: boolean;
  /** How to close it, where that can be seen, and what it then is. */
  readonly fix?: Fix;
  readonly meant?: string;
}

const end = (pattern: RegExp, text: string, from: number): number => {
  pattern.lastIndex = from;
  return from + (pattern.exec(text)?.[0].length ?? 0);
};

/** Nothing of this is in a chord symbol but a mistake: a bar line, or the next quotation mark. */
const UP_TO_QUOTE = /[^"|]*/y;
const CHORD_WORD = /\s*[^\s"|{}<>@]+/y;

/** The end of a chord symbol whose quotation mark is at an offset. */
export function endOfChord(text: string, open: number): BracketEnd {
  const to = end(UP_TO_QUOTE, text, open + 1);
  const wordTo = end(CHORD_WORD, text, open + 1);
  const isWord = isChordSymbol(text.slice(open + 1, wordTo).trim());
  // A mark behind a space opens the next symbol, where this one is not all of what is between.
  const opensNext = isWord && text[to - 1] === ' ' && text.slice(wordTo, to).trim() !== '';
  if (text[to] === '"' && !opensNext) return { to, isClosed: true };
  if (!isWord) return { to: open, isClosed: false };
  const fix = certainly({ from: wordTo, to: wordTo }, '"');
  return { to: wordTo, isClosed: false, fix, meant: `${text.slice(open, wordTo)}"` };
}

/** Whether a quotation mark behind a hole is the sign of a bend, as elsewhere: it does not begin a chord symbol. */
export function isBendQuote(text: string, at: number): boolean {
  const { to, isClosed } = endOfChord(text, at);
  return isClosed
    ? !isChordSymbol(text.slice(at + 1, to).trim()) && text[at - 1] !== '"'
    : to === at || text[at + 1] === ' ';
}

const IN_PARENTHESES = /[^()|[\]{}<>"@]*/y;

/** The closing parenthesis of the one at an offset; undefined where something else comes first. */
export function endOfHoles(text: string, open: number): number | undefined {
  const to = end(IN_PARENTHESES, text, open + 1);
  return text[to] === ')' ? to : undefined;
}

const IN_MARKS = /[^\][|{}<>"=@%]*/y;
const WORD = /[\s,]*([^\s,\][|{}<>"=@%]+)/y;

const IN_WORD = /[^\s\][|]*/y;

/** The end of the marks whose bracket is at an offset. */
export function endOfMarks(text: string, open: number): BracketEnd {
  const limit = end(IN_MARKS, text, open + 1);
  if (text[limit] === ']') return { to: limit, isClosed: true };
  // A sign in the middle of a mark is a mistake in the mark.
  const closing = end(IN_WORD, text, limit);
  if (closing > limit && text[closing] === ']') return { to: closing, isClosed: true };
  let to = open + 1;
  for (let at = to; ; ) {
    WORD.lastIndex = at;
    const [whole, word = ''] = WORD.exec(text) ?? [];
    if (whole === undefined) break;
    const isMark = isMarkName(word);
    if (!isMark && word !== 'lips' && word !== 'tongue') break;
    at += whole.length;
    to = at;
    if (!isMark || !(takesHole(word) || takesNote(word))) continue;
    WORD.lastIndex = at;
    const [beside, note = ''] = WORD.exec(text) ?? [];
    if (beside === undefined || !/^[-+]?\d/.test(note)) continue;
    at += beside.length;
    to = at;
  }
  if (to === open + 1) return { to, isClosed: false, fix: perhaps({ from: open, to }, '') };
  return { to, isClosed: false, fix: certainly({ from: to, to }, ']'), meant: `${text.slice(open, to)}]` };
}
