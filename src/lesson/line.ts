import type { TextSpan } from '../diagnostics/diagnostic.ts';

/** From an offset to the end of its line. */
export function lineFrom(source: string, from: number): TextSpan {
  const length = source.slice(from).search(/\r|\n|$/);
  return { from, to: from + length };
}

/** A text as a message may repeat it: in one line, and not at any length. */
export const oneLine = (text: string): string => {
  const line = text.trim().replace(/\s+/g, ' ');
  return line.length > 40 ? `${line.slice(0, 40)}…` : line;
};
