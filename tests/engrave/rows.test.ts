import { describe, expect, it } from 'vitest';
import { type RowTile, rowStarts } from '../../src/engrave/rows.ts';
import { pictureOf } from './pictures.ts';

const plain: RowTile = { part: false, signature: false, more: 0 };
const bars = (count: number): RowTile[] => Array.from({ length: count }, () => plain);
const starts = (tiles: readonly RowTile[], columns: number): number[] => [...rowStarts(tiles, columns)];

describe('rows of tiles', () => {
  it('are filled from the left', () => {
    expect(starts(bars(12), 4)).toEqual([0, 4, 8]);
    expect(starts(bars(5), 2)).toEqual([0, 2, 4]);
    expect(starts([], 4)).toEqual([]);
  });
  it('leave places of the first row to a pickup', () => {
    expect([...rowStarts(bars(5), 2, 1)]).toEqual([1, 3]);
  });
  it('begin with a part where little of the row before it stays empty', () => {
    const tiles = bars(7).map((tile, index) => ({ ...tile, part: index === 3 }));
    expect(starts(tiles, 4)).toEqual([0, 3]);
    expect(starts(tiles, 2)).toEqual([0, 2, 4, 6]);
  });
  it('keep the halves of a bar together', () => {
    const tiles = bars(6).map((tile, index) => ({ ...tile, more: index === 3 ? 1 : 0 }));
    expect(starts(tiles, 4)).toEqual([0, 3]);
    expect(starts(tiles, 2)).toEqual([0, 2, 3, 5]);
  });
  it('show a row head before each tile that begins one, at every width', () => {
    const { page } = pictureOf('harp: C\nslot: 1/4\n\n4 = = = | 5 = = = | 6 = = = | 5 = = = | 4 = = =');
    expect(rowHeadsIn(page)).toEqual(['b24', 'b0', 'b2', 'b0', 'b24']);
  });
  it('have a pickup beside the head of the first row, and the first bar after it', () => {
    const { page, tiles } = pictureOf(
      'harp: C\nslot: 1/4\npickup: 1\n\n4 | 4 = = = | 5 = = = | 6 = = = | 5 = = = | 4 = = .',
    );
    expect(rowHeadsIn(page)).toEqual(['b24', 'b2', 'b0', 'b2', 'b4']);
    expect(tiles[0]?.parentElement?.getAttribute('class')).toBe('row-start');
  });
});

const rowHeadsIn = (page: Document): (string | undefined)[] =>
  [...page.querySelectorAll('.row-head')].map((head) => /b\d+/.exec(head.getAttribute('class') ?? '')?.[0]);
