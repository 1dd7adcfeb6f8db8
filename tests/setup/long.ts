/** Two runs of one set of tests: `npm test` tries a few cases of what has many, `npm run test:long` tries them all. */

/** The name of the variable that asks for the long run. */
const RUN = 'REEDWAY_TESTS';

export const LONG = process.env[RUN] === 'long';

/** A run for each of many changes to a module (bench/mutants): fewer cases, always the same. */
export const FOR_MUTANTS = process.env[RUN] === 'mutants';

/** What a test tries in `npm test`, and what it tries besides in the long run. */
export const alsoLong = <T>(always: readonly T[], long: readonly T[]): readonly T[] =>
  LONG ? [...always, ...long] : always;

/** How many cases a test tries in `npm test`, and in the long run. */
export const cases = (short: number, long: number): number =>
  LONG ? long : FOR_MUTANTS ? Math.ceil(short / 5) : short;
