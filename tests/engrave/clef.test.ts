import { describe, expect, it } from 'vitest';
import { clefOf } from '../../src/engrave/clef.ts';
import { headsIn, pictureOf, scoreOf } from './pictures.ts';

const RUN = '1 -1 2 -2 3 -3 4 -4 | 5 -5 6 -6 6 -5 4 . ';
const octaves = (harp: string, music = RUN): number => clefOf(scoreOf(`harp: ${harp}\n\n${music}`)).octaves;

describe('the clef', () => {
  it.each(['G', 'A', 'Bb', 'C', 'D', 'Eb'])('is the plain treble clef for the lower holes of a harp in %s', (harp) => {
    expect(octaves(harp)).toBe(0);
  });
  it('takes an octave sign for low and high harps', () => {
    expect(octaves('low F', '1 -1 2 -2 3 -3 2 .')).toBe(-1);
    expect(octaves('low D')).toBe(-1);
    expect(octaves('high G')).toBe(1);
  });
  it('takes one for the top of a harp too', () => {
    expect(octaves('C', "8 -8 9 -9 10 -10 10'' 9")).toBe(1);
  });
  it('keeps notes within four ledger lines wherever a tune lies', () => {
    for (const harp of ['low F', 'low D', 'G', 'C', 'F', 'high G']) {
      for (const music of ['1 -1 2 -2 3 -3 2 .', '4 -4 5 -5 6 -6 5 .', '7 8 -8 9 -9 10 9 .']) {
        const { tiles } = pictureOf(`harp: ${harp}\n\n${music}`);
        for (const tile of tiles) {
          for (const head of headsIn(tile)) {
            expect(head.place, `${harp}: ${music}`).toBeGreaterThanOrEqual(-9);
            expect(head.place, `${harp}: ${music}`).toBeLessThanOrEqual(8 + 9);
          }
        }
      }
    }
  });
});
