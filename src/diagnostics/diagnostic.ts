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

/** What is written in place of some characters. An empty span inserts, an empty text removes. */
export interface TextEdit {
  readonly span: TextSpan;
  readonly text: string;
}

/**
 * Edits that remove a problem. They are within lines: none has a line break in its text, so that a block that is indented in its
 * file can be edited like any other text.
 */
export interface Fix {
  readonly edits: readonly TextEdit[];
  /**
   * Whether its author can have meant nothing else, so that it may be applied unseen. What is only the most likely name
   * among several, or changes what is played, is not certain.
   */
  readonly certain: boolean;
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
  /** The fix as edits of the text that was read, where it can be said so. */
  readonly fix?: Fix;
  readonly span: TextSpan;
}

/** Whether any of them is an error. */
export const hasError = (diagnostics: readonly Diagnostic[]): boolean =>
  diagnostics.some((d) => d.severity === 'error');
