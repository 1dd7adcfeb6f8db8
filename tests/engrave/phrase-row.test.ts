/** Brackets over repeated phrases: where they are, and what is written at them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SIZE } from '../../src/engrave/columns.ts';
import { PHRASES } from '../../src/engrave/layout.ts';
import { textWidth } from '../../src/engrave/text-width.ts';
import { phrasesOf } from '../../src/score/phrases.ts';
import { headsIn, type Picture, pictureOf } from './pictures.ts';

interface Bracket {
  readonly tile: number;
  readonly phrase: number;
  readonly from: number;
  readonly to: number;
  readonly begins: boolean;
  readonly ends: boolean;
  readonly name: string;
  /** Where its name ends. */
  readonly nameEnd: number;
}

function bracketsOf({ tiles }: Picture): Bracket[] {
  return tiles.flatMap((tile, index) =>
    [...tile.querySelectorAll('.ph [data-phrase]')].map((group): Bracket => {
      const d = group.querySelector('path')?.getAttribute('d') ?? '';
      const text = group.querySelector('text');
      const name = text?.textContent ?? '';
      const nameEnd = text ? Number(text.getAttribute('x')) + nameWidth(name) : Number.NEGATIVE_INFINITY;
      const xs = [...d.matchAll(/[MH](-?[\d.]+)/g)].map(([, x]) => Number(x));
      return {
        tile: index,
        phrase: Number(group.getAttribute('data-phrase')),
        from: Math.min(
          ...xs,
          nameEnd === Number.NEGATIVE_INFINITY ? Number.POSITIVE_INFINITY : Number(text?.getAttribute('x')),
        ),
        to: Math.max(...xs),
        begins: /^M[-\d.]+ 10V/.test(d),
        ends: /V10$/.test(d),
        name,
        nameEnd,
      };
    }),
  );
}
const widthOf = (tile: Element | undefined): number =>
  Number(tile?.querySelector('svg')?.getAttribute('viewBox')?.split(' ')[2]);

/** Three dots are one em wide: Arial's metrics. */
const nameWidth = (name: string): number =>
  textWidth(name.replace('…', ''), SIZE.small) + (name.endsWith('…') ? SIZE.small : 0);

/** Phrases, and bars that have them. */
const BARS: Readonly<Record<string, string>> = {
  '4': '* * * 7 * * 7 *',
  '4 5': '* * . * .',
  '. 4 5 6': '* *',
  '4 = 5 =': '* *',
  '4 -4 5 -5 6 -6': '* . .',
  '{4 5 4}2 .': '* . * .',
  '4 = | 5 =': '.6 * .6',
};

