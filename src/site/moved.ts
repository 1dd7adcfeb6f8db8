/** Pages that have another address than before, and what a browser has to know of former names. */
import type { FormerIds } from '../browser/progress/former.ts';
import type { Site } from './site.ts';
import { techniquesOf } from './techniques.ts';

/** Where a page is now. */
export interface MovedPage {
  readonly address: string;
  readonly title: string;
}

/** Lessons of the site by the names they had before. */
export function movedLessons({ addresses, course, lessons }: Site): ReadonlyMap<string, MovedPage> {
  const shown = new Map(lessons.map((lesson) => [lesson.id, lesson]));
  const moved = [...course.former.lessons].flatMap(([old, id]): [string, MovedPage][] => {
    const lesson = course.byId.has(old) ? undefined : shown.get(id);
    return lesson ? [[old, { address: addresses.lesson(id), title: lesson.frontMatter.title }]] : [];
  });
  return new Map(moved);
}

/** Techniques that have a page, by the ids they had before. */
export function movedTechniques(site: Site): ReadonlyMap<string, MovedPage> {
  const { former, byId } = site.course.repertoire;
  const shown = techniquesOf(site);
  const moved = [...former].flatMap(([old, id]): [string, MovedPage][] => {
    const page = byId.has(old) ? undefined : shown.get(id);
    return page ? [[old, { address: site.addresses.technique(id), title: page.technique.title }]] : [];
  });
  return new Map(moved);
}

/** The names under which a browser may have kept marks of what the site shows; undefined where nothing was renamed. */
export function formerIdsOf(site: Site): FormerIds | undefined {
  const shown = new Set(site.lessons.map(({ id }) => id));
  const { lessons, blocks } = site.course.former;
  const former: FormerIds = {
    lessons: Object.fromEntries([...lessons].filter(([, id]) => shown.has(id))),
    blocks: Object.fromEntries(
      [...blocks].flatMap(([lesson, own]) =>
        shown.has(lesson) ? [...own].map(([old, id]) => [`${lesson}/${old}`, `${lesson}/${id}`]) : [],
      ),
    ),
  };
  return Object.keys(former.lessons).length + Object.keys(former.blocks).length > 0 ? former : undefined;
}

/** The ids a block of a lesson had before, each by the anchor it has on the page. */
export const formerBlocks = ({ course }: Pick<Site, 'course'>, lesson: string, block: string): readonly string[] =>
  [...(course.former.blocks.get(lesson) ?? [])].flatMap(([old, id]) => (id === block ? old : []));
