/** Before each test file: properties try the same cases for every mutant, and no mutant meets what another has left behind. */
import fc from 'fast-check';
import { inject, vi } from 'vitest';

declare module 'vitest' {
  interface ProvidedContext {
    /** Of Stryker. */
    activeMutant: string | undefined;
    mode: 'dry-run' | 'mutant' | undefined;
  }
}

fc.configureGlobal({ seed: 1, endOnFailure: true });

const mutant = inject('activeMutant');
// The thread outlives a mutant, and its modules hold what they have computed with it.
if (Reflect.get(globalThis, 'lastMutant') !== mutant) vi.resetModules();
Reflect.set(globalThis, 'lastMutant', mutant);
