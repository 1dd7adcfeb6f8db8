/** What a test of one subject looks at: the problems of its subject, and errors of every other, which nothing else may hide. */
import type { Catalogue } from '../../src/diagnostics/catalogue.ts';
import type { Problem } from '../../src/diagnostics/place.ts';

/**
 * Leaves out hints and warnings of other catalogues, so that a check that is added to the course does not fail the tests of
 * everything that it has something to say of.
 */
export const ownProblems = (problems: readonly Problem[], ...catalogues: readonly Catalogue[]): readonly Problem[] =>
  problems.filter(
    ({ code, severity }) => severity === 'error' || catalogues.some((catalogue) => Object.hasOwn(catalogue, code)),
  );
