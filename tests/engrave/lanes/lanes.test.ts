import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSoundEvent } from '../../../src/score/queries.ts';
import { blockText } from '../../notation/arbitrary.ts';
import { headsIn, numbersIn, pictureOf, SAME_BLOCKS, textsIn } from '../pictures.ts';

const centreOf = (tile: Element | undefined): number =>
  Number(/ ([-\d.]+)H/.exec(tile?.querySelector('.z')?.getAttribute('d') ?? '')?.[1]);

describe('the breath lanes', () => {
  it('show every hole of every attack once, blow above the centre line and draw below it', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { score, event, tiles } = pictureOf(text);
        const centre = centreOf(tiles[0]);
        for (const own of score.bars.flatMap((bar) => bar.events).filter(isSoundEvent)) {
          const numbers = numbersIn(event(own.index));
          const holes = own.tied ? [] : own.notes.map(({ hole, bend }) => `${hole}${bend % 1 > 0 ? 'q' : ''}`);
          expect(numbers.map((number) => number.hole)).toEqual(holes);
          for (const { y } of numbers) expect(own.breath === 'blow' ? y < centre : y > centre).toBe(true);
        }
      }),
      SAME_BLOCKS,
    );
  });

  it('drop a bent number one notch a half step, and tie a knot for each', () => {
    const { event } = pictureOf("harp: C\nposition: 2\nchords: I7\n\n-3 -3' -3'' -3''' 10 10' 10'' .");
    const ys = [0, 1, 2, 3, 4, 5, 6].map((index) => numbersIn(event(index))[0]?.y ?? 0);
    const notches = (from: number, to: number): number => ((ys[to] ?? 0) - (ys[from] ?? 0)) / 8;
    expect([notches(0, 1), notches(0, 2), notches(0, 3), notches(4, 5), notches(4, 6)]).toEqual([1, 2, 3, 1, 2]);
    const knots = [0, 1, 2, 3, 4, 5, 6].map((index) =>
      [...event(index).querySelectorAll('path.s')].reduce(
        (sum, path) => sum + (path.getAttribute('d')?.match(/h7/g) ?? []).length,
        0,
      ),
    );
    expect(knots).toEqual([0, 1, 2, 3, 0, 1, 2]);
  });

  it('drop a quarter step half a notch, with half a knot, and name it beside the hole', () => {
    const { event } = pictureOf("harp: C\nposition: 2\n\n-3 -3q -3'q 10 10q 10'q . .");
    const shown = [0, 1, 2, 3, 4, 5].map((index) => numbersIn(event(index))[0] ?? { hole: '', y: 0 });
    expect(shown.map(({ hole }) => hole)).toEqual(['3', '3q', '3q', '10', '10q', '10q']);
    const notches = (from: number, to: number): number => ((shown[to]?.y ?? 0) - (shown[from]?.y ?? 0)) / 8;
    expect([notches(1, 2), notches(3, 4), notches(3, 5)]).toEqual([1, 0.5, 1.5]);
    const knots = [1, 2, 4, 5].map((index) =>
      [...event(index).querySelectorAll('path.s')].flatMap(
        (path) => path.getAttribute('d')?.match(/h[37](?:\.5)?/g) ?? [],
      ),
    );
    expect(knots).toEqual([['h3.5'], ['h7', 'h3.5'], ['h3.5'], ['h7', 'h3.5']]);
  });

  it('stand a number in line with its notehead', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { score, event } = pictureOf(text);
        for (const own of score.bars.flatMap((bar) => bar.events).filter(isSoundEvent)) {
          const numbers = numbersIn(event(own.index));
          const heads = headsIn(event(own.index));
          const [number, head] = [numbers[0], heads[0]];
          if (!number || !head || own.notes.length > 1) continue;
          const middle = head.x + (head.code === 'e0a2' ? 16.88 : head.code === 'e0a0' ? 23.96 : 11.8) / 2;
          expect(Math.abs(number.x - middle)).toBeLessThan(0.2);
        }
      }),
      SAME_BLOCKS,
    );
  });

  it('keep numbers of one breath from touching', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { tiles } = pictureOf(text);
        for (const tile of tiles) {
          const numbers = numbersIn(tile);
          const centre = centreOf(tile);
          for (const [index, one] of numbers.entries()) {
            for (const other of numbers.slice(index + 1)) {
              if (one.y < centre !== other.y < centre) continue;
              const near = Math.hypot(one.x - other.x, one.y - other.y);
              expect(near).toBeGreaterThan(12);
            }
          }
        }
      }),
      SAME_BLOCKS,
    );
  });

  it('hold a tied note as a line with no number, and mark it where its role turns', () => {
    const { event } = pictureOf('harp: C\nposition: 2\nslot: 1/4\nchords: I7 | IV7\n\n-3 = = -4 | = = . .');
    const [sounding, held] = [event(1), event(2)];
    expect(numbersIn(sounding).map(({ hole }) => hole)).toEqual(['4']);
    expect(sounding.querySelectorAll('.d').length).toBe(1);
    expect(numbersIn(held)).toEqual([]);
    expect(held.querySelectorAll('.d').length).toBe(2);
    expect(textsIn(sounding, '.l')).toEqual(['5']);
    expect(textsIn(held, '.l')).toEqual(['2']);
  });

  it('slant a line from a glide to where it goes, over the bar line in one or, where a row ends there, in two', () => {
    const { event } = pictureOf("harp: C\nposition: 2\nslot: 1/4\nchords: I7\n\n-3' > -3 -4 -4' > | -4 . . .");
    const slants = (index: number, within: string): number => event(index).querySelectorAll(`${within} .g`).length;
    expect([0, 1, 2, 3, 4].map((index) => slants(index, 'g.e >'))).toEqual([1, 0, 0, 0, 0]);
    expect([0, 1, 2, 3, 4].map((index) => slants(index, '.x.b0'))).toEqual([0, 0, 0, 1, 0]);
    expect([0, 1, 2, 3, 4].map((index) => slants(index, '.X.b0'))).toEqual([0, 0, 0, 1, 1]);
  });

  it('mark what a role is by shape, by fullness and by label', () => {
    const { event } = pictureOf("harp: C\nposition: 2\nchords: I7\n\n-2 -3' -3 -5 4 5 -6 .");
    const mark = (index: number): string | null | undefined =>
      [...event(index).querySelectorAll('use')]
        .find((use) => use.getAttribute('href')?.startsWith('#s'))
        ?.getAttribute('href');
    const classes = (index: number): string | null | undefined =>
      event(index).querySelector('use.m')?.getAttribute('class');
    expect([0, 1, 2, 3, 4, 5, 6].map(mark)).toEqual(['#s1', '#s3', '#s3', '#s7', '#s4', '#s6', '#s2']);
    expect([0, 1, 2, 3, 4].map(classes)).toEqual(['m r1', 'm r3 f', 'm r3', 'm r7 f', 'm']);
    expect([0, 1, 2, 3, 4, 5, 6].flatMap((index) => textsIn(event(index), '.l'))).toEqual([
      'R',
      '♭3',
      '3',
      '♭7',
      '4',
      '6',
      '2',
    ]);
  });

  it('name the roles of several holes one by one where they differ, and once where they agree', () => {
    const { event } = pictureOf('harp: C\nposition: 2\nslot: 1/4\nmouth: tongue\nchords: I7\n\n-(1 2 3) -(1 4) . .');
    expect(textsIn(event(0), '.l')).toEqual(['5', 'R', '3']);
    expect(textsIn(event(1), '.l')).toEqual(['5']);
  });

  it('say marks in words over the lanes', () => {
    const { page } = pictureOf('harp: C\nslot: 1/4\nmouth: tongue\n\n4[slap] 5[shake 6] 6[flutter hand] -6');
    expect(textsIn(page.documentElement, '.k')).toEqual(['slap', 'shake 6', 'flutter hand']);
  });

  it('hatch the band of the tongue block, name where the mouth changes, and leave it out where it never does', () => {
    const lips = pictureOf('harp: C\nslot: 1/4\n\n4 4 4 4');
    expect(lips.page.querySelectorAll('.o').length).toBe(0);
    const both = pictureOf('harp: C\nslot: 1/4\n\n4 4 @tongue 4 4 | 4 4 4 4');
    expect(both.tiles.map((tile) => tile.querySelectorAll('.h').length)).toEqual([1, 1]);
    expect(textsIn(both.page.documentElement, '.i').filter((word) => /lips|tongue/.test(word))).toEqual([
      'lips',
      'tongue',
    ]);
  });
});
