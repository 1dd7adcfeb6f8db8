/** The notices that come with a site: the licences of what others made and every site contains. */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { ROOT } from './root.ts';

/** One work of others in a built site. */
interface Work {
  readonly name: string;
  /** The package it comes from, where it is one. */
  readonly package?: string;
  /** What of it is in the site. */
  readonly use: string;
  readonly licence: () => string;
}

const require = createRequire(import.meta.url);

/** A file of an installed package, found from what the package exports. */
function fileOf(name: string, file: string, from: NodeJS.Require = require): string {
  let folder = dirname(from.resolve(name));
  while (!existsSync(join(folder, file)) && folder !== dirname(folder)) folder = dirname(folder);
  return readFileSync(join(folder, file), 'utf8');
}

const WORKS: readonly Work[] = [
  {
    name: 'Reedway',
    use: 'The scripts and styles of this site.',
    licence: () => readFileSync(join(ROOT, 'LICENSE'), 'utf8'),
  },
  {
    name: 'Music font outlines',
    use: 'Noteheads, clefs and other signs are outlines derived from a music font.',
    licence: () => readFileSync(join(ROOT, 'src/engrave/glyphs/OFL.txt'), 'utf8'),
  },
  {
    name: 'Vite',
    package: 'vite',
    use: 'Loads the parts of the scripts when they are needed.',
    // The file goes on with the licences of packages that only build sites.
    licence: () => {
      const [own = ''] = fileOf('vite', 'LICENSE.md', createRequire(require.resolve('astro/package.json'))).split(
        '# Licenses of bundled dependencies',
      );
      return own.replace(/^# .*\n/, '');
    },
  },
];

/** The packages of others whose code may be in the scripts of a site. */
export const PACKAGES_IN_SITES: readonly string[] = WORKS.flatMap(({ package: name }) => name ?? []);

/** The text of the notices. Throws if the licence of a package cannot be read: without it nothing may be published. */
export const licencesText = (): string =>
  `${[
    'This site was made with Reedway and contains the works of others named here. The course itself belongs to its author; the foot of each page says under which licence.',
    ...WORKS.map(({ name, use, licence }) => `${'='.repeat(72)}\n${name}\n${use}\n\n${licence().trim()}`),
  ].join('\n\n')}\n`;
