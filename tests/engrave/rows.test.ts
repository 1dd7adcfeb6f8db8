import { describe, expect, it } from 'vitest';
import { type RowTile, rowStarts } from '../../src/engrave/rows.ts';
import { pictureOf } from './pictures.ts';

const plain: RowTile = { part: false, pickup: false, more: 0 };
const bars = (count: number): RowTile[] => Array.from({ length: count }, () => plain);
const starts = (tiles: readonly RowTile[], columns: number): number[] => [...rowStarts(tiles, columns)];

describe('rows of tiles', () => {
  it('are filled from the left', () => {
    expect(starts(bars(12), 4)).toEqual([0, 4, 8]);
    expect(starts(bars(5), 2)).toEqual([0, 2, 4]);
    expect(starts([], 4)).toEqual([]);
  });
  it('leave a pickup a row to itself, so that the lines of a form stay four bars long', () => {
    expect(starts([{ ...plain, pickup: true }, ...bars(8)], 4)).toEqual([0, 1, 5]);
  });
  it('begin again with a part', () => {
    const tiles = bars(7).map((tile, index) => ({ ...tile, part: index === 3 }));
    expect(starts(tiles, 4)).toEqual([0, 3]);
    expect(starts(tiles, 2)).toEqual([0, 2, 3, 5]);
  });
  it('keep the halves of a bar together', () => {
    const tiles = bars(6).map((tile, index) => ({ ...tile, more: index === 3 ? 1 : 0 }));
    expect(starts(tiles, 4)).toEqual([0, 3]);
    expect(starts(tiles, 2)).toEqual([0, 2, 3, 5]);
  });
  it('show a row head before each tile that begins one, at every width', () => {
    const { page } = pictureOf('harp: C\nslot: 1/4\npickup: 1\n\n4 | 4 = = = | 5 = = = | 6 = = = | 5 = = = | 4 = = .');
    const rowHeads = [...page.querySelectorAll('.row-head')].map((rowHead) => rowHead.getAttribute('class'));
    expect(rowHeads).toEqual([
      'row-head l2 l4',
      'row-head l2 l4',
      'row-head',
      'row-head l2',
      'row-head',
      'row-head l2 l4',
    ]);
  });
});
