/**
 * A diagnostic is a value: collected, never thrown. Its place is a run of characters in the text that was read;
 * the caller that knows where that text is in a file turns it into lines and columns (see `place.ts`).
 */

export type Severity = 'error' | 'warning' | 'hint';

/** UTF-16 offsets into a text: `from` inclusive, `to` exclusive. */
export interface TextSpan {
  readonly from: number;
  readonly to: number;
}

/** A problem in a text an author wrote. */
export interface Diagnostic {
  /** Permanent, kebab-case. */
  readonly code: string;
  readonly severity: Severity;
  /** What is wrong, in full sentences and the trade's words; no position. */
  readonly message: string;
  /** The fix, where there is one. */
  readonly help?: string;
  readonly span: TextSpan;
}

/** Whether any of them is an error. */
export const hasError = (diagnostics: readonly Diagnostic[]): boolean =>
  diagnostics.some((d) => d.severity === 'error');
