// @vitest-environment jsdom
import { describe, expect, it } from 'vitest';
import { drawFigure } from '../../../src/engrave/figure/draw.ts';
import type { Figure } from '../../../src/engrave/figure/figure.ts';
import { songKey } from '../../../src/harmony/key.ts';
import { readChord } from '../../../src/harmony/symbol.ts';
import { readHarp, tonicInPosition } from '../../../src/instrument/harp.ts';
import { RICHTER } from '../../../src/instrument/tuning.ts';
import { present } from '../../../src/values/checked.ts';
import { page, textOf } from './figure-page.ts';

const A = present(readHarp('A', RICHTER), 'the harp');

describe('target notes', () => {
  const key = songKey(tonicInPosition(A.key, 2), 'major');
  const seven = present(readChord('I7', key), 'the chord');
  const notes = {
    kind: 'target-notes',
    harp: A,
    position: 2,
    key,
    chords: [seven],
    holes: [2, 4],
    bends: true,
    overbends: false,
  } as const;
  const rowsOf = (figure: Figure): string[][] =>
    [...page(drawFigure(figure)).querySelectorAll('tbody tr')].map((row) => {
      for (const hidden of row.querySelectorAll('[aria-hidden]')) hidden.remove();
      return [textOf(row.querySelector('th')), ...[...row.querySelectorAll('li')].map(textOf)];
    });

  it('go up the tones of a chord, and list the ways into each from the easiest on', () => {
    expect(rowsOf(notes)).toEqual([
      ["draw 2, whole-step bend, D, the flat seventh", 'draw 2: bend down', 'draw 3: same breath', 'blow 3: from above', 'draw 2, half-step bend: bend down'],
      ['draw 2, E, the root', 'draw 3: same breath', 'draw 2, half-step bend: let the bend go'],
      ['blow 3, E, the root', 'blow 2, blow 4: same breath'],
      ['draw 3, G♯, the third', 'draw 2, draw 4: same breath', 'blow 4: from above', 'draw 3, half-step bend: let the bend go'],
      ['draw 4, B, the fifth', 'draw 3: same breath', 'draw 4, half-step bend: let the bend go'],
    ]); // biome-ignore format: a row a line
  });

  it('use no bends where these are left out, and say where no tone is in the range', () => {
    expect(
      rowsOf({ ...notes, bends: false })
        .flat()
        .join(),
    ).not.toContain('bend');
    const two = present(readChord('ii', key), 'the chord');
    expect(rowsOf({ ...notes, bends: false, holes: [3, 3], chords: [two] })).toEqual([['']]);
    expect(drawFigure({ ...notes, bends: false, holes: [3, 3], chords: [two] })).toContain('None of its tones');
  });
});
