/** Values of YAML within their line: where quotation marks and brackets end, and how a text is quoted. */
import type { TextSpan } from '../diagnostics/diagnostic.ts';

/** Where a value ends; or where what it opens is, what would close it, and behind which character of its line that belongs. */
export type ValueEnd =
  | { readonly to: number }
  | { readonly open: number; readonly close: string; readonly until: number };

/** Where the line's last character is that is no comment and no blank. */
const contentEnd = (text: string): number => text.replace(/[ \t]#.*$/, '').trimEnd().length;

/** The end of a value in quotation marks, which the text begins with. */
export function afterQuotes(text: string): ValueEnd {
  const mark = text.charAt(0);
  const to = closingQuote(text, 0);
  return to < 0 ? { open: 0, close: mark, until: contentEnd(text) } : { to };
}

/** Behind the quotation mark that closes the one at `from`; -1 where none does. */
function closingQuote(text: string, from: number): number {
  const mark = text.charAt(from);
  for (let at = from + 1; at < text.length; at++) {
    if (mark === '"' && text[at] === '\\') at++;
    else if (text[at] === mark) {
      if (mark === '"' || text[at + 1] !== mark) return at + 1;
      at++;
    }
  }
  return -1;
}

const CLOSING: Readonly<Record<string, string>> = { '[': ']', '{': '}' };

/** The end of a list or a group in brackets, which the text begins with. */
export function afterFlow(text: string): ValueEnd {
  const open: { readonly at: number; readonly close: string }[] = [];
  for (let at = 0; at < text.length; at++) {
    const sign = text.charAt(at);
    // A quotation mark within a word is a letter of it.
    if ((sign === '"' || sign === "'") && /[[{,:\s]/.test(text[at - 1] ?? ' ')) {
      const to = closingQuote(text, at);
      if (to < 0) return { open: at, close: sign, until: beforeClosing(text, at) };
      at = to - 1;
      continue;
    }
    const close = CLOSING[sign];
    if (close !== undefined) open.push({ at, close });
    else if (sign === ']' || sign === '}') {
      const last = open.pop();
      if (last && last.close !== sign) return { open: last.at, close: last.close, until: at };
      if (open.length === 0) return { to: at + 1 };
    } else if (sign === '#' && /[ \t]/.test(text[at - 1] ?? '')) break;
  }
  const last = open.at(-1);
  return last ? { open: last.at, close: last.close, until: contentEnd(text) } : { to: text.length };
}

/** Where a text in a list ends that lacks its second quotation mark: before the next comma or bracket. */
function beforeClosing(text: string, from: number): number {
  const length = text.slice(from).search(/[,\]}]/);
  return length < 0 ? contentEnd(text) : from + text.slice(from, from + length).trimEnd().length;
}

/** What is behind a value in its line, other than a comment. */
export function behindValue(text: string, to: number): TextSpan | undefined {
  const rest = text.slice(to);
  const from = to + rest.length - rest.trimStart().length;
  if (from >= text.length || text[from] === '#') return undefined;
  return { from, to: text.length };
}

/** A text as a value in quotation marks. */
export function asQuoted(text: string): string {
  if (!/["\\]/.test(text)) return `"${text}"`;
  return `'${text.replaceAll("'", "''")}'`;
}
