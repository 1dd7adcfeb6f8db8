// @vitest-environment jsdom
import { describe, expect, it } from 'vitest';
import { drawFigure } from '../../../src/engrave/figure/draw.ts';
import { type Figure, moveFigure } from '../../../src/engrave/figure/figure.ts';
import { songKey } from '../../../src/harmony/key.ts';
import { type Harp, readHarp, tonicInPosition } from '../../../src/instrument/harp.ts';
import { RICHTER } from '../../../src/instrument/tuning.ts';
import { present } from '../../../src/values/checked.ts';
import { page, textOf, wellFormed } from './figure-page.ts';

describe('a tune side by side', () => {
  const side = (harp: Harp, position: number) => ({
    harp,
    position,
    key: songKey(tonicInPosition(harp.key, position), 'major'),
    shift: 0,
    bent: 1,
    overbent: 0,
    turns: 2,
    level: 1.5,
  });
  const held = (breath: 'blow' | 'draw', hole: number, bend = 0) => ({
    breath,
    notes: [{ hole, bend, over: false, slide: false }],
  });
  const harpNamed = (name: string): Harp => present(readHarp(name, RICHTER), name);
  const figure = {
    kind: 'side-by-side',
    tune: 'A <tune>',
    sides: [side(harpNamed('C'), 2), side(harpNamed('F'), 3)],
    bars: [
      {
        number: 1,
        notes: [
          { midis: [67], held: [held('draw', 2), held('draw', 1)] },
          { midis: [70], held: [held('draw', 3, 1), null] },
        ],
      },
    ],
  } as const;
  const rowsOf = (own: Figure): string[][] => {
    const drawn = page(drawFigure(own));
    for (const hidden of drawn.querySelectorAll('[aria-hidden]')) hidden.remove();
    return [...drawn.querySelectorAll('tr')].map((row) => [...row.children].map(textOf));
  };

  it('has a row for each note, and says below what changes', () => {
    wellFormed(drawFigure(figure));
    expect(rowsOf(figure)).toEqual([
      ['Note', 'C', 'F'],
      ['G', 'draw 2', 'draw 1'],
      ['B♭', 'draw 3, half-step bend', 'cannot be played'],
      ['', 'C harp, second position, in G', 'F harp, third position, in G'],
      ['Bent notes', '1', '1'],
      ['Turns of the breath', '2', '2'],
      ['Difficulty, of 10', '1.5', '1.5'],
      ['Cannot be played', 'none', 'B♭4'],
    ]);
  });

  it('names degrees where its sides are two positions of one harp', () => {
    const [first] = figure.sides;
    const rows = rowsOf({ ...figure, sides: [first, side(first.harp, 1)] });
    expect(rows.slice(0, 3)).toEqual([
      ['Degree', 'second', 'first'],
      ['1', 'draw 2', 'draw 1'],
      ['♭3', 'draw 3, half-step bend', 'cannot be played'],
    ]);
  });

  it('follows the student’s harp, and the other side stays as far away', () => {
    const moved = moveFigure(figure, harpNamed('A'));
    expect(rowsOf(moved).slice(0, 4)).toEqual([
      ['Note', 'A', 'D'],
      ['E', 'draw 2', 'draw 1'],
      ['G', 'draw 3, half-step bend', 'cannot be played'],
      ['', 'A harp, second position, in E', 'D harp, third position, in E'],
    ]);
    expect(moveFigure(moved, harpNamed('C'))).toEqual(figure);
    // A standard G harp lies an octave below the one that would be as far from D as F is from C.
    expect(rowsOf(moveFigure(figure, harpNamed('D')))).toContainEqual(['Sounds', 'as written', 'an octave lower']);
  });
});
