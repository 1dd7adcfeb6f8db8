/** Maps of the path, each arranged once and kept for the next run. */
import { type Arranged, arrange } from '../curriculum/arrange.ts';
import type { Curriculum } from '../curriculum/curriculum.ts';
import { mapOf, type PathMap } from '../curriculum/map.ts';
import type { Engraver } from './engraver.ts';

export const keptMap = (path: Curriculum, lessons: readonly string[], { kept }: Pick<Engraver, 'kept'>): PathMap =>
  mapOf(path, lessons, (...from): Arranged => {
    const text = kept(`map ${JSON.stringify(from)}`, () => JSON.stringify(arrange(...from)));
    return JSON.parse(text) as Arranged;
  });
