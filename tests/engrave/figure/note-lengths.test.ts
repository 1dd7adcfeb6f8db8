// @vitest-environment jsdom
import { describe, expect, it } from 'vitest';
import { drawFigure } from '../../../src/engrave/figure/draw.ts';
import { page, textOf, wellFormed } from './figure-page.ts';

describe('note lengths', () => {
  const figure = { kind: 'note-lengths', slot: { n: 1, d: 8 } } as const;

  it('have a name, beats and signs', () => {
    wellFormed(drawFigure(figure));
    const items = [...page(drawFigure(figure)).querySelectorAll('li > div')].map(textOf);
    expect(items[0]).toBe('Whole note: four beats, written 4 =7');
    expect(items[3]).toBe('Dotted quarter and eighth note: one and a half beats and half a beat, written 4 = = 4');
    expect(items[6]).toBe('Triplet of eighth notes: a third of a beat each, written {4 4 4}2');
  });

  it('are drawn as numbers in the lane, with a line where there is room', () => {
    const pictures = [...page(drawFigure(figure)).querySelectorAll('svg')];
    const counts = (selector: string): number[] => pictures.map((one) => one.querySelectorAll(selector).length);
    expect(counts('text')).toEqual([1, 1, 1, 2, 1, 2, 3, 4]);
    expect(counts('.d')).toEqual([1, 1, 1, 2, 1, 2, 0, 0]);
  });
});
