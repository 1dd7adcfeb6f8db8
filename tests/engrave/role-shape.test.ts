import { describe, expect, it } from 'vitest';
import { halfOfShape, roleShape, SHAPES } from '../../src/engrave/role-shape.ts';
import { songKey } from '../../src/harmony/key.ts';
import { roleOf } from '../../src/harmony/role.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { present } from '../../src/values/checked.ts';
import { parsed } from './pictures.ts';

const C = songKey({ letter: 'C', alter: 0 }, 'major');
const C7 = present(readChord('C7', C), 'the chord');
const corners = (path: string): number => path.split('L').length;

describe('the mark of a role', () => {
  it('has as many sides as its degree from the third on', () => {
    expect(([5, 6, 7] as const).map((degree) => corners(SHAPES[degree].path))).toEqual([5, 6, 7]);
    expect(SHAPES[3].path.match(/[MLHZ]/g)).toEqual(['M', 'L', 'H', 'Z']);
    expect(SHAPES[4].path.match(/[MLHVZ]/g)).toEqual(['M', 'H', 'V', 'H', 'Z']);
  });
  it('is a picture of its own, hidden from readers of text', () => {
    const mark = parsed(roleShape(roleOf(64, C7, C), { size: 24, text: '5' })).querySelector('svg');
    expect(mark?.getAttribute('width')).toBe('24');
    expect(mark?.getAttribute('aria-hidden')).toBe('true');
    expect(mark?.querySelector('path')?.getAttribute('class')).toBe('m r3');
    expect(mark?.querySelector('text')?.textContent).toBe('5');
  });
  it('is hollow for a flat role, and its number then is in ink', () => {
    const mark = parsed(roleShape(roleOf(63, C7, C), { size: 24, text: '3' }));
    expect(mark.querySelector('path')?.getAttribute('class')).toBe('m r3 f');
    expect(mark.querySelector('text')?.getAttribute('class')).toBe('n');
    const natural = parsed(roleShape(roleOf(60, C7, C), { size: 24, text: '3' }));
    expect(natural.querySelector('text')?.getAttribute('class')).toBe('n on1');
  });
  it('is wider for the number of a quarter step where it is a triangle, and no other', () => {
    const neutral = roleOf(63.5, C7, C);
    const wide = parsed(roleShape(neutral, { size: 32, text: '3q' })).querySelector('svg');
    expect(neutral.degree).toBe(3);
    expect(wide?.querySelector('path')?.getAttribute('transform')).toBe('scale(1.3 1)');
    expect(Number(wide?.getAttribute('width'))).toBeGreaterThanOrEqual(2 * halfOfShape(neutral, '3q'));
    expect(wide?.querySelector('text')?.getAttribute('textLength')).toBe('10.8');
    expect([halfOfShape(neutral, '3'), halfOfShape(neutral, undefined)]).toEqual([SHAPES[3].half, SHAPES[3].half]);
    expect(halfOfShape(neutral, '10q')).toBeGreaterThan(halfOfShape(neutral, '3q'));
    expect(halfOfShape(roleOf(59.5, C7, C), '3q')).toBe(SHAPES[1].half);
  });
  it('may be alone, and escapes what is in it', () => {
    expect(roleShape(roleOf(60, C7, C), { size: 12 })).not.toContain('<text');
    expect(roleShape(roleOf(60, C7, C), { size: 12, text: '<' })).toContain('&lt;');
  });
});
