/** Cases that once failed, and a few new ones of every fuzzer that needs no server. */
import { globSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { present } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';
import { TARGETS } from './target.ts';

const folder = fileURLToPath(new URL('reproducers/', import.meta.url));
const kept = globSync('*/*.json', { cwd: folder }).sort();
/** Servers and builds are started by the fuzzers alone. */
const QUICK = ['blocks', 'courses', 'lessons', 'storage'];

describe('what failed once does not fail again', () => {
  test('every kept case is of a target that is tried here', () => {
    expect(kept.map(dirname).filter((name) => !Object.hasOwn(TARGETS, name))).toEqual([]);
  });
  test.each(kept.filter((file) => QUICK.includes(dirname(file))))('%s', async (file) => {
    const target = await present(TARGETS[dirname(file)], file)();
    await target.check(JSON.parse(readFileSync(`${folder}${file}`, 'utf8')));
  });
});

test.each(QUICK)('%s: nothing fails in a few new cases', async (name) => {
  const target = await present(TARGETS[name], name)();
  await fc.assert(
    fc.asyncProperty(target.cases, async (value) => target.check(value)),
    { numRuns: cases(60, 2000) },
  );
});
