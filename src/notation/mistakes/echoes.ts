/** Problems that are there because of another one beside them, and go away with it. */
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';

type IsEcho = (echo: TextSpan, cause: TextSpan) => boolean;

const isWithin: IsEcho = (echo, cause) => echo.from >= cause.from && echo.from < cause.to;
const isAround: IsEcho = (echo, cause) => isWithin(cause, echo);
/** Right before it, with no more than spaces between. */
const isBefore: IsEcho = (echo, cause) => cause.from >= echo.to && cause.from - echo.to <= 2;

/** Problems with those that cause them, as they lie to each other. */
const ROWS: readonly (readonly [code: string, causes: readonly string[], IsEcho])[] = [
  // The note it goes to is there, and cannot be read.
  ['glide-turns', ['not-a-slot', 'other-spelling'], isBefore],
  ['glide-nowhere', ['not-a-slot', 'other-spelling'], isBefore],
  // A hole that was read as the number of an ending is the note.
  ['hold-without-note', ['ending-misplaced'], isWithin],
  // Two holes without a space between them are read as one.
  ['bar-too-short', ['no-hole'], isAround],
];

/** The diagnostics without those that others cause. */
export function withoutEchoes(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const codes = new Set(diagnostics.map(({ code }) => code));
  const rows = ROWS.filter(([code, causes]) => codes.has(code) && causes.some((cause) => codes.has(cause)));
  if (rows.length === 0) return [...diagnostics];
  return diagnostics.filter(
    (one) =>
      !rows.some(
        ([code, causes, isEcho]) =>
          one.code === code && diagnostics.some((other) => causes.includes(other.code) && isEcho(one.span, other.span)),
      ),
  );
}
