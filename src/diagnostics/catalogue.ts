/**
 * Catalogues of problems: one entry per code, with its severity and its words. Each module keeps the catalogue of its own
 * problems in a file `problems.ts`; `reporter` makes diagnostics of them.
 */
import type { Diagnostic, Fix, Severity, TextSpan } from './diagnostic.ts';
import { certainly, perhaps } from './edit.ts';

/** One kind of problem: how bad, what it is in general (for the reference page), and its words for the given facts. */
export interface ProblemKind<Facts> {
  readonly severity: Severity;
  /** What this problem is and why it is one, for the reference of messages. */
  readonly about: string;
  readonly message: (facts: Facts) => string;
  readonly help?: (facts: Facts) => string | undefined;
  /** The same as edits, where facts and place say enough for that; otherwise who reports the problem may give them. */
  readonly fix?: (facts: Facts, span: TextSpan) => Fix | undefined;
}

/** A catalogue of kinds by code. Each subject keeps its own beside its code. */
// biome-ignore lint/suspicious/noExplicitAny: each kind takes facts of its own shape; `report` checks them.
export type Catalogue = Readonly<Record<string, ProblemKind<any>>>;

type FactsOf<K> = K extends ProblemKind<infer Facts> ? Facts : never;

/** A reporter for one catalogue: makes a diagnostic of a code, its place and its facts, and perhaps of a fix. */
export const reporter =
  <C extends Catalogue>(catalogue: C) =>
  <Code extends keyof C & string>(code: Code, span: TextSpan, facts: FactsOf<C[Code]>, given?: Fix): Diagnostic => {
    const kind: ProblemKind<FactsOf<C[Code]>> | undefined = catalogue[code];
    if (!kind) throw new RangeError(`no problem is called ${code}`);
    const help = kind.help?.(facts);
    const fix = given ?? kind.fix?.(facts, span);
    return {
      code,
      severity: kind.severity,
      message: readable(kind.message(facts)),
      span,
      ...(help === undefined ? {} : { help: readable(help) }),
      ...(fix === undefined ? {} : { fix }),
    };
  };

/** A sentence that a person can read, whatever it repeats from a file: words and sentences without end are cut short. */
const readable = (sentence: string): string => {
  const cut = sentence.replace(/\S{200,}/gu, (word) => `${word.slice(0, 120)}…${word.slice(-20)}`);
  return cut.length > 2000 ? `${cut.slice(0, 2000)}…` : cut;
};

const kindOf =
  (severity: Severity) =>
  <Facts>(words: Omit<ProblemKind<Facts>, 'severity'>): ProblemKind<Facts> => ({ severity, ...words });

/** An entry of a catalogue: makes the site wrong, so nothing is published. */
export const error = kindOf('error');
/** An entry of a catalogue: probably a mistake; an error in a strict check. */
export const warning = kindOf('warning');
/** An entry of a catalogue: worth knowing, and perhaps meant. */
export const hint = kindOf('hint');

/** A fact of many problems: the known name nearest to the one that was written, if one is near. */
export interface Near {
  readonly nearest: string | undefined;
  /** Whether that is what had the written name before. */
  readonly renamed?: true;
}

/** A suggested fix for a name that nobody knows. */
export const didYouMean = ({ nearest, renamed }: Near): string | undefined =>
  nearest === undefined ? undefined : renamed ? `It is called “${nearest}” now.` : `Did you mean “${nearest}”?`;

/** The same as edits. A name that is near need not be the one that was meant; what had the written name before is. */
export const nearestInstead = ({ nearest, renamed }: Near, span: TextSpan): Fix | undefined =>
  nearest === undefined ? undefined : (renamed ? certainly : perhaps)(span, nearest);

/** A number of things: `1 bar`, `2 bars`. */
export const plural = (count: number, thing: string, things = `${thing}s`): string =>
  `${count} ${count === 1 ? thing : things}`;
