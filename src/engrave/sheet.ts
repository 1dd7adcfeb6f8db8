/** The outlines of a page's blocks. Apart from the engraver: a page whose blocks were engraved before needs this alone. */
import { DEGREES } from '../harmony/chord.ts';
import { itemAt } from '../values/checked.ts';
import { OUTLINES } from './glyphs/outlines.ts';
import { SHAPES } from './role-shape.ts';

/** The elements that blocks draw by their ids. */
export function outlinesOf(glyphs: Iterable<string>): string {
  const paths = [...new Set(glyphs)].sort().map((name) => {
    const shape = /^s([1-7])$/.exec(name);
    if (shape) return `<path id="${name}" d="${SHAPES[itemAt(DEGREES, Number(shape[1]) - 1)].path}"/>`;
    const outline = OUTLINES[name];
    if (!outline) throw new Error(`no outline is called ${name}`);
    return `<path id="g-${name}" d="${outline[5]}"/>`;
  });
  return paths.join('');
}

/** One hidden picture for each page, with every outline its blocks draw. */
export function glyphSheet(glyphs: Iterable<string>): string {
  // Not display: none, which would take the outlines away from what uses them.
  return `<svg class="sheet" width="0" height="0" aria-hidden="true" focusable="false"><defs>${outlinesOf(glyphs)}</defs></svg>`;
}
