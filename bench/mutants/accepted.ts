/** Mutants that no test is to notice, each with the reason. */
export interface Accepted {
  /** From `src`. */
  readonly file: string;
  readonly original: string;
  readonly replacement: string;
  /** What the line of the place contains, where the same change can be made elsewhere in the file. */
  readonly line?: string;
  readonly why: string;
}

/** Rows as they are written here: a file, a reason, and the changes it is the reason of. */
const accept = (
  file: string,
  why: string,
  ...changes: readonly (readonly [original: string, replacement: string, line?: string])[]
): Accepted[] =>
  changes.map(([original, replacement, line]) => ({
    file,
    original,
    replacement,
    ...(line === undefined ? {} : { line }),
    why,
  }));

export const ACCEPTED: readonly Accepted[] = [
  ...accept('time/fraction.ts', 'Zero is refused above.', ['d < 0', 'd <= 0', 'gcd(n, d)']),
];
