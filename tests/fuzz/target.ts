/** What a fuzzer is: random cases, and what must be true of each. */
import type fc from 'fast-check';

/** A part of the program that is given random cases. A case is a value that JSON can hold, so that it can be kept in a file. */
export interface Target<Case = unknown> {
  readonly name: string;
  readonly cases: fc.Arbitrary<Case>;
  /** Throws, or rejects, where the program does what it must not. */
  check(value: Case): void | Promise<void>;
  /** Starts what all cases need, such as a server; called once before the first. */
  start?(): Promise<void>;
  stop?(): Promise<void>;
  /** Seconds after which a case counts as hanging, on a machine that is busy with other things. */
  readonly patience: number;
  /** How many cases are tried with one seed. */
  readonly batch: number;
}

/** A failure of the program, as against one of the test. */
export function demand(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Error(what);
}

const typed = <Case>(target: Target<Case>): Target => target as unknown as Target;

/** Each target, loaded when it is asked for. */
export const TARGETS: Readonly<Record<string, () => Promise<Target>>> = {
  blocks: async () => typed((await import('./blocks.ts')).blocks),
  courses: async () => typed((await import('./courses.ts')).courses),
  lessons: async () => typed((await import('./lessons.ts')).lessons),
  pages: async () => typed((await import('./pages.ts')).pages),
  storage: async () => typed((await import('./storage.ts')).storage),
  host: async () => typed((await import('./servers.ts')).host),
  serve: async () => typed((await import('./servers.ts')).serve),
};
