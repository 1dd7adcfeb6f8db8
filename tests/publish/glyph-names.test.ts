import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { usedGlyphNames } from '../../src/publish/glyph-names.ts';

/** What the plugin makes of a module; undefined where it leaves it alone. */
function transformed(code: string, id: string): string | undefined {
  const { transform } = usedGlyphNames();
  if (typeof transform !== 'function') throw new TypeError('The plugin has no function for a module.');
  const made: unknown = Reflect.apply(transform, undefined, [code, id]);
  return made === undefined ? undefined : String(Reflect.get(Object(made), 'code'));
}

test('names that no module beside the table has are left out of it', () => {
  const folder = join(mkdtempSync(join(inject('scratch'), 'glyphs-')), 'vexflow/build/esm/src');
  mkdirSync(folder, { recursive: true });
  const table = join(folder, 'glyphs.js');
  const entry = (name: string): string => `    Glyphs["${name}"] = "\\uE000";`;
  const code = `var Glyphs;\n${['used', 'idle', 'noted'].map(entry).join('\n')}\nexport { Glyphs };\n`;
  writeFileSync(table, code);
  writeFileSync(join(folder, 'note.js'), 'const a = Glyphs.used; // unused');
  writeFileSync(join(folder, 'note.txt'), 'idle');
  writeFileSync(join(folder, 'clef.js'), 'Glyphs["noted"]');
  const made = `var Glyphs;\n${entry('used')}\n\n${entry('noted')}\nexport { Glyphs };\n`;
  expect(transformed(code, table)).toBe(made);
  expect(transformed(code, `${table}?v=1`)).toBe(made);
  expect(transformed(code, join(folder, 'note.js'))).toBeUndefined();
});
