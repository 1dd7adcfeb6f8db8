/** The signs of notes in a line over the lanes, for readers without the staff. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawBlock, pictureRows } from '../../../src/engrave/block.ts';
import { glyphAt } from '../../../src/engrave/glyphs/metrics.ts';
import { pictureOf as fileOf } from '../../../src/engrave/picture/picture.ts';
import { isSoundEvent } from '../../../src/score/queries.ts';
import { present } from '../../../src/values/checked.ts';
import { blockText } from '../../notation/arbitrary.ts';
import { glyphsIn, pictureOf, SAME_BLOCKS, scoreOf } from '../pictures.ts';

const MUSIC = `slot: 1/4
4[accent] 5[fermata] 6 -4[staccato tenuto] | 4 5 6 7 | 4[dip] 5[fall] 6[breath fermata] 7 | 4[wah] 5 6 7 |]`;

const lines = (text: string) => pictureOf(text).tiles.map((tile) => tile.querySelector('.pg'));

test('signs are in the line in the order in which they are put, from the lowest up, and a bar without signs has no line', () => {
  const drawn = lines(MUSIC).map((line) => line && [...line.querySelectorAll('use, path')].map((own) => own.localName));
  expect(drawn).toEqual([['use', 'use', 'use', 'use'], null, ['path', 'path', 'use', 'use'], null]);
  expect(glyphsIn(present(lines(MUSIC)[0], 'a line')).map(({ code }) => code)).toEqual([
    'e4a0',
    'e4c0',
    'e4a2',
    'e4a4',
  ]);
});

test('a sign belongs to the event of its note, which is lit with it', () => {
  const { tiles } = pictureOf(MUSIC);
  const events = [...(tiles[0]?.querySelectorAll('.pg [data-event]') ?? [])].map((own) =>
    own.getAttribute('data-event'),
  );
  expect(events).toEqual(['0', '1', '3']);
});

test('the line is as high as its signs, and no two of them meet', () => {
  fc.assert(
    fc.property(blockText, (text) => {
      for (const line of lines(text)) {
        if (!line) continue;
        const height = Number(line.getAttribute('viewBox')?.split(' ')[3]);
        const boxes = glyphsIn(line).map(({ code, x, y }) => {
          const { left, right, top, bottom } = glyphAt(Number.parseInt(code, 16));
          return { left: x + left, right: x + right, top: y + top, bottom: y + bottom };
        });
        boxes.forEach((one, index) => {
          expect(one.top).toBeGreaterThanOrEqual(0);
          expect(one.bottom).toBeLessThanOrEqual(height);
          for (const other of boxes.slice(index + 1))
            expect(
              one.right <= other.left || other.right <= one.left || one.bottom <= other.top || other.bottom <= one.top,
            ).toBe(true);
        });
      }
    }),
    SAME_BLOCKS,
  );
});

test('all signs of the staff are in it', () => {
  fc.assert(
    fc.property(blockText, (text) => {
      const { tiles, score } = pictureOf(text);
      const signs = (part: string) =>
        tiles.flatMap((tile) => {
          const drawn = tile.querySelector(part);
          return drawn ? glyphsIn(drawn).filter(({ code }) => /^e4[abc]/.test(code)).length : 0;
        });
      const all = (part: string) => signs(part).reduce((sum, count) => sum + count, 0);
      expect(all('.pg')).toBe(all('.ps'));
      const bent = score.bars
        .flatMap((bar) => bar.events.filter(isSoundEvent))
        .flatMap(({ marks }) => marks.filter(({ name }) => name === 'dip' || name === 'fall'));
      const paths = tiles.flatMap((tile) => [...tile.querySelectorAll('.pg path')]);
      expect(paths.length).toBe(bent.length);
    }),
    SAME_BLOCKS,
  );
});

test('a picture, which has the staff, has no such line', () => {
  const drawn = drawBlock(scoreOf(MUSIC));
  const file = fileOf({ name: '', title: undefined, rows: pictureRows(drawn), outlines: '', css: '' });
  expect(file).not.toContain('class="pg"');
  expect(file).toContain('class="ps"');
});
