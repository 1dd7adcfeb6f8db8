/** Where sentences begin in the text of a lesson. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';

/**
 * Whether what is at `span` begins a sentence: it is the first of its paragraph, heading, list item or cell, or a full stop, a
 * question mark or an exclamation mark is before it. Emphasis and brackets that open there do not count.
 */
export function beginsSentence(source: string, { from }: TextSpan): boolean {
  // Far enough back for any marks; a whole lesson for each component would take the square of its length.
  const before = source.slice(Math.max(0, from - 200), from).replace(/[*_[(“‘"]+$/, '');
  if (/[.!?…][*_)\]”’"]*\s+$/.test(before)) return true;
  const line = /(?:^|[\r\n])([^\r\n]*)$/.exec(before)?.[1] ?? '';
  if (/^[ \t>]*(?:[-*+][ \t]+|\d{1,9}[.)][ \t]+|#{1,6}[ \t]+)$/.test(line) || /(?:^|[^\\])\|[ \t]*$/.test(line))
    return true;
  // The first word of its line begins a sentence where nothing of its paragraph is above.
  return /^[ \t>]*$/.test(line) && /(?:^|\n[ \t>]*\r?\n|---[ \t]*\r?\n)[ \t>]*$/.test(before);
}
