/** The fence around a block: whether it is closed, and where each line of the block is in the file. */
import type { TextSpan } from '../diagnostics/diagnostic.ts';
import { type Placed, placeOf } from '../diagnostics/place.ts';

const LINE_BREAK = /\r\n|\r|\n/;

/** Undefined for a fence that is closed; `next` is the line of a block that begins inside, counted from the opening one. */
export function fenceFault(source: string, span: TextSpan): { readonly next?: number } | undefined {
  const [opening = '', ...remaining] = source.slice(span.from, span.to).split(LINE_BREAK);
  const fence = /^[`~]+/.exec(opening)?.[0] ?? '```';
  const next = remaining.findIndex((line) => /^[ \t>]*(`{3,}|~{3,})[ \t]*tab\b/.test(line));
  if (next >= 0) return { next: next + 1 };
  const last = /[`~]+(?=[ \t]*$)/.exec(remaining.at(-1) ?? '')?.[0] ?? '';
  return last[0] === fence[0] && last.length >= fence.length ? undefined : {};
}

/**
 * Where the lines of a block are. Each is the end of a line of the file: what a list or a quotation put before it is
 * not the block's. (Where half a tab was taken for indentation, only the blank before the first slot is off.)
 */
export function placedInFence(source: string, span: TextSpan, line: number, text: string): Placed {
  const physical = source.slice(span.from, span.to).split(LINE_BREAK);
  const lines = placeOf(text).lines.map(({ offset }, index, all) => {
    const end = all[index + 1]?.offset ?? text.length;
    const length = text.slice(offset, end).replace(/[\r\n]+$/, '').length;
    return { offset, at: { line: line + 1 + index, column: (physical[index + 1]?.length ?? 0) - length + 1 } };
  });
  return { lines };
}
