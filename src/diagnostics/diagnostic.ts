/**
 * A diagnostic is a value: collected, never thrown. Its place is a run of characters in the text that was read;
 * whoever knows where that text stands in a file (see `place.ts`) turns it into lines and columns.
 */

export type Severity = 'error' | 'warning' | 'hint';

/** UTF-16 offsets into a text: `from` inclusive, `to` exclusive. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface Diagnostic {
  /** Permanent, kebab-case. */
  readonly code: string;
  readonly severity: Severity;
  /** What is wrong, in full sentences and the trade's words; no position. */
  readonly message: string;
  /** The mend, where there is one. */
  readonly help?: string;
  readonly span: Span;
}

/** One kind of problem: how bad, what it is in general (for the reference page), and its words for the facts at hand. */
export interface Kind<Facts> {
  readonly severity: Severity;
  /** What this problem is and why it is one, for the reference of messages. */
  readonly about: string;
  readonly message: (facts: Facts) => string;
  readonly help?: (facts: Facts) => string | undefined;
}

/** A catalogue of kinds by code. Each subject keeps its own beside its code. */
// biome-ignore lint/suspicious/noExplicitAny: each kind takes facts of its own shape; `report` checks them.
export type Catalogue = Readonly<Record<string, Kind<any>>>;

type FactsOf<K> = K extends Kind<infer Facts> ? Facts : never;

/** A reporter for one catalogue: makes a diagnostic of a code, its facts and its place. */
export const reporter =
  <C extends Catalogue>(catalogue: C) =>
  <Code extends keyof C & string>(code: Code, span: Span, facts: FactsOf<C[Code]>): Diagnostic => {
    const kind = catalogue[code] as Kind<unknown>;
    const help = kind.help?.(facts);
    return {
      code,
      severity: kind.severity,
      message: kind.message(facts),
      span,
      ...(help === undefined ? {} : { help }),
    };
  };

export const hasError = (diagnostics: readonly Diagnostic[]): boolean =>
  diagnostics.some((d) => d.severity === 'error');
