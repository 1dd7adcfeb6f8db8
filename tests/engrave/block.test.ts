import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { engraveBlock, glyphSheet } from '../../src/engrave/block.ts';
import { SIZE } from '../../src/engrave/columns.ts';
import { headWidths } from '../../src/engrave/row-head.ts';
import { ROW_WIDTHS } from '../../src/engrave/tile-width.ts';
import { signatureOf } from '../../src/harmony/key.ts';
import { LETTERS } from '../../src/instrument/pitch.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import { blockText } from '../notation/arbitrary.ts';
import { parsed, pictureOf, SAME_BLOCKS, scoreOf, textsIn } from './pictures.ts';

const CHORUS = `harp: A
position: 2
form: twelve-bar

-2 . -3' > -3 -4 = 4 . | -2 = = = . . . . | -2 . -3' > -3 -4 = 4 . | -5 = -4 = -2 = . . |
-3'' = = -3' = = -2 . | -2 = = = . . . . | -2 . -3' > -3 -4 = 4 . | -2 = = = . . . . |
-4 = -4' = 4 = -3 . | -3'' = = -3' = = -2 . | -2 . -3' > -3 -4 = 4 . | -2 = = = = = . . |]
`;

describe('an engraved block', () => {
  it('is well-formed XML, with every outline it uses in its sheet and every id once', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { page } = pictureOf(text);
        const ids = [...page.querySelectorAll('[id]')].map((element) => element.id);
        expect(new Set(ids).size).toBe(ids.length);
        for (const use of page.querySelectorAll('use')) expect(ids).toContain(use.getAttribute('href')?.slice(1));
      }),
      SAME_BLOCKS,
    );
  });

  it('comes out the same, byte for byte, whatever was engraved before it', () => {
    fc.assert(
      fc.property(blockText, blockText, (one, other) => {
        const score = scoreOf(one);
        const first = engraveBlock(score, { id: 'b' });
        engraveBlock(scoreOf(other), { id: 'c' });
        expect(engraveBlock(score, { id: 'b' })).toEqual(first);
      }),
      SAME_BLOCKS,
    );
  });

  it('gives each bar a tile and each sounding event groups in it that a player finds by its index', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { score, page, tiles } = pictureOf(text);
        const bars = [...new Set(tiles.map((tile) => tile.getAttribute('data-bar')))];
        expect(bars).toEqual(score.bars.map((bar) => String(bar.index)));
        for (const bar of score.bars) {
          for (const own of bar.events.filter(isSoundEvent)) {
            const groups = [...page.querySelectorAll(`[data-event="${own.index}"]`)];
            expect(groups.length).toBeGreaterThan(1);
            for (const group of groups)
              expect(group.closest('.tile')?.getAttribute('data-bar')).toBe(String(bar.index));
          }
          const chords = [...page.querySelectorAll(`[data-bar="${bar.index}"] [data-chord]`)];
          expect(chords.map((chord) => chord.getAttribute('data-chord'))).toEqual(
            bar.chords.map((_, index) => String(index)),
          );
        }
      }),
      SAME_BLOCKS,
    );
  });

  it('has tiles of one width but for a pickup, each with a staff and lanes', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { tiles } = pictureOf(text);
        for (const tile of tiles) {
          const widths = [...tile.querySelectorAll('svg')].map((part) => part.getAttribute('viewBox')?.split(' ')[2]);
          expect(new Set(widths).size).toBe(1);
          expect(tile.querySelectorAll('.ps, .pl').length).toBe(2);
        }
        const bars = tiles.filter((tile) => !tile.closest('.row-start'));
        expect(new Set(bars.map(widthOfTile)).size).toBe(1);
      }),
      SAME_BLOCKS,
    );
  });

  it('carries no style attribute and no script, which the pages forbid', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { page } = pictureOf(text);
        expect(page.querySelectorAll('[style], script, style, [onclick]').length).toBe(0);
      }),
      SAME_BLOCKS,
    );
  });

  it('escapes what an author wrote', () => {
    const nasty = '<b onclick="x">&amp; \'q\' "z"';
    const { page, html } = pictureOf(
      `title: ${nasty}\nharp: C\nslot: 1/4\n\npart: ${nasty}\n4 4 4 4\nwords: <i> & " '`,
    );
    expect(html).not.toMatch(/<b |<i>/);
    expect(textsIn(page.documentElement, '.p')).toEqual([nasty]);
    expect(textsIn(page.documentElement, '.y')).toEqual(['<i>', '&', '"', "'"]);
    expect(page.querySelector('.tab-block')?.getAttribute('aria-label')).toContain(nasty);
  });

  it('says in words what the tiles hide from a screen reader', () => {
    const { page } = pictureOf(CHORUS);
    expect(page.querySelector('.tab-grid')?.getAttribute('aria-hidden')).toBe('true');
    expect(textsIn(page.documentElement, '.tab-words li').length).toBe(12);
  });

  it('cuts a bar too crowded for a tile in two, at a beat', () => {
    const { tiles } = pictureOf(
      "harp: C\nposition: 2\nslot: 1/16\nchords: I7\n\n-3' -3 -3' -3 -4' -4 -4' -4 -3' -3 -3' -3 -4' -4 -4' -4 | -2 = = = = = = = = = = = . . . .",
    );
    expect(tiles.map((tile) => tile.getAttribute('data-bar'))).toEqual(['0', '0', '1']);
    expect(tiles.slice(0, 2).map((tile) => tile.querySelectorAll('.ps [data-event]').length)).toEqual([8, 8]);
  });

  it('chooses narrow tiles for light bars and wide ones for dense bars', () => {
    const sizeOf = (text: string): number =>
      Number(/ w(\d)/.exec(pictureOf(text).page.querySelector('.tab-block')?.getAttribute('class') ?? '')?.[1]);
    const [light, even, dense] = [
      sizeOf('harp: C\nslot: 1/4\n\n4 -4 5 -5 | 6 = = ='),
      sizeOf('harp: C\n\n4 -4 5 -5 6 -6 6 -5'),
      sizeOf('harp: C\nform: twelve-bar bars 1-1\nposition: 2\n\n{-4 -5 -4}2 {-4 -5 -4}2 {-4 -5 -4}2 {-3 -3 -2}2'),
    ] as const;
    expect(light).toBeLessThan(even);
    expect(even).toBeLessThan(dense);
  });

  it('puts a final bar line at its end, whatever the author wrote there but a repeat or a double one', () => {
    const thick = (end: string): number =>
      pictureOf(`harp: C\nslot: 1/4\n\n4 4 4 4 | 4 4 4 4 ${end}`).tiles.at(-1)?.querySelectorAll('.ps .B').length ?? 0;
    expect(['', '|', '|]', '||'].map(thick)).toEqual([1, 1, 1, 0]);
  });

  it('refuses an outline it has not got', () => {
    expect(() => glyphSheet(['e999'])).toThrow('e999');
    expect(parsed(glyphSheet(['s3', 's3', 'e0a4'])).querySelectorAll('path').length).toBe(2);
  });
});

