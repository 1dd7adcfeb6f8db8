import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layersOf } from '../../src/curriculum/layers.ts';
import { BOX, mapOf, type PathMap } from '../../src/curriculum/map.ts';
import { SHEET, sheetsOf } from '../../src/curriculum/sheets.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';
import { curriculum, type Written, type WrittenCourse } from './some-course.ts';

const STAGES = ['start', 'middle', 'end'];

/** Courses whose lessons require some of those before them, stage after stage. */
const courses = (most: number) =>
  fc.array(fc.array(fc.nat(6), { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: most }).map(
    (backs): WrittenCourse =>
      Object.fromEntries(
        backs.map((steps, number): [string, Written] => [
          `n${number}`,
          {
            stage: itemAt(STAGES, Math.floor((3 * number) / backs.length)),
            requires: [...new Set(steps.map((step) => number - 1 - step).filter((other) => other >= 0))].map(
              (other) => `n${other}`,
            ),
          },
        ]),
      ),
  );

const drawn = (course: WrittenCourse): PathMap => {
  const path = curriculum(course);
  return mapOf(path, path.order);
};

describe('the map of a path', () => {
  it('puts no box on another, and each below what it builds on', () => {
    fc.assert(
      fc.property(courses(30), (course) => {
        const { boxes, lines, width, height } = drawn(course);
        for (const a of boxes) {
          expect(a.x).toBeGreaterThanOrEqual(0);
          expect(a.x + BOX.width).toBeLessThanOrEqual(width);
          expect(a.y + BOX.height).toBeLessThanOrEqual(height);
          const near = boxes.filter(
            (b) => a !== b && Math.abs(a.x - b.x) < BOX.width && Math.abs(a.y - b.y) < BOX.height,
          );
          expect(near).toEqual([]);
        }
        const at = new Map(boxes.map((box) => [box.lesson, box]));
        for (const { from, to, points } of lines) {
          expect(points[0]?.y).toBe((at.get(from)?.y ?? 0) + BOX.height);
          expect(points.at(-1)?.y).toBe(at.get(to)?.y);
          for (let i = 1; i < points.length; i++)
            expect(points[i]?.y).toBeGreaterThan(present(points[i - 1]?.y, 'the number'));
        }
      }),
      { numRuns: cases(40, 200) },
    );
  });

  it('leads no line through a box', () => {
    fc.assert(
      fc.property(courses(30), (course) => {
        const { boxes, lines } = drawn(course);
        const hit = lines
          .flatMap(({ points }) => points.slice(1, -1))
          .filter(({ x, y }) =>
            boxes.some((box) => x > box.x && x < box.x + BOX.width && y > box.y && y < box.y + BOX.height),
          );
        expect(hit).toEqual([]);
      }),
      { numRuns: cases(40, 200) },
    );
  });

  it('draws a line for every step and no other', () => {
    fc.assert(
      fc.property(courses(20), (course) => {
        const path = curriculum(course);
        const steps = [...path.steps].flatMap(([to, { needs }]) => needs.map((from) => `${from} ${to}`)).sort();
        expect(
          mapOf(path, path.order)
            .lines.map(({ from, to }) => `${from} ${to}`)
            .sort(),
        ).toEqual(steps);
      }),
      { numRuns: cases(40, 200) },
    );
  });

  it('fits a phone 360 pixels wide: three to a row, or fewer where many lines pass', () => {
    fc.assert(
      fc.property(courses(24), (course) => {
        expect(drawn(course).width).toBeLessThanOrEqual(336);
      }),
      { numRuns: cases(40, 200) },
    );
  });

  it('stacks its bands without gap or overlap, stage after stage', () => {
    const { bands, height } = drawn({
      a: { stage: 'start' },
      b: { stage: 'start', requires: ['a'] },
      c: { stage: 'middle', requires: ['a'] },
      d: { stage: 'end', requires: ['b', 'c'] },
    });
    expect(bands.map(({ stage }) => stage)).toEqual(STAGES);
    bands.forEach((band, index) => {
      const next = bands[index + 1];
      expect(band.top + band.height).toBe(next ? next.top : height);
    });
  });

  it('says where a stage continues after another came between', () => {
    const path = curriculum({
      a: { stage: 'start' },
      b: { stage: 'middle', requires: ['a'] },
      c: { stage: 'start', requires: ['b'] },
    });
    expect(layersOf(path, path.order, 3).bands).toEqual([
      { stage: 'start', continued: false, firstLayer: 0, lastLayer: 0 },
      { stage: 'middle', continued: false, firstLayer: 1, lastLayer: 1 },
      { stage: 'start', continued: true, firstLayer: 2, lastLayer: 2 },
    ]);
  });

  it('is the same every time', () => {
    fc.assert(
      fc.property(courses(15), (course) => {
        expect(drawn(course)).toEqual(drawn(course));
      }),
      { numRuns: cases(15, 60) },
    );
  });
});

describe('the sheets of a path', () => {
  const long = (count: number): WrittenCourse =>
    Object.fromEntries(
      Array.from({ length: count }, (_, number): [string, Written] => [
        `n${number}`,
        { stage: itemAt(STAGES, Math.floor((3 * number) / count)), requires: number > 0 ? [`n${number - 1}`] : [] },
      ]),
    );

  it('are one while it can be taken in, and one for each stage beyond that', () => {
    expect(sheetsOf(curriculum(long(SHEET)))).toHaveLength(1);
    expect(sheetsOf(curriculum(long(SHEET + 1))).map(({ stage }) => stage)).toEqual(STAGES);
    expect(sheetsOf(curriculum({}))).toEqual([]);
  });

  it('divide a long stage evenly and leave no lesson out', () => {
    const path = curriculum(long(3 * (SHEET + 1)));
    const sheets = sheetsOf(path);
    expect(sheets.map(({ stage, part, lessons }) => `${stage} ${part} ${lessons.length}`)).toEqual([
      'start 1 21',
      'start 2 20',
      'middle 1 21',
      'middle 2 20',
      'end 1 21',
      'end 2 20',
    ]);
    expect(sheets.flatMap(({ lessons }) => lessons)).toEqual(path.order);
  });

  it('name what a lesson needs from another sheet', () => {
    const path = curriculum(long(SHEET + 2));
    const [, second] = sheetsOf(path);
    const map = mapOf(path, second?.lessons ?? []);
    expect(map.boxes[0]?.elsewhere).toEqual(['n13']);
    expect(map.boxes[1]?.elsewhere).toEqual([]);
  });
});
