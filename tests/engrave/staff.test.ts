import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clefOf } from '../../src/engrave/clef.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import { staffNotes } from '../../src/score/spelling.ts';
import { writtenScore } from '../../src/score/written.ts';
import { blockText } from '../notation/arbitrary.ts';
import { glyphsIn, headsIn, isHead, pictureOf, placeOf, SAME_BLOCKS } from './pictures.ts';

const HEAD_OF: Readonly<Record<number, string>> = { 0.5: 'e0a0', 1: 'e0a2', 2: 'e0a3' };

describe('the engraved staff', () => {
  it('puts every notehead on the line or space of its spelled pitch, with its sign, from the lowest up', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { score, event } = pictureOf(text);
        const clef = clefOf(score);
        const staff = staffNotes(score);
        const written = writtenScore(score);
        for (const bar of score.bars) {
          bar.events.forEach((own, index) => {
            if (!isSoundEvent(own)) return;
            const notes = [...(staff[own.index] ?? [])].sort((a, b) => a.pitch.midi - b.pitch.midi);
            const pieces = (written[bar.index]?.notes ?? []).filter((note) => note.event === index);
            const expected = pieces.flatMap((piece, at) =>
              notes.map((note) => ({
                place: placeOf(note.pitch, clef.octaves),
                sign: at === 0 ? note.accidental : undefined,
                code: HEAD_OF[piece.value] ?? 'e0a4',
              })),
            );
            expect(headsIn(event(own.index)).map(({ place, sign, code }) => ({ place, sign, code }))).toEqual(expected);
          });
        }
      }),
      SAME_BLOCKS,
    );
  });

  it('colours the head by its role and leaves a note without a chord in ink', () => {
    const { event } = pictureOf('harp: C\nposition: 2\n\n"I7" -2 -3 -4 -5 5 4 6 .');
    const classes = [0, 1, 2, 3, 4, 5].map((index) => glyphsIn(event(index)).find(isHead)?.classes);
    expect(classes).toEqual(['r1', 'r3', 'r5', 'r7', '', '']);
    const plain = pictureOf('harp: C\n\n4 -4 5 -5 6 -6 -7 7');
    expect([0, 1, 2].map((index) => glyphsIn(plain.event(index)).find(isHead)?.classes)).toEqual(['', '', '']);
  });

  it('draws rests of the right value', () => {
    const codes = (text: string): string[] => {
      const { page } = pictureOf(text);
      const grid = page.querySelector('.tab-grid');
      return grid
        ? glyphsIn(grid)
            .map((glyph) => glyph.code)
            .filter((code) => /^e4e/.test(code))
        : [];
    };
    expect(codes('harp: C\nslot: 1/4\n\n4 . 5 . | 4 = . .')).toEqual(['e4e5', 'e4e5', 'e4e4']);
    expect(codes('harp: C\nslot: 1/8\n\n4 . 5 . 4 . . .')).toEqual(['e4e6', 'e4e6', 'e4e6', 'e4e5']);
    expect(codes('harp: C\nslot: 1/4\n\n4 = = = | .4')).toEqual(['e4e3']);
  });

  it('keeps a tuplet figure outside of the staff, on the side of its beam', () => {
    const figures = /^e88/;
    fc.assert(
      fc.property(blockText, (text) => {
        for (const tile of pictureOf(text).tiles)
          for (const { code, y } of glyphsIn(tile)) if (figures.test(code)) expect(y < 0 || y > 40).toBe(true);
      }),
      SAME_BLOCKS,
    );
    // Stems go down from notes above the middle line, and up from those below it.
    const { tiles } = pictureOf('harp: C\n\n{6 -5 6}2 {1 -1 1}2 4 = = =');
    const found = tiles.flatMap((tile) => glyphsIn(tile).filter(({ code }) => figures.test(code)));
    expect(found.map(({ code, y }) => [code, y > 40])).toEqual([
      ['e883', true],
      ['e883', false],
    ]);
  });

  it('draws nothing of one bar over the edge of the next but what crosses it', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { tiles } = pictureOf(text);
        for (const tile of tiles) {
          const width = Number(tile.querySelector('svg')?.getAttribute('viewBox')?.split(' ')[2]);
          for (const glyph of glyphsIn(tile)) {
            expect(glyph.x).toBeGreaterThanOrEqual(0);
            expect(glyph.x).toBeLessThan(width);
          }
        }
      }),
      SAME_BLOCKS,
    );
  });

  it('draws one slur over a run of glides, and over the bar line one curve or, where a row ends there, two', () => {
    const curves = (tile: Element | undefined, among: string): number =>
      tile?.querySelectorAll(`.ps ${among} > path.v`).length ?? 0;
    const [alone] = pictureOf("slot: 1/4\n\n-4 > -4' > -4 4").tiles;
    expect(curves(alone, '.j')).toBe(1);
    const [first, second] = pictureOf("slot: 1/4\n\n4 5 -4 > -4' | > -4 5 4 5").tiles;
    expect([curves(first, '.j'), curves(first, '.x'), curves(first, '.X')]).toEqual([0, 1, 1]);
    expect([curves(second, '.j'), curves(second, '.x'), curves(second, '.X')]).toEqual([0, 0, 1]);
  });

  it('cuts a slur over more than two bars at each of their lines', () => {
    const tiles = pictureOf("slot: 1/4\nmeter: 2/4\n\n4 -4 > | -4' > -4 > | -4' > -4 | 5 6").tiles;
    const paths = tiles.map((tile) => tile.querySelectorAll('.ps path.v').length);
    expect(paths.slice(0, 3)).toEqual([2, 1, 1]);
    expect(paths[3]).toBe(0);
  });
});
