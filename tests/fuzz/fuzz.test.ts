/** Every case that a fuzzer once found is checked again. */
import { describe, expect, test } from 'vitest';
import { keptReproducers } from './reproducers.ts';
import { checkWithin } from './target.ts';
import { targetOf } from './targets.ts';

describe('what a fuzzer found does not come back', () => {
  test.each(keptReproducers().filter(({ target }) => targetOf(target).pure))('$file', async ({ target, value }) => {
    await expect(checkWithin(targetOf(target), value)).resolves.toBeUndefined();
  });
});
