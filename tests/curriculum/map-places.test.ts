/** Where the boxes, bands and lines of small maps are, worked out by hand from the sizes. */
import { describe, expect, it } from 'vitest';
import { layersOf } from '../../src/curriculum/layers.ts';
import { BOX, mapOf, type PathMap, WIDTH } from '../../src/curriculum/map.ts';
import { layOutMap, rowWidths } from '../../src/curriculum/map-layout.ts';
import { SHEET, sheetsOf } from '../../src/curriculum/sheets.ts';
import { itemAt } from '../../src/values/checked.ts';
import { curriculum, type WrittenCourse } from './some-course.ts';

const drawn = (course: WrittenCourse): PathMap => {
  const path = curriculum(course);
  return mapOf(path, path.order);
};

/** Of a map: the room for a band's name, and from one row of boxes to the next. */
const [BAND, ROW] = [34, BOX.height + 32];
const MIDDLE = WIDTH / 2;

describe('a map', () => {
  it('of one lesson has it in the middle, below the name of its band', () => {
    expect(drawn({ a: {} })).toEqual({
      width: WIDTH,
      height: BAND + ROW,
      boxes: [{ lesson: 'a', x: MIDDLE - BOX.width / 2, y: BAND, elsewhere: [] }],
      bands: [{ continued: false, top: 0, height: BAND + ROW }],
      lines: [],
    });
  });

  it('of a chain has one lesson below the other, with lines straight down from edge to edge', () => {
    const { boxes, lines } = drawn({ a: {}, b: { requires: ['a'] }, c: { requires: ['b'] } });
    expect(boxes.map(({ x, y }) => [x, y])).toEqual([0, 1, 2].map((row) => [MIDDLE - BOX.width / 2, BAND + row * ROW]));
    expect(lines).toEqual(
      [
        ['a', 'b', 0],
        ['b', 'c', 1],
      ].map(([from, to, row]) => ({
        from,
        to,
        points: [
          { x: MIDDLE, y: BAND + Number(row) * ROW + BOX.height },
          { x: MIDDLE, y: BAND + (Number(row) + 1) * ROW },
        ],
      })),
    );
  });

  it('of a fork spreads the lines along the edge they leave, in the order of where they go', () => {
    const { boxes, lines } = drawn({ a: {}, b: { requires: ['a'] }, c: { requires: ['a'] }, d: { requires: ['a'] } });
    const middleOf = (id: string): number => (boxes.find(({ lesson }) => lesson === id)?.x ?? 0) + BOX.width / 2;
    const starts = lines
      .map(({ to, points }) => [middleOf(to), itemAt(points, 0).x])
      .sort(([a = 0], [b = 0]) => a - b)
      .map(([, x]) => x);
    // Four fifths of the edge, in four parts.
    expect(starts).toEqual([-0.2, 0, 0.2].map((share) => Math.round((middleOf('a') + share * BOX.width) * 10) / 10));
    for (const { to, points } of lines) expect(points.at(-1)?.x).toBe(middleOf(to));
    const row = boxes.filter(({ lesson }) => lesson !== 'a').map(({ x, y }) => [x, y]);
    expect(new Set(row.map(([, y]) => y))).toEqual(new Set([BAND + ROW]));
  });

  it('of a join spreads the lines along the edge they enter', () => {
    const { boxes, lines } = drawn({ a: {}, b: {}, c: { requires: ['a', 'b'] } });
    const ends = lines.map(({ points }) => points.at(-1)?.x ?? 0).sort((a, b) => a - b);
    const middle = (boxes.find(({ lesson }) => lesson === 'c')?.x ?? 0) + BOX.width / 2;
    expect(ends.map((x) => Math.round(10 * Math.abs(x - middle)))).toEqual([125, 125]);
  });

  it('leads a line straight past the rows between', () => {
    const { lines } = drawn({
      e: {},
      a: {},
      b: { requires: ['a'] },
      c: { requires: ['b'] },
      d: { requires: ['c', 'e'] },
    });
    const points = lines.find(({ from, to }) => from === 'e' && to === 'd')?.points ?? [];
    const ys = [0, 1, 2, 3].flatMap((row) => [BAND + row * ROW, BAND + row * ROW + BOX.height]);
    expect(points.map(({ y }) => y)).toEqual(ys.slice(1, -1));
    expect(points[1]?.x).toBe(points[2]?.x);
    expect(points[3]?.x).toBe(points[4]?.x);
  });

  it('names each band and has room for its name', () => {
    const { bands, boxes, height } = drawn({ a: {}, b: { stage: 'start' }, c: { stage: 'start', requires: ['b'] } });
    expect(bands).toEqual([
      { continued: false, top: 0, height: BAND + ROW },
      { stage: 'start', continued: false, top: BAND + ROW, height: BAND + 2 * ROW },
    ]);
    expect(boxes.map(({ y }) => y)).toEqual([BAND, 2 * BAND + ROW, 2 * BAND + 2 * ROW]);
    expect(height).toBe(2 * BAND + 3 * ROW);
  });

  it('is arranged by anyone who knows the answer from before', () => {
    const path = curriculum({ a: {}, b: { requires: ['a'] } });
    let asked: unknown;
    const map = mapOf(path, path.order, (...given) => {
      asked = given;
      return { boxes: [50, 100.04], lines: [[]] };
    });
    expect(asked).toEqual([[0, 1], [[0, 1]], { box: BOX.width, width: WIDTH - 12 }]);
    expect(map.boxes.map(({ x }) => x)).toEqual([50 - BOX.width / 2 + 6, 59]);
  });
});

