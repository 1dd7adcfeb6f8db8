/** The house keeps its arrows: what music is made of knows nothing of what is made with it. */
import { globSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** From the ground up: a room may import itself and rooms above it in this list. */
const ROOMS = [
  'diagnostics', 'time', 'instrument', 'harmony', 'score', 'notation', 'technique', 'curriculum', 'engrave', 'interchange',
  'course', 'site', 'command',
]; // biome-ignore format: one line to read
/** Only these may touch files, Astro or the machine. */
const OUTWARD = new Set(['course', 'site', 'command']);
const BROWSER_MAY = new Set(['time', 'instrument', 'harmony', 'score', 'browser']);

interface Arrow {
  readonly from: string;
  readonly to: string;
  readonly dynamic: boolean;
  /** Types alone, which nothing of the program keeps. */
  readonly types: boolean;
}

/** Run by hand when the music font changes, and no part of the program. */
const TOOLS = new Set(['src/engrave/glyphs/extract.ts']);
const files = globSync('{src,components}/**/*.{ts,astro,mjs}', { cwd: root }).filter(
  (file) => !file.endsWith('.d.ts') && !TOOLS.has(file),
);
const arrows: Arrow[] = [];
const outside: { from: string; to: string }[] = [];
for (const file of files) {
  const text = readFileSync(join(root, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
  for (const match of text.matchAll(
    /(import type [^;]*?)?(?:\bfrom\s+|\bimport\s+|\bimport\(\s*|new URL\(\s*)['"]([^'"]+)['"]/g,
  )) {
    const to = match[2] as string;
    const dynamic = /import\(|new URL/.test(match[0]);
    if (to.startsWith('.'))
      arrows.push({
        from: file,
        to: relative(root, join(root, dirname(file), to)),
        dynamic,
        types: match[1] !== undefined,
      });
    else outside.push({ from: file, to });
  }
}
const roomOf = (file: string): string => file.split('/')[1] ?? '';
const inSource = (file: string): boolean => file.startsWith('src/');

describe('the house', () => {
  test('has only the rooms on its plan', () => {
    const rooms = new Set(files.filter((file) => inSource(file) && file.split('/').length > 2).map(roomOf));
    expect([...rooms].filter((room) => !ROOMS.includes(room) && room !== 'browser')).toEqual([]);
  });

  test('has arrows that point down', () => {
    const wrong = arrows.filter(({ from, to }) => {
      if (!inSource(from) || !inSource(to)) return false;
      const [above, below] = [roomOf(from), roomOf(to)];
      if (above === below || !ROOMS.includes(above)) return false;
      // Pages name the scripts they carry.
      if (above === 'site' && below === 'browser') return false;
      return !ROOMS.includes(below) || ROOMS.indexOf(below) > ROOMS.indexOf(above);
    });
    expect(wrong).toEqual([]);
  });

  test('keeps files, Astro and the machine to its outer rooms', () => {
    const wrong = outside.filter(
      ({ from, to }) =>
        inSource(from) &&
        ROOMS.includes(roomOf(from)) &&
        !OUTWARD.has(roomOf(from)) &&
        /^(node:|astro|satteri|@astrojs|virtual:)/.test(to),
    );
    expect(wrong).toEqual([]);
  });

  test('sends the browser only what is small and pure, and the engraver only when asked', () => {
    const wrong = arrows.filter(({ from, to, dynamic, types }) => {
      if (!from.startsWith('src/browser/') || !inSource(to) || BROWSER_MAY.has(roomOf(to))) return false;
      return !(roomOf(to) === 'engrave' && (dynamic || types));
    });
    expect(wrong).toEqual([]);
    const heavy = arrows.filter(({ from, to }) => from.startsWith('src/browser/') && to === 'src/harmony/symbol.ts');
    expect(heavy).toEqual([]);
  });

  test('has no import cycle', () => {
    const next = new Map<string, string[]>();
    for (const { from, to } of arrows) next.set(from, [...(next.get(from) ?? []), to]);
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
