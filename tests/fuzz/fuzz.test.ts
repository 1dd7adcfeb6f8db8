/** Every case that a fuzzer once found is checked again, and a few new ones of every target that needs no server. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../setup/long.ts';
import { keptReproducers } from './reproducers.ts';
import { checkWithin } from './target.ts';
import { TARGETS, targetOf } from './targets.ts';

describe('what a fuzzer found does not come back', () => {
  test.each(keptReproducers().filter(({ target }) => targetOf(target).pure))('$file', async ({ target, value }) => {
    await expect(checkWithin(targetOf(target), value)).resolves.toBeUndefined();
  });
});

test.each(TARGETS.filter(({ pure }) => pure))('$name: nothing fails in a few new cases', async (target) => {
  await fc.assert(
    fc.asyncProperty(target.cases, (value) => checkWithin(target, value)),
    { numRuns: cases(60, 2000) },
  );
});