/** A number of pixels of the drawing as a length of the style sheet, in which one is a twentieth of a rem. */
const rem = (pixels: number): string => `${Math.round(pixels * 500) / 10000}rem`;

const widthOfTile = (tile: Element): string | undefined =>
  tile.querySelector('svg')?.getAttribute('viewBox')?.split(' ')[2];

describe('the style sheet', () => {
  const css = ['block', 'grid', 'grid-sizes']
    .map((name) => readFileSync(new URL(`../../src/engrave/${name}.css`, import.meta.url), 'utf8'))
    .join('\n');
  const declared = (selector: string, property: string): string | undefined =>
    new RegExp(`(?:^|\\n)\\s*${selector.replaceAll('.', '\\.')} \\{[^}]*?${property}: ([^;]+);`).exec(css)?.[1];

  it('knows the same widths as the tiles and leads', () => {
    ROW_WIDTHS.forEach((width, index) => {
      expect(declared(`.w${index + 1}`, '--row')).toBe(String(width));
      // Two tiles to a row where they have room, and four where they have.
      expect(css).toContain(`@container (min-width: ${rem(width)}) {\n  .w${index + 1} > .tab-grid {\n    --tiles: 2;`);
      expect(css).toContain(
        `@container (min-width: ${rem(2 * width - 52)}) {\n  .w${index + 1} > .tab-grid {\n    --tiles: 4;`,
      );
    });
    for (const letter of LETTERS) {
      const key = { tonic: { letter, alter: 0 }, mode: 'major' } as const;
      const { head, meter } = headWidths(Math.abs(signatureOf(key)), { beats: 4, unit: 4 });
      expect(declared(`.k${Math.abs(signatureOf(key))}`, '--key')).toBe(String(head));
      expect(declared(`.m${meter / 4}`, '--meter')).toBe(String(meter));
    }
  });

  it('knows every height that tiles are given', () => {
    const declaredHeights = new Set(css.match(/(?<=\n\.)(?:ov|bt|up|dn)\d+(?= \{)/g));
    fc.assert(
      fc.property(blockText, (text) => {
        const tiles = [...pictureOf(text).page.querySelectorAll('.tile, .row-head, .lanes')];
        const used = tiles.flatMap((tile) => [...tile.classList].filter((name) => /^(?:ov|bt|up|dn)\d/.test(name)));
        expect(used.length).toBeGreaterThan(0);
        expect(used.filter((name) => !declaredHeights.has(name))).toEqual([]);
      }),
      SAME_BLOCKS,
    );
  });

  it('reaches the copies of the row head, in which only a selector of one class finds its element', () => {
    const rowHead = pictureOf(CHORUS).page.querySelector('.tab-grid > .sheet');
    const classes = [...(rowHead?.querySelectorAll('[class]') ?? [])].map((element) => element.getAttribute('class'));
    expect(new Set(classes)).toEqual(new Set(['row-head-line', 'row-head-word']));
    for (const name of classes) expect(css).toMatch(new RegExp(`(?:^|\\n)\\.${name}[ ,]`));
  });

  it('sets words in the sizes they were measured with', () => {
    const sizes = { l: SIZE.label, c: SIZE.chord, u: SIZE.numeral, y: SIZE.lyric, Y: SIZE.lyric };
    for (const [name, size] of Object.entries(sizes))
      expect(declared(`.tab-grid .${name}`, 'font-size')).toBe(`${size}px`);
    expect(declared('.row-head-word', 'font-size')).toBe(`${SIZE.small}px`);
    expect(declared('.tab-grid text', 'font-size')).toBe(`${SIZE.word}px`);
  });
});