describe('the brackets over phrases', () => {
  it('are not there, nor their row, where no phrase is repeated', () => {
    const once = pictureOf('harp: C\nphrase wheel: 4 5 4 5\n<wheel> 4 = = = | 4 5 4 5 .4 |]');
    expect(once.html).not.toContain('class="ph"');
    expect(bracketsOf(once)).toEqual([]);
  });

  it('go from the first note to the last, with the name at the beginning', () => {
    const picture = pictureOf('harp: C\nphrase wheel: 4 5 4 5\n. <wheel> . . . | . . . <wheel> . |]');
    const brackets = bracketsOf(picture);
    expect(brackets).toMatchObject([
      { tile: 0, name: 'wheel', begins: true, ends: true },
      { tile: 1, name: 'wheel', begins: true, ends: true },
    ]);
    phrasesOf(picture.score)[0]?.occurrences.forEach(({ from, to }, index) => {
      const middle = (event: number): number => (headsIn(picture.event(event))[0]?.x ?? 0) + 11.8 / 2;
      expect(Math.abs((brackets[index]?.from ?? 0) - middle(from))).toBeLessThan(8);
      expect(Math.abs((brackets[index]?.to ?? 0) - middle(to))).toBeLessThan(8);
    });
  });

  it('go on over tiles, where they reach the edges and have no name again', () => {
    const picture = pictureOf('harp: C\nphrase long: 4 = = = | 5 = = = 6 = = = | 7 =\n. . . . <long> . . <long> .6 |]');
    const brackets = bracketsOf(picture);
    expect(brackets.map(({ tile, name, begins, ends }) => [tile, name, begins, ends])).toEqual([
      [0, 'long', true, false],
      [1, '', false, false],
      [2, '', false, true],
      [2, 'long', true, false],
      [3, '', false, false],
      [4, '', false, true],
    ]);
    expect(brackets[0]?.to).toBeCloseTo(widthOf(picture.tiles[0]) + 0.3, 1);
    expect(brackets[1]?.to).toBeCloseTo(widthOf(picture.tiles[1]) + 0.3, 1);
    expect([brackets[1]?.from, brackets[2]?.from]).toEqual([-0.3, -0.3]);
  });

  it('are not over the sign of a repeated bar', () => {
    const picture = pictureOf('harp: C\nphrase a: 4 5\n<a> <a> .4 | % |]');
    expect(phrasesOf(picture.score)[0]?.occurrences).toHaveLength(4);
    expect(bracketsOf(picture).map(({ tile }) => tile)).toEqual([0, 0]);
  });

  it('have a name of many letters in the next tile where that has room, and shorten it where none has', () => {
    const next = pictureOf(
      'harp: C\nphrase turn-of-the-wheel: 4 | 5 = = = 6 = = =\n.7 <turn-of-the-wheel> | .7 <turn-of-the-wheel> |]',
    );
    expect(bracketsOf(next).map(({ name }) => name)).toEqual(['', 'turn-of-the-wheel', '', 'turn-of-the-wheel']);
    const short = pictureOf('harp: C\nphrase turn-of-the-wheel: 4\n.7 <turn-of-the-wheel> | .7 <turn-of-the-wheel> |]');
    for (const { name } of bracketsOf(short)) expect(name).toMatch(/^t?[\w-]*…$|^$/);
  });

  it('do not touch one another, nor leave their tile', () => {
    const name = fc.stringMatching(/^[a-z]{1,14}$/);
    const phrase = fc.constantFrom(...Object.keys(BARS));
    const order = fc.array(fc.constantFrom('a', 'b', 'neither'), { minLength: 6, maxLength: 12 });
    fc.assert(
      fc.property(
        fc.uniqueArray(name, { minLength: 2, maxLength: 2 }),
        phrase,
        phrase,
        order,
        (names, one, other, order) => {
          const [a = '', b = ''] = names;
          const bars = order.map((which) =>
            which === 'neither'
              ? '7 6 .6'
              : (BARS[which === 'a' ? one : other] ?? '').replaceAll('*', which === 'a' ? `<${a}>` : `<${b}>`),
          );
          const picture = pictureOf(`harp: C\nphrase ${a}: ${one}\nphrase ${b}: ${other}\n${bars.join(' | ')} |]`);
          const brackets = bracketsOf(picture);
          brackets.forEach((bracket, index) => {
            const right = Math.max(bracket.to, bracket.nameEnd);
            expect(bracket.from).toBeGreaterThanOrEqual(-0.3);
            expect(right).toBeLessThanOrEqual(widthOf(picture.tiles[bracket.tile]) + 0.31);
            const next = brackets[index + 1];
            if (next?.tile === bracket.tile) expect(right).toBeLessThan(next.from - 1);
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  it('are low, and high enough for their letters', () => {
    expect(PHRASES.height).toBeLessThan(14);
    // Descenders of the text font reach 0.21 em below the line, ascenders 0.73 above: Arial's metrics.
    expect(PHRASES.baseline + 0.21 * SIZE.small).toBeLessThanOrEqual(PHRASES.height);
    expect(PHRASES.baseline - 0.73 * SIZE.small).toBeGreaterThanOrEqual(0);
  });
});
