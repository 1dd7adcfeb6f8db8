/** The notices of a site, against what its scripts are bundled from. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { expect, test } from 'vitest';
import { licencesText, PACKAGES_IN_SITES } from '../../src/publish/licences.ts';
import { ROOT } from '../../src/publish/root.ts';

test('name every package whose code is in a script of the site', async () => {
  const { metafile } = await build({
    entryPoints: globSync('src/browser/**/*.ts', { cwd: ROOT }).map((file) => join(ROOT, file)),
    bundle: true,
    format: 'esm',
    write: false,
    metafile: true,
    outdir: 'unused',
    logLevel: 'silent',
  });
  const packages = Object.keys(metafile.inputs).flatMap(
    (file) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(file)?.[1] ?? [],
  );
  expect(Object.keys(metafile.inputs).length).toBeGreaterThan(30);
  // Vite adds a helper of its own, which only its bundles have.
  expect([...new Set([...packages, 'vite'])].sort()).toEqual([...PACKAGES_IN_SITES].sort());
});

test('carry the copyright lines and the whole licences', () => {
  const text = licencesText();
  const licences = ['LICENSE', 'src/engrave/glyphs/OFL.txt'];
  for (const file of licences) expect(text).toContain(readFileSync(join(ROOT, file), 'utf8').trim());
  expect(text).toContain('SIL OPEN FONT LICENSE Version 1.1');
  expect(text).toMatch(/Copyright \(c\) 2019-present.*Vite contributors/);
  // Of Vite, the licences of packages that only build sites are left out.
  expect(text).not.toContain('bundled dependencies');
});
