/** Edits of a text, and the fixes of problems made of them. */
import type { Diagnostic, Fix, TextEdit, TextSpan } from './diagnostic.ts';

/** The fix that writes something else in place of these characters, where nothing else can have been meant. */
export const certainly = (span: TextSpan, text: string): Fix => ({ edits: [{ span, text }], certain: true });
/** The fix that writes something else in place of these characters, where that is the most likely of several. */
export const perhaps = (span: TextSpan, text: string): Fix => ({ edits: [{ span, text }], certain: false });

/** A problem of a text that is a part of another one, at its place there: its fix goes with it. */
export function movedTo(diagnostic: Diagnostic, place: (span: TextSpan) => TextSpan): Diagnostic {
  const { fix, ...rest } = diagnostic;
  const moved = { ...rest, span: place(diagnostic.span) };
  if (!fix) return moved;
  return { ...moved, fix: { ...fix, edits: fix.edits.map(({ span, text }) => ({ span: place(span), text })) } };
}

/** The edits in the order of their places. Of edits at one place the first stays first. */
export const editsInOrder = (edits: readonly TextEdit[]): TextEdit[] =>
  edits.toSorted((a, b) => a.span.from - b.span.from || a.span.to - b.span.to);

/** Whether the edits are within the text, and leave each other alone. */
export function editsFit(text: string, edits: readonly TextEdit[]): boolean {
  let at = 0;
  return editsInOrder(edits).every(({ span: { from, to } }) => {
    const fits = from >= at && to >= from && to <= text.length;
    at = to;
    return fits;
  });
}

/** The text with the edits applied. Throws a RangeError where two of them overlap, or one is not within the text. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  let at = 0;
  let edited = '';
  for (const { span, text: written } of editsInOrder(edits)) {
    if (span.from < at || span.to < span.from || span.to > text.length)
      throw new RangeError(`an edit of ${span.from}–${span.to} does not fit`);
    edited += text.slice(at, span.from) + written;
    at = span.to;
  }
  return edited + text.slice(at);
}

/** Where an offset of the text is once the edits are applied; one within a replaced part is at that part’s start. */
export function offsetAfter(edits: readonly TextEdit[], offset: number): number {
  let shift = 0;
  for (const { span, text } of editsInOrder(edits)) {
    if (span.to <= offset) shift += text.length - (span.to - span.from);
    else if (span.from < offset) return span.from + shift;
    else break;
  }
  return offset + shift;
}
