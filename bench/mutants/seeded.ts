/** Properties try the same cases for every mutant, so that a run can be repeated. */
import fc from 'fast-check';

fc.configureGlobal({ seed: 1, endOnFailure: true });
