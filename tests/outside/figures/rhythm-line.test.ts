/**
 * Rhythm lines against a reader of a few lines: where each stroke begins and how long it is, counted slot by slot, and the words of the
 * count. How beats are counted (1 + 2 +, 1 e + a, 1 trip let; every eighth in compound time): common practice, no source.
 */
import { describe, expect, test } from 'vitest';
import { countsOf, countTextAt } from '../../../src/engrave/figure/count.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { rhythmFigure } from '../../course/figures/rhythm-figure.ts';
import { cases } from '../../setup/long.ts';
import { Random } from '../oracle/random.ts';

test('every stroke begins and ends where its slots are', () => {
  for (let seed = 1; seed <= cases(60, 1000); seed++) {
    const random = new Random(seed);
    const slots = random.pick([4, 8, 16]);
    const bars = Array.from({ length: random.int(1, 3) }, (_, bar) =>
      Array.from({ length: slots }, (_, slot) =>
        bar === 0 && slot === 0 ? 'x' : random.pick(['x', 'x', '=', '.', 'x[accent]']),
      ),
    );
    // A rest cannot be held.
    const all = bars.flat();
    const tokens = all.map((token, at) => (token === '=' && all[at - 1] === '.' ? '.' : token));
    tokens.forEach((token, at) => {
      if (token === '=' && tokens[at - 1] === '.') tokens[at] = '.';
    });
    const rhythm = Array.from({ length: bars.length }, (_, bar) =>
      tokens.slice(bar * slots, (bar + 1) * slots).join(' '),
    ).join(' | ');
    const strokes: { at: number; length: number; accent: boolean }[] = [];
    tokens.forEach((token, at) => {
      if (token.startsWith('x')) strokes.push({ at, length: 1, accent: token !== 'x' });
      else if (token === '=') (strokes.at(-1) ?? { length: 0 }).length++;
    });

    const { playback } = rhythmFigure(`rhythm="${rhythm}" slot="1/${slots}"`);
    const found: typeof strokes = [];
    playback.bars.forEach((bar, index) => {
      for (const event of bar.events) {
        if (!event.notes) continue;
        const [at, length] = [event.at, event.length].map((ticks) => (ticks * slots) / playback.ticks) as [
          number,
          number,
        ];
        if (event.tied) present(found.at(-1), rhythm).length += length;
        else found.push({ at: index * slots + at, length, accent: event.marks?.includes('accent') ?? false });
      }
    });
    expect(found, rhythm).toEqual(strokes);
  }
});

describe('the count', () => {
  test.each([
    ['4/4', '1/4', 'x x x x', '1 + 2 + 3 + 4 +'],
    ['4/4', '1/8', 'x x x x x x x x', '1 + 2 + 3 + 4 +'],
    ['3/4', '1/4', 'x = x', '1 + 2 + 3 +'],
    ['2/2', '1/4', 'x x x x', '1 + 2 +'],
    ['2/4', '1/16', 'x x x x x = = =', '1 e + a 2 +'],
    ['4/4', '1/8', '{x x x}2 x x x = = =', '1 trip let 2 + 3 + 4 +'],
    ['6/8', '1/8', 'x x x x = =', '1 2 3 4 5 6'],
    ['12/8', '1/8', 'x = x x = x x = x x = x', '1 2 3 4 5 6 7 8 9 10 11 12'],
    ['6/8', '1/16', 'x = x x = = x = = = = =', '1 2 + 3 4 5 6'],
  ])('of %s in slots of %s, %s, is %s', (meter, slot, rhythm, count) => {
    const { playback } = rhythmFigure(`rhythm="${rhythm}" meter="${meter}" slot="${slot}"`);
    const counts = countsOf(playback, itemAt(playback.bars, 0));
    expect(counts.map((tick) => countTextAt(playback, tick)).join(' ')).toBe(count);
  });
});
