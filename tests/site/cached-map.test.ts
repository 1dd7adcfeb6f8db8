import { describe, expect, test } from 'vitest';
import { mapOf } from '../../src/curriculum/map.ts';
import { engraver } from '../../src/publish/engraving/engraver.ts';
import { openRecordStore } from '../../src/publish/engraving/record-store.ts';
import { cachedMap } from '../../src/site/cached-map.ts';
import { folderOf } from '../course/some-course.ts';
import { curriculum, type Written, type WrittenCourse } from '../curriculum/some-course.ts';

const WIDE: WrittenCourse = Object.fromEntries(
  Array.from({ length: 24 }, (_, number): [string, Written] => [
    `n${number}`,
    {
      stage: number < 12 ? 'start' : 'end',
      requires: [number - 2, number - 5, number - 11].filter((other) => other >= 0).map((other) => `n${other}`),
    },
  ]),
);

const keeping = (folder: string) => {
  let made = 0;
  const pack = openRecordStore(folder);
  const { cached: kept } = engraver({
    store: pack,
    blockEngraver: () => {
      throw new Error('A map is no block.');
    },
  });
  return {
    map: (course: WrittenCourse) => {
      const path = curriculum(course);
      return cachedMap(path, path.order, {
        cached: (key, make) =>
          kept(key, () => {
            made++;
            return make();
          }),
      });
    },
    made: () => made,
    close: () => pack.close(),
  };
};
const fresh = (course: WrittenCourse) => {
  const path = curriculum(course);
  return mapOf(path, path.order);
};

describe('a map of the path', () => {
  test('is what it would be if it were arranged now, and is arranged once', () => {
    const folder = folderOf({});
    for (const runs of [1, 0]) {
      const run = keeping(folder);
      expect(run.map(WIDE)).toEqual(fresh(WIDE));
      expect(run.made()).toBe(runs);
      run.close();
    }
  });

  test('is arranged again where anything of it is another', () => {
    const run = keeping(folderOf({}));
    run.map(WIDE);
    const others: Readonly<Record<string, Written>>[] = [
      { n7: { stage: 'start', requires: ['n1'] } },
      { n20: { stage: 'end', requires: [] } },
      { n24: { stage: 'end', requires: ['n23'] } },
    ];
    for (const other of others) expect(run.map({ ...WIDE, ...other })).toEqual(fresh({ ...WIDE, ...other }));
    expect(run.made()).toBe(1 + others.length);
  });
});
