/**
 * VexFlow names all of the nearly three thousand glyphs of its standard, and uses two hundred. In the engraver that a
 * student's browser loads, the names that none of its modules contains are left out: a seventh of its size.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';

const TABLE = /vexflow\/build\/esm\/src\/glyphs\.js$/;
const ENTRY = /^\s*Glyphs\["(\w+)"\] = .*;$/gm;

/** A Vite plugin that keeps only the glyph names in use in the browser's engraver. */
export const usedGlyphNames = (): Plugin => ({
  name: 'reedway-used-glyph-names',
  transform(code, id) {
    const [path = ''] = id.split('?');
    if (!TABLE.test(path)) return undefined;
    const words = wordsBeside(path);
    return { code: code.replace(ENTRY, (line, name: string) => (words.has(name) ? line : '')), map: null };
  },
});

/** Every word in the modules beside the table: a name that is used is among them. */
function wordsBeside(table: string): ReadonlySet<string> {
  const folder = dirname(table);
  const words = new Set<string>();
  for (const name of readdirSync(folder)) {
    if (!name.endsWith('.js') || join(folder, name) === table) continue;
    for (const [word] of readFileSync(join(folder, name), 'utf8').matchAll(/\w+/g)) words.add(word);
  }
  return words;
}
