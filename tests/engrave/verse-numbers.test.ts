/** Numbers of verses at the head of rows. */
import { expect, test } from 'vitest';
import { pictureOf, textsIn } from './pictures.ts';

test('a row of a later ending has the number of its verse, a row of words that are sung each time has none', () => {
  const { tiles } = pictureOf(`slot: 1/4
meter: 3/4

|: 4 5 6 | -6 = 6 |1 5 = 4 :|2 4 = = | 4 = 5 | 4 = = |]
words: The ri-ver runs on down to home, my friend now
words: And all the boats come * * * * * *
`);
  const ending = tiles[3]?.querySelector('.V');
  expect(ending?.textContent).toBe('2.');
  // Where each tile has a row to itself.
  expect(ending?.getAttribute('class')).toBe('V X b0');
  expect(tiles.slice(4).flatMap((tile) => textsIn(tile, '.V'))).toEqual([]);
});
