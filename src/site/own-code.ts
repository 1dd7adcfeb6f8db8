/** What our own program is at the moment, as a short name: things it made are kept apart for each state of it. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folders of `src` that decide what a block is, what it takes, how it is engraved and where a map has it, and the packages that do. */
const FOLDERS = [
  'diagnostics',
  'time',
  'instrument',
  'harmony',
  'score',
  'notation',
  'technique',
  'curriculum',
  'engrave',
  'course',
];
const PACKAGES = ['vexflow', 'tonal', '@dagrejs/dagre'];

export function ownCode(): string {
  const hash = createHash('sha256');
  const src = fileURLToPath(new URL('..', import.meta.url));
  for (const folder of FOLDERS) {
    for (const name of readdirSync(join(src, folder), { recursive: true, encoding: 'utf8' }).sort()) {
      if (/\.(ts|js|json)$/.test(name)) hash.update(`${folder}/${name}`).update(readFileSync(join(src, folder, name)));
    }
  }
  for (const name of PACKAGES) hash.update(`${name}@${versionOf(name)}`);
  return hash.digest('hex').slice(0, 16);
}

function versionOf(name: string): string {
  // Not every package lets its package.json be asked for: the nearest one above its entry is it.
  let folder = createRequire(import.meta.url).resolve(name);
  for (;;) {
    folder = join(folder, '..');
    try {
      const about: unknown = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
      if (about instanceof Object && 'name' in about && about.name === name && 'version' in about)
        return String(about.version);
    } catch {
      if (folder === join(folder, '..')) throw new Error(`The package ${name} is not installed.`);
    }
  }
}
