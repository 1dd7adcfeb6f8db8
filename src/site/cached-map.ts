/** Maps of the path, each arranged once and kept for the next run. */
import type { Curriculum } from '../curriculum/curriculum.ts';
import { mapOf, type PathMap } from '../curriculum/map.ts';
import { layOutMap, type MapLayout } from '../curriculum/map-layout.ts';
import type { Engraver } from './engraver.ts';

/** The map of some lessons, from the cache where it was laid out before. */
export const cachedMap = (
  path: Curriculum,
  lessons: readonly string[],
  { cached }: Pick<Engraver, 'cached'>,
): PathMap =>
  mapOf(path, lessons, (...from): MapLayout => {
    const text = cached(`map ${JSON.stringify(from)}`, () => JSON.stringify(layOutMap(...from)));
    return JSON.parse(text) as MapLayout;
  });
