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

/** The nearest of the known words to a mistyped one, or undefined where none is near. */
export function nearest(word: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  // A third of the letters may be wrong; more is another word.
  let least = Math.max(1, Math.floor(word.length / 3)) + 1;
  for (const candidate of known) {
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase(), least);
    if (distance < least) [best, least] = [candidate, distance];
  }
  return best;
}

/** Insertions, deletions, substitutions and swaps of neighbours; gives up past `limit`. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let value = Math.min((previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        value = Math.min(value, (before[j - 2] ?? 0) + 1);
      row.push(value);
    }
    [before, previous] = [previous, row];
  }
  return previous[b.length] ?? limit;
}
