/** Folders and files stay small enough to be found by their names and read in one sitting. */
import { globSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const MOST_FILES = 24;
const MOST_LINES = 400;

/** Tables: one row after the other, which nobody reads from the first line to the last. */
const TABLES = new Set([
  'src/technique/catalogue.ts',
  'src/engrave/glyphs/outlines.ts',
  'src/engrave/grid-sizes.css',
  'src/notation/problems.ts',
  'tests/notation/problems.test.ts',
  'tests/course/problems.test.ts',
]);

const files = globSync('{src,components,tests,bench}/**/*.{ts,astro,css}', { cwd: root });

test(`no folder has more than ${MOST_FILES} source files`, () => {
  const folders = Map.groupBy(files, (file) => dirname(file));
  const large = [...folders].filter(([, inside]) => inside.length > MOST_FILES);
  expect(large.map(([folder, inside]) => `${folder}: ${inside.length}`)).toEqual([]);
});

test(`no file has more than ${MOST_LINES} lines, except tables`, () => {
  const long = files.flatMap((file) => {
    const lines = readFileSync(join(root, file), 'utf8').split('\n').length - 1;
    return lines > MOST_LINES && !TABLES.has(file) && !file.startsWith('tests/mistakes/') ? [`${file}: ${lines}`] : [];
  });
  expect(long).toEqual([]);
});
