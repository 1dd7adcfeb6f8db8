/** The package this is: its folder (the clone, or where it was installed) and its version. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { fieldOf } from '../document/unknown.ts';

/** The nearest folder above this file that holds a package.json. */
export const PACKAGE = ((): string => {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) folder = dirname(folder);
  return folder;
})();

/** The course that comes with Reedway. */
export const DEMO = join(PACKAGE, 'content');

/** The version of this package. */
export const packageVersion = (): string =>
  String(fieldOf(JSON.parse(readFileSync(join(PACKAGE, 'package.json'), 'utf8')), 'version'));
