/** What pages say of techniques: where each is taught, and which blocks use it. */
import { shownTechniques, type TechniqueUse } from '../course/shown-techniques.ts';
import type { Technique } from '../technique/technique.ts';
import { valueAt } from '../values/checked.ts';
import type { OutlinedLesson } from './outline.ts';
import type { Site } from './site.ts';

/** What the page of a technique shows. */
export interface TechniquePage {
  readonly technique: Technique;
  /** In path order. */
  readonly taughtIn: readonly OutlinedLesson[];
  /** From the easiest block up. */
  readonly uses: readonly TechniqueUse[];
}

const known = new WeakMap<Site, ReadonlyMap<string, TechniquePage>>();

/** The techniques that have a page, by id, in the order of the repertoire. */
export function techniquesOf(site: Site): ReadonlyMap<string, TechniquePage> {
  const before = known.get(site);
  if (before) return before;
  const pages = new Map<string, TechniquePage>();
  for (const [id, shown] of shownTechniques(site.lessons, site.path, site.course.repertoire)) {
    pages.set(id, { ...shown, taughtIn: shown.taughtIn.map((lesson) => valueAt(site.outline.places, lesson.id)) });
  }
  known.set(site, pages);
  return pages;
}
