/** Modules import in one direction: what music is made of knows nothing of what is made with it. */
import { globSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** In order: a module may import from itself and from those before it in this list. */
const MODULES = [
  'values', 'diagnostics', 'texts', 'document', 'time', 'instrument', 'harmony', 'score', 'schedule', 'notation', 'technique', 'curriculum', 'engrave',
  'interchange', 'lesson', 'course', 'site', 'publish', 'command',
]; // biome-ignore format: one line to read
/** Only these may touch files and the machine. */
const READS_FILES = new Set(['lesson', 'course', 'site', 'publish', 'command']);
/** Only these may import Astro or Vite. */
const USES_ASTRO = new Set(['site', 'publish']);
const BROWSER_MAY = new Set(['texts', 'values', 'time', 'instrument', 'harmony', 'score', 'schedule', 'browser']);

/** The menu of files is on every page with a block; what makes the files is loaded when it is opened. */
const SAVE_MENU = 'src/browser/save/element.ts';
const isSaving = (file: string): boolean => file.startsWith('src/browser/save/');

interface Import {
  readonly from: string;
  readonly to: string;
  readonly dynamic: boolean;
  /** Types alone, of which nothing remains in the program. */
  readonly types: boolean;
}

/** Run by hand when the music font changes, and not part of the program. */
const TOOLS = new Set(['src/engrave/glyphs/extract.ts']);
const files = globSync('{src,components}/**/*.{ts,astro,mjs}', { cwd: root }).filter(
  (file) => !file.endsWith('.d.ts') && !TOOLS.has(file),
);
const imports: Import[] = [];
const packages: { from: string; to: string }[] = [];
for (const file of files) {
  const text = readFileSync(join(root, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
  for (const [whole, type, to = ''] of text.matchAll(
    /(import type [^;]*?)?(?:\bfrom\s+|\bimport\s+|\bimport\(\s*|new URL\(\s*)['"]([^'"]+)['"]/g,
  )) {
    if (!to.startsWith('.')) {
      packages.push({ from: file, to });
      continue;
    }
    const target = relative(root, join(root, dirname(file), to));
    imports.push({ from: file, to: target, dynamic: /import\(|new URL/.test(whole), types: type !== undefined });
  }
}
const moduleOf = (file: string): string => file.split('/')[1] ?? '';
const inSource = (file: string): boolean => file.startsWith('src/');

describe('the modules', () => {
  test('are those of the list, which the guide for maintainers has in the same order', () => {
    const found = new Set(files.filter((file) => inSource(file) && file.split('/').length > 2).map(moduleOf));
    expect([...found].filter((name) => !MODULES.includes(name) && name !== 'browser')).toEqual([]);
    const guide = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
    const listed = [...guide.matchAll(/^ {2}([a-z]+)\/ /gm)].map(([, name]) => name);
    expect(listed).toEqual([...MODULES.filter((name) => found.has(name)), 'browser']);
  });

  test('import only from modules before them', () => {
    const wrong = imports.filter(({ from, to }) => {
      if (!inSource(from) || !inSource(to)) return false;
      const [importer, imported] = [moduleOf(from), moduleOf(to)];
      if (importer === imported || !MODULES.includes(importer)) return false;
      // Pages name the scripts they carry.
      if (importer === 'site' && imported === 'browser') return false;
      return !MODULES.includes(imported) || MODULES.indexOf(imported) > MODULES.indexOf(importer);
    });
    expect(wrong).toEqual([]);
  });

  test('touch files, Astro and the machine only where they may', () => {
    const wrong = packages.filter(({ from, to }) => {
      if (!inSource(from) || !MODULES.includes(moduleOf(from))) return false;
      if (/^(node:|satteri)/.test(to)) return !READS_FILES.has(moduleOf(from));
      return /^(astro|vite|@astrojs|virtual:)/.test(to) && !USES_ASTRO.has(moduleOf(from));
    });
    expect(wrong).toEqual([]);
  });

  test('send the browser only what is small and pure, and the engraver only when asked', () => {
    const wrong = imports.filter(({ from, to, dynamic, types }) => {
      if (!from.startsWith('src/browser/') || !inSource(to) || BROWSER_MAY.has(moduleOf(to))) return false;
      if (moduleOf(to) === 'interchange') return !types && !isSaving(from);
      // A picture for a file is put together from what is drawn already.
      if (isSaving(from) && /^src\/engrave\/(?:picture\/|block\.css)/.test(to)) return false;
      // The worker itself starts only when asked.
      return !(moduleOf(to) === 'engrave' && (dynamic || types || from === 'src/browser/harp/worker.ts'));
    });
    expect(wrong).toEqual([]);
    const early = imports.filter(
      ({ from, to, dynamic, types }) => isSaving(to) && (!isSaving(from) || from === SAVE_MENU) && !dynamic && !types,
    );
    expect(early.filter(({ to }) => to !== SAVE_MENU)).toEqual([]);
    const heavy = imports.filter(({ from, to }) => from.startsWith('src/browser/') && to === 'src/harmony/symbol.ts');
    expect(heavy).toEqual([]);
  });

  test('have no import cycle', () => {
    const next = new Map<string, string[]>();
    for (const { from, to } of imports) next.set(from, [...(next.get(from) ?? []), to]);
    const done = new Set<string>();
    const cycles: string[] = [];
    const walk = (file: string, trail: readonly string[]): void => {
      const at = trail.indexOf(file);
      if (at !== -1) cycles.push([...trail.slice(at), file].join(' → '));
      if (at !== -1 || done.has(file)) return;
      for (const to of next.get(file) ?? []) walk(to, [...trail, file]);
      done.add(file);
    };
    for (const file of files) walk(file, []);
    expect(cycles).toEqual([]);
  });
});
