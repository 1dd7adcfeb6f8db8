/**
 * A short name for the present state of our own program: what it made is cached apart for each state. It is a digest of all
 * of our code and of the versions of all packages, not of a list of what matters, which would have to be kept right by hand.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fieldOf } from '../../document/unknown.ts';
import { ROOT } from '../root.ts';

/** Every file of `src` and `components`, and the lock file or, where the package is installed without one, the versions it found. */
export function ownCode(root = ROOT): string {
  const hash = createHash('sha256');
  for (const folder of ['src', 'components']) {
    for (const name of readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).sort()) {
      const file = join(root, folder, name);
      if (CODE.test(name)) hash.update(`\0${folder}/${name}\0`).update(readFileSync(file));
    }
  }
  const lock = join(root, 'package-lock.json');
  hash.update(existsSync(lock) ? readFileSync(lock) : installedVersions(root));
  return hash.digest('hex').slice(0, 16);
}

/** Folders have no such ending; pictures and guides change nothing that is cached. */
const CODE = /\.(?:ts|astro|css|json|js|mjs)$/;

function installedVersions(root: string): string {
  const file = join(root, 'package.json');
  const dependencies = fieldOf(JSON.parse(readFileSync(file, 'utf8')), 'dependencies');
  if (typeof dependencies !== 'object' || dependencies === null) throw new Error(`${file} names no dependencies.`);
  return Object.keys(dependencies)
    .map((name) => `${name}@${versionOf(name, root)}`)
    .join('\n');
}

function versionOf(name: string, root: string): string {
  const paths = createRequire(join(root, 'package.json')).resolve.paths(name) ?? [];
  const file = paths.map((path) => join(path, name, 'package.json')).find((path) => existsSync(path));
  if (file === undefined) throw new Error(`The package ${name} is not installed.`);
  return String(fieldOf(JSON.parse(readFileSync(file, 'utf8')), 'version'));
}
