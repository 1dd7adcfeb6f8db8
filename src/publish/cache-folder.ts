/** Where what can be made again is kept between runs: beside the packages, or in the user's cache where those cannot be written. */
import { createHash } from 'node:crypto';
import { accessSync, constants, mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from './root.ts';

/** The folder for caches, which is created. Throws if no such folder can be written. */
export function cacheFolder(): string {
  for (const folder of [join(ROOT, 'node_modules', '.cache', 'reedway'), userCache()]) {
    try {
      mkdirSync(folder, { recursive: true });
      accessSync(folder, constants.W_OK);
      return folder;
    } catch {
      // The next one, or none.
    }
  }
  throw new Error('No folder for temporary files can be written.');
}

/** The user's own, apart for each place Reedway is installed in. */
function userCache(): string {
  const place = createHash('sha256').update(ROOT).digest('hex').slice(0, 8);
  return join(process.env['XDG_CACHE_HOME'] || join(homedir(), '.cache'), 'reedway', place);
}