describe('the rows', () => {
  const rows = (course: WrittenCourse, bound: number) => {
    const path = curriculum(course);
    return layersOf(path, path.order, bound).layer;
  };
  it('take so many lessons and no more', () => {
    const four: WrittenCourse = { a: {}, b: {}, c: {}, d: {} };
    expect(rows(four, 3)).toEqual([0, 0, 0, 1]);
    expect(rows(four, 2)).toEqual([0, 0, 1, 1]);
    expect(rows(four, 1)).toEqual([0, 1, 2, 3]);
  });
  it('put a lesson below the last of what it needs, and fill what is left above', () => {
    const course = { a: {}, b: { requires: ['a'] }, c: { requires: ['a', 'b'] }, d: {} };
    expect(rows(course, 3)).toEqual([0, 1, 2, 0]);
  });
  it('of a stage begin below those of the one before', () => {
    expect(rows({ a: { stage: 'start' }, b: { stage: 'middle' }, c: { stage: 'middle' } }, 3)).toEqual([0, 1, 1]);
  });
  it('of lessons of no stage are a band without one', () => {
    const path = curriculum({ a: {}, b: {} });
    expect(layersOf(path, path.order, 3).bands).toEqual([{ continued: false, firstLayer: 0, lastLayer: 0 }]);
    expect(layersOf(path, [], 3)).toEqual({ layer: [], bands: [] });
  });
  it('are as wide as their boxes, with room between, and the lines that pass', () => {
    expect(rowWidths([0, 0, 0, 1, 2], [], 100)).toEqual([320, 100, 100]);
    expect(
      rowWidths(
        [0, 1, 2, 3],
        [
          [0, 3],
          [0, 2],
          [0, 1],
        ],
        100,
      ),
    ).toEqual([100, 114, 107, 100]);
    expect(rowWidths([], [], 100)).toEqual([]);
  });
});

describe('the layout', () => {
  it('centres what is narrower than the map', () => {
    const { boxes } = layOutMap([0, 0], [], { box: 100, width: 400 });
    expect([...boxes].sort((a, b) => a - b)).toEqual([145, 255]);
  });
  it('moves what is wider together, as far as boxes may go, and keeps its order', () => {
    const wide = layOutMap([0, 0, 0], [], { box: 100, width: 320 });
    expect([...wide.boxes].sort((a, b) => a - b).map(Math.round)).toEqual([50, 160, 270]);
    const steps = [0, 1, 2, 3].flatMap((from) => [4, 5, 6, 7].map((to) => [from, to] as const));
    const { boxes } = layOutMap([0, 0, 0, 0, 1, 1, 1, 1], steps, { box: 100, width: 430 });
    for (const row of [boxes.slice(0, 4), boxes.slice(4)]) {
      const sorted = [...row].sort((a, b) => a - b);
      expect(sorted.map(Math.round)).toEqual([50, 160, 270, 380]);
    }
  });
  it('says where a line passes each row between its ends', () => {
    const { lines } = layOutMap(
      [0, 1, 2],
      [
        [0, 1],
        [1, 2],
        [0, 2],
      ],
      { box: 100, width: 400 },
    );
    expect(lines.map((crossings) => crossings.map(({ row }) => row))).toEqual([[], [], [1]]);
  });
});

describe('the sheets of lessons of no stage', () => {
  it('have none, and a part where there are several', () => {
    const course = Object.fromEntries(Array.from({ length: SHEET + 1 }, (_, number) => [`n${number}`, {}]));
    expect(sheetsOf(curriculum(course)).map(({ lessons, ...sheet }) => [lessons.length, sheet])).toEqual([
      [21, { part: 1 }],
      [20, { part: 2 }],
    ]);
  });
  it('are one without a name where the whole path fits', () => {
    expect(sheetsOf(curriculum({ a: { stage: 'start' } }))).toEqual([{ lessons: ['a'] }]);
  });
});
