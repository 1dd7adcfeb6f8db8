import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { engraveBlock, glyphSheet } from '../../src/engrave/block.ts';
import { rowHeadWidth } from '../../src/engrave/row-head.ts';
import { TILE_WIDTHS } from '../../src/engrave/tile-width.ts';
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

  it('comes out the same, byte for byte, whatever was engraved before it and from whatever cache', () => {
    const cache = new Map<string, string>();
    fc.assert(
      fc.property(blockText, blockText, (one, other) => {
        const score = scoreOf(one);
        const first = engraveBlock(score, { id: 'b' });
        engraveBlock(scoreOf(other), { id: 'c', cache });
        const filled = engraveBlock(score, { id: 'b', cache });
        const kept = engraveBlock(score, { id: 'b', cache });
        expect(filled).toEqual(first);
        expect(kept).toEqual(first);
      }),
      SAME_BLOCKS,
    );
  });

  it('takes every drawing from a cache that has them all', () => {
    const cache = new Map<string, string>();
    engraveBlock(scoreOf(CHORUS), { id: 'a', cache });
    const asked: string[] = [];
    const full = { get: (key: string) => cache.get(key), set: (key: string) => void asked.push(key) };
    engraveBlock(scoreOf(CHORUS), { id: 'b', cache: full });
    expect(asked).toEqual([]);
    // Bars 1, 3 and 7 are one drawing, but for the meter before the first; so are 2, 6 and 8.
    expect(cache.size).toBeLessThan(12);
  });

  it('gives each bar a tile and each sounding event one group that a player finds by its index', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { score, page, tiles, event } = pictureOf(text);
        const bars = [...new Set(tiles.map((tile) => tile.getAttribute('data-bar')))];
        expect(bars).toEqual(score.bars.map((bar) => String(bar.index)));
        for (const bar of score.bars) {
          for (const own of bar.events.filter(isSoundEvent)) {
            expect(event(own.index).id).toBe(`b-e${own.index}`);
            expect(event(own.index).closest('.tile')?.getAttribute('data-bar')).toBe(String(bar.index));
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

  it('has tiles of one width and one height', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { tiles, page } = pictureOf(text);
        expect(new Set(tiles.map((tile) => tile.getAttribute('viewBox'))).size).toBe(1);
        const [, top, , height] = (tiles[0]?.getAttribute('viewBox') ?? '').split(' ');
        for (const rowHead of page.querySelectorAll('.row-head')) {
          const [, ownTop, , ownHeight] = (rowHead.getAttribute('viewBox') ?? '').split(' ');
          expect([ownTop, ownHeight]).toEqual([top, height]);
        }
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
    expect(tiles.slice(0, 2).map((tile) => tile.querySelectorAll('[data-event]').length)).toEqual([8, 8]);
  });

  it('chooses narrow tiles for light bars and wide ones for dense bars', () => {
    const widthOf = (text: string): string | undefined =>
      pictureOf(text).tiles[0]?.getAttribute('viewBox')?.split(' ')[2];
    expect(widthOf('harp: C\nslot: 1/4\n\n4 -4 5 -5 | 6 = = =')).toBe('156');
    expect(widthOf('harp: C\n\n4 -4 5 -5 6 -6 6 -5')).toBe('212');
    expect(
      widthOf('harp: C\nform: twelve-bar bars 1-1\nposition: 2\n\n{-4 -5 -4}2 {-4 -5 -4}2 {-4 -5 -4}2 {-3 -3 -2}2'),
    ).toBe('332');
  });

  it('refuses an outline it has not got', () => {
    expect(() => glyphSheet(['e999'])).toThrow('e999');
    expect(parsed(glyphSheet(['s3', 's3', 'e0a4'])).querySelectorAll('path').length).toBe(2);
  });
});

describe('the style sheet', () => {
  const css = readFileSync(new URL('../../src/engrave/block.css', import.meta.url), 'utf8');
  const declared = (selector: string, property: string): string | undefined =>
    new RegExp(`(?:^|\\n)\\s*${selector.replaceAll('.', '\\.')} \\{[^}]*?${property}: ([^;]+);`).exec(css)?.[1];

  it('knows the same widths as the tiles and leads', () => {
    TILE_WIDTHS.forEach((width, index) => {
      expect(declared(`.w${index + 1}`, '--tile')).toBe(String(width));
    });
    for (let signs = 0; signs <= 7; signs++)
      expect(declared(`.k${signs}`, '--row-head')).toBe(String(rowHeadWidth(signs)));
  });

  it('reaches the copies of the row head, in which only a selector of one class finds its element', () => {
    const rowHead = pictureOf(CHORUS).page.querySelector('#b-row-head');
    const classes = [...(rowHead?.querySelectorAll('[class]') ?? [])].map((element) => element.getAttribute('class'));
    expect(new Set(classes)).toEqual(new Set(['row-head-line', 'row-head-word']));
    for (const name of classes) expect(css).toMatch(new RegExp(`(?:^|\\n)\\.${name}[ ,]`));
  });

  it('sets words in the sizes they were measured with', () => {
    expect(declared('.tab-grid .l', 'font-size')).toBe('12px');
    expect(declared('.tab-grid .c', 'font-size')).toBe('16px');
    expect(declared('.tab-grid .u', 'font-size')).toBe('11px');
    expect(declared('.tab-grid .y', 'font-size')).toBe('13px');
    expect(declared('.row-head-word', 'font-size')).toBe('10px');
    expect(declared('.tab-grid text', 'font-size')).toBe('11px');
  });
});
