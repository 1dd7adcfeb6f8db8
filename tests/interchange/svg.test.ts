import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { svgOf } from '../../src/interchange/svg.ts';
import { parsed, SAME_BLOCKS, scoreOf } from '../engrave/pictures.ts';
import { blockText } from '../notation/arbitrary.ts';

/** The parser of pages puts the namespace in itself. */
const pageOf = (svg: string): Document => parsed(svg.replace(' xmlns="http://www.w3.org/2000/svg"', ''));

const css = readFileSync(new URL('../../src/engrave/block.css', import.meta.url), 'utf8');

describe('a picture in a file of its own', () => {
  test('holds every outline that it draws, and its style without anything that other programs do not know', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const svg = svgOf(scoreOf(text), { title: 'A & B' }, css);
        const page = pageOf(svg);
        for (const use of page.querySelectorAll('use')) {
          const id = use.getAttribute('href')?.slice(1) ?? '';
          expect(page.getElementById(id), id).not.toBeNull();
        }
        const style = page.querySelector('style')?.textContent ?? '';
        expect(style).not.toMatch(/var\(|color-mix|@|calc|inherit/);
        expect(style).toMatch(/\.r1\{fill:#0072b2/);
        expect(svg).not.toMatch(/NaN|undefined/);
      }),
      { ...SAME_BLOCKS, numRuns: 20 },
    );
  });
  test('has four bars to a row, and a head before each row', () => {
    const page = pageOf(
      svgOf(scoreOf('slot: 1/4\n4 4 4 4 | 4 4 4 4 | 4 4 4 4 | 4 4 4 4 | 4 4 4 4 |]'), { title: 'A' }, css),
    );
    const rows = Map.groupBy(page.querySelectorAll('svg.ps'), (staff) => staff.getAttribute('y'));
    expect([...rows.values()].map((row) => row.length)).toEqual([5, 2]);
    expect([...rows.values()].map(([head]) => head?.querySelectorAll('.row-head-line').length)).toEqual([2, 1]);
    expect(page.querySelector('title')?.textContent).toMatch(/^Tab for a C harp/);
  });
});
