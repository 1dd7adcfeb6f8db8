import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stepOf } from '../../src/curriculum/curriculum.ts';
import { itemAt } from '../../src/values/checked.ts';
import { curriculum, type Written, type WrittenCourse } from './some-course.ts';

describe('the path', () => {
  it('goes by stage, then by the order asked for, then as written, wherever nothing ties', () => {
    const path = curriculum({ d: { stage: 'end' }, c: { stage: 'start' }, b: { stage: 'start', order: 1 }, a: {} });
    expect(path.order).toEqual(['a', 'b', 'c', 'd']);
  });

  it('brings what a lesson needs forward with it', () => {
    const path = curriculum({ b: { order: 2 }, z: {}, a: { order: 1, requires: ['z'] }, c: { stage: 'start' } });
    expect(path.order).toEqual(['z', 'a', 'b', 'c']);
  });

  it('gathers every reason for one tie', () => {
    const path = curriculum({
      a: { teaches: ['draw-4-half-step'], blocks: ["slot: 1/2\n-4' 4"] },
      b: { requires: ['a'], quotes: ['a/0'], blocks: ["slot: 1/2\n-4' 4", "slot: 1/2\n-4' -4'"] },
    });
    expect(path.links).toEqual([
      {
        from: 'a',
        to: 'b',
        reasons: [
          { kind: 'requires' },
          { kind: 'quotes', block: 0, quoted: '0' },
          { kind: 'technique', technique: 'draw-4-half-step', block: 0 },
        ],
      },
    ]);
  });

  it('puts the lesson that teaches before the one that uses, even where the author forgot to say so', () => {
    const path = curriculum({
      a: {},
      use: { requires: ['a'], blocks: ["slot: 1/2\n-4' 4"] },
      teach: { requires: ['a'], teaches: ['draw-4-half-step'], blocks: ["slot: 1/2\n-4' 4"] },
    });
    expect(path.order).toEqual(['a', 'teach', 'use']);
    expect(path.numbered.gaps).toHaveLength(1);
  });

  it('shows only what no longer way brings along', () => {
    const path = curriculum({
      a: {},
      b: { requires: ['a'] },
      c: { requires: ['a', 'b'] },
      d: { requires: ['a', 'c'] },
    });
    expect([...path.steps.values()].map(({ needs }) => needs)).toEqual([[], ['a'], ['b'], ['c']]);
    expect([...path.steps.values()].map(({ opens }) => opens)).toEqual([['b'], ['c'], ['d'], []]);
  });

  it('knows who teaches each technique, in its own order', () => {
    const path = curriculum({
      b: { order: 2, teaches: ['shuffle', 'draw-bends'] },
      a: { order: 1, teaches: ['shuffle', 'shuffle'] },
    });
    expect(Object.fromEntries(path.teachers)).toEqual({ shuffle: ['a', 'b'], 'draw-bends': ['b'] });
  });

  it('has no step of a lesson that is not on it', () => {
    const path = curriculum({ a: {} });
    expect(stepOf(path, 'a').lesson.id).toBe('a');
    expect(() => stepOf(path, 'b')).toThrow(RangeError);
  });

  it('is there even where lessons go round in a cycle, and leaves nobody out', () => {
    const path = curriculum({
      a: { requires: ['c'] },
      b: { requires: ['a'] },
      c: { requires: ['b'] },
      d: { requires: ['c'] },
    });
    expect(path.order).toEqual(['a', 'b', 'c', 'd']);
    expect(stepOf(path, 'd').needs).toEqual(['c']);
  });

  it('respects every written tie, whatever else lessons teach and use', () => {
    const techniques = ['draw-4-half-step', 'draw-bends', 'shuffle', 'octave-splits', 'single-notes'];
    const blocks = ["slot: 1/2\n-4' 4", 'feel: shuffle\nslot: 1/1\n4', 'slot: 1/1\n(1 4)[tongue]', 'slot: 1/1\n5'];
    const lesson = fc.record({
      requires: fc.array(fc.nat(11), { maxLength: 3 }),
      teaches: fc.uniqueArray(fc.constantFrom(...techniques), { maxLength: 2 }),
      blocks: fc.uniqueArray(fc.constantFrom(...blocks), { maxLength: 2 }),
      stage: fc.constantFrom('start', 'middle', 'end'),
    });
    fc.assert(
      fc.property(fc.array(lesson, { minLength: 1, maxLength: 12 }), (written) => {
        const course: WrittenCourse = Object.fromEntries(
          written.map(({ requires, ...rest }, number): [string, Written] => [
            `n${number}`,
            { ...rest, requires: requires.filter((other) => other < number).map((other) => `n${other}`) },
          ]),
        );
        const path = curriculum(course);
        expect([...path.order].sort()).toEqual(written.map((_, number) => `n${number}`).sort());
        for (const { from, to } of path.links) {
          expect(path.order.slice(0, path.order.indexOf(to))).toContain(from);
        }
        const { written: ties, rank } = path.numbered;
        for (const { from, to } of ties) expect(rank[from]).toBeLessThan(itemAt(rank, to));
      }),
    );
  });
});
