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

export const ACCEPTED: readonly Accepted[] = [];
