import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SIZE } from '../../src/engrave/columns.ts';
import { textWidth } from '../../src/engrave/text-width.ts';
import { blockText } from '../notation/arbitrary.ts';
import { pictureOf, SAME_BLOCKS } from './pictures.ts';

interface Words {
  readonly text: string;
  readonly left: number;
  readonly right: number;
}

/** The number of a bar and its chord symbols, from the left, and the width of their tile. */
function wordsIn(tile: Element): { readonly words: readonly Words[]; readonly width: number } | undefined {
  const drawing = tile.querySelector('.pc');
  if (!drawing) return undefined;
  const words = [...drawing.querySelectorAll('text')].map((text): Words => {
    const left = Number(text.getAttribute('x'));
    const numeral = text.querySelector('tspan')?.textContent ?? '';
    const name = (text.textContent ?? '').slice(0, (text.textContent ?? '').length - numeral.length);
    const width =
      text.getAttribute('class') === 'i'
        ? textWidth(name, SIZE.small)
        : textWidth(name, SIZE.chord, true) + (numeral ? 4 + textWidth(numeral, SIZE.numeral) : 0);
    return { text: text.textContent ?? '', left, right: left + width };
  });
  return { words, width: Number(drawing.getAttribute('viewBox')?.split(' ')[2]) };
}

describe('chord symbols', () => {
  it('are clear of each other and of the number of the bar, and end in their tile', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        for (const tile of pictureOf(text).tiles) {
          const drawn = wordsIn(tile);
          if (!drawn) continue;
          const { words, width } = drawn;
          words.slice(1).forEach((word, index) => {
            expect(word.left, `${words[index]?.text} and ${word.text}`).toBeGreaterThan(words[index]?.right ?? 0);
          });
          for (const { text, right } of words) expect(right, text).toBeLessThanOrEqual(width);
        }
      }),
      SAME_BLOCKS,
    );
  });

  it('widen a pickup and a bar of one long note', () => {
    const narrow = pictureOf('pickup: 1\nslot: 1/4\n\n3 | 4 = = = |]');
    const wide = pictureOf('pickup: 1\nslot: 1/4\n\n"bVIIaug" 3 | "bVIIaug" 4 "IVsus4" = "bIIImaj7" = "V7sus4" = |]');
    const widths = (picture: typeof wide): number[] => picture.tiles.map((tile) => wordsIn(tile)?.width ?? 0);
    expect(widths(wide)[0]).toBeGreaterThan((widths(narrow)[0] ?? 0) + 30);
    expect(widths(wide)[1]).toBeGreaterThan((widths(narrow)[1] ?? 0) + 100);
  });
});
