/** The signs of jumps are over their bar, in a line of their own. */
import { expect, test } from 'vitest';
import { pictureOf } from './pictures.ts';

const line = (tile: Element | undefined) => tile?.querySelector('.pj');
const signs = (text: string) =>
  pictureOf(`slot: 1/4\n${text}`).tiles.map((tile) => [
    line(tile)?.querySelector('use')?.getAttribute('href') ?? '',
    line(tile)?.textContent ?? '',
  ]);

test('segno and coda are glyphs at the start, the jumps words at the end', () => {
  expect(signs('|segno 4 = = = |to-coda 5 = = = |D.S.,coda 6 = = = |]')).toEqual([
    ['#g-e047', 'To Coda'],
    ['', 'D.S. al Coda'],
    ['#g-e048', ''],
  ]);
  expect(signs('4 = = = |fine 5 = = = | 5 = = = |D.C.')).toEqual([
    ['', 'Fine'],
    ['', ''],
    ['', 'D.C. al Fine'],
  ]);
  expect(signs('4 = = = |D.C.')).toEqual([['', 'D.C.']]);
});

test('a block without jumps has no such line', () => {
  expect(pictureOf('slot: 1/4\n4 = = = | 4 = = = |]').html).not.toContain('class="pj"');
});

test('a bar that is played again is one sign on the staff and one in the lanes, which belong to all of its events', () => {
  const { tiles, score } = pictureOf('slot: 1/4\nchords: I | I | IV\n4 5 6 5 | % | % |]');
  const [, sign, full] = tiles;
  const glyphs = (part: string) =>
    [...(sign?.querySelectorAll(`.${part} use`) ?? [])].map((use) => use.getAttribute('href'));
  expect([glyphs('ps'), glyphs('pl')]).toEqual([['#g-e500'], ['#g-e500']]);
  for (const { index } of score.bars[1]?.events ?? [])
    expect(sign?.querySelectorAll(`[data-event="${index}"] use`).length).toBe(2);
  // Over another chord the notes have other roles.
  expect(full?.querySelectorAll('.n').length).toBe(4);
});

test.each([
  ['a glide', "slot: 1/4\n-3'> -3 4 -3'> | % | -3 4 4 4"],
  ['a note that is held on', 'slot: 1/4\n4 5 6 7 | % | = 4 4 4'],
  ['a change of the embouchure', 'slot: 1/4\n4 @tongue 5 6 7 | %'],
])('a bar is written out again where it has %s', (_, text) => {
  expect(pictureOf(text).html).not.toContain('g-e500');
});

test('a rest of several bars is named over its first bar, and each of them has its own rest', () => {
  expect(signs('4 = = = | .x2 |segno .x3 |D.S.')).toEqual([
    ['', ''],
    ['', 'rest for 2 bars'],
    ['', ''],
    ['#g-e047', 'rest for 3 bars'],
    ['', ''],
    ['', 'D.S.'],
  ]);
});
