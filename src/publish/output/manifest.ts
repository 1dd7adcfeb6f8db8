/**
 * A file at the root of every site we make. It lists the site's files, so that no build removes what somebody else put
 * there.
 */
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { fieldOf } from '../../document/unknown.ts';

/** The name of the file. */
export const MANIFEST = '.reedway-site';

/** The list of published files, by which a later build knows what it may remove. */
export interface Manifest {
  readonly madeBy: 'Reedway';
  readonly base: string;
  readonly files: readonly string[];
}

/** The manifest of a site that Reedway built, or undefined for any other folder. */
export async function readManifest(folder: string): Promise<Manifest | undefined> {
  try {
    const value: unknown = JSON.parse(await readFile(join(folder, MANIFEST), 'utf8'));
    return isManifest(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

/** Writes the manifest of the site in a folder. A folder that has one is complete. */
export async function writeManifest(folder: string, base: string): Promise<void> {
  const manifest: Manifest = { madeBy: 'Reedway', base, files: await filesOf(folder) };
  await writeFile(join(folder, MANIFEST), `${JSON.stringify(manifest, null, 1)}\n`);
}

function isManifest(value: unknown): value is Manifest {
  const field = (key: keyof Manifest): unknown => fieldOf(value, key);
  return field('madeBy') === 'Reedway' && typeof field('base') === 'string' && Array.isArray(field('files'));
}

/** Files that file managers create in any folder they show. */
export const LITTER: ReadonlySet<string> = new Set(['.DS_Store', 'Thumbs.db', 'desktop.ini']);

/** Every file below a folder, relative and with forward slashes, in a fixed order. */
export async function filesOf(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory() && !LITTER.has(entry.name))
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((file) => file !== MANIFEST)
    .sort();
}

/** The files of a site that its build did not put there. Empty for a folder that has no manifest. */
export async function foreignFiles(folder: string): Promise<string[]> {
  const manifest = await readManifest(folder);
  if (!manifest) return [];
  const known = new Set(manifest.files);
  return (await filesOf(folder)).filter((file) => !known.has(file));
}
