/**
 * A build that dies at its nth call to the disk: `node killed-build.ts TARGET N before|after`. It publishes a site of two files.
 * Prints how many calls it made, if it lives that long.
 */
import { writeFileSync } from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';
import { join } from 'node:path';

const [, , target = '', limit = '0', when] = process.argv;
const die = (): void => {
  process.kill(process.pid, 'SIGKILL');
};

let calls = 0;
for (const name of ['mkdir', 'rename', 'rm', 'unlink', 'writeFile'] as const) {
  const call = promises[name] as (...given: unknown[]) => Promise<unknown>;
  Object.assign(promises, {
    [name]: async (...given: unknown[]) => {
      calls++;
      if (calls === Number(limit) && when === 'before') die();
      const result = await call(...given);
      if (calls === Number(limit)) die();
      return result;
    },
  });
}
syncBuiltinESMExports();

// Only now: the module takes its functions from what was changed.
const { claimOutput, isRefusal } = await import('../../../src/publish/output/claim.ts');
const claim = await claimOutput(target);
if (isRefusal(claim)) throw new Error(claim.refused);
for (const name of ['index.html', 'other.html']) writeFileSync(join(claim.staging, name), 'new');
const refusal = await claim.publish('/');
if (refusal) throw new Error(refusal.refused);
await claim.release();
console.log(calls);
