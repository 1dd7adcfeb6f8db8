/** One name has one meaning: no two modules export the same name. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const EXPORT = /^export (?:declare )?(?:async )?(?:const|function\*?|interface|type|class) (\w+)/gm;

/** Every command exports its `command`; a page exports what Astro calls. */
const SHARED = new Set(['command', 'GET']);

test('no exported name is declared twice', () => {
  const files = globSync('src/**/*.ts', { cwd: root });
  const exported = files.flatMap((file) =>
    [...readFileSync(join(root, file), 'utf8').matchAll(EXPORT)].map(([, name = '']) => ({ name, file })),
  );
  expect(exported.length).toBeGreaterThan(900);
  // An overloaded function is declared once for each signature, in one file.
  const byName = Map.groupBy(exported, ({ name }) => name);
  const twice = [...byName].filter(([name, all]) => !SHARED.has(name) && new Set(all.map(({ file }) => file)).size > 1);
  expect(twice.map(([name, all]) => `${name}: ${all.map(({ file }) => file).join(', ')}`)).toEqual([]);
});
