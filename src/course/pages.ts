/** The pages of a site beside its lessons: which there are depends on the whole course. */
import { reporter } from '../diagnostics/catalogue.ts';
import { nearest, nearestNow } from '../diagnostics/nearest.ts';
import { type Problem, problemAt } from '../diagnostics/place.ts';
import { type Course, harpsOf, type Lesson } from './course.ts';
import { formerStages } from './former/names.ts';
import { PAGE_PLACES } from './link.ts';
import { COURSE_PROBLEMS } from './problems.ts';
import { shownTechniques } from './shown-techniques.ts';

const report = reporter(COURSE_PROBLEMS);

type CheckedCourse = Pick<Course, 'file' | 'glossary' | 'lessons' | 'path' | 'repertoire' | 'tunings'>;

/** Of links to pages of the site, each address is that of a page, and what is behind `#` a place on it. */
export function pagesExist(course: CheckedCourse): Problem[] {
  const seen = new Map<boolean, Shown>();
  const shownWith = (drafts: boolean): Shown => {
    const shown = seen.get(drafts) ?? shownIn(course, drafts);
    seen.set(drafts, shown);
    return shown;
  };
  return course.lessons.flatMap((lesson) =>
    lesson.links.flatMap((link) => {
      if (link.target.kind !== 'page') return [];
      const { path, rest } = link.target;
      return faultOf(course, shownWith(lesson.frontMatter.draft), path.replace(/\/$/, ''), rest).map((diagnostic) =>
        problemAt(diagnostic, lesson.file, link.range),
      );
    }),
  );
}

/** What has a page of its own: techniques that are taught or used, and tunings that are played. */
interface Shown {
  readonly techniques: ReadonlySet<string>;
  readonly harps: ReadonlySet<string>;
  /** Places on the page of the glossary. */
  readonly terms: ReadonlySet<string>;
  /** Whether a block or figure could not be read, so that there may be more. */
  readonly unsure: boolean;
}

const isBroken = ({ blocks, figures }: Lesson): boolean =>
  blocks.some(({ score }) => !score) || figures.some(({ figure }) => !figure);

/** Drafts have pages only where they are shown themselves. */
function shownIn({ glossary, lessons, path, repertoire }: CheckedCourse, drafts: boolean): Shown {
  const shown = lessons.filter(({ frontMatter }) => drafts || !frontMatter.draft);
  return {
    techniques: new Set(shownTechniques(shown, path, repertoire).keys()),
    harps: new Set(shown.flatMap((lesson) => harpsOf(lesson).map(({ tuning }) => tuning.id))),
    terms: new Set(glossary.terms.map(({ id }) => `term-${id}`)),
    unsure: shown.some(isBroken),
  };
}

function faultOf(course: CheckedCourse, shown: Shown, path: string, rest: string) {
  const [first = '', ...below] = path.split('/');
  const name = below.join('/');
  const tables: Readonly<Record<string, { shown: ReadonlySet<string>; all: ReadonlySet<string> }>> = {
    techniques: { shown: shown.techniques, all: new Set(course.repertoire.byId.keys()) },
    harps: { shown: shown.harps, all: new Set(course.tunings.map(({ id }) => id)) },
  };
  if (below.length > 0) {
    const table = Object.hasOwn(tables, first) ? tables[first] : undefined;
    const idle = table?.all.has(name) ?? false;
    if (!table?.shown.has(name) && !(idle && shown.unsure)) {
      const now = first === 'techniques' ? course.repertoire.former.get(name) : undefined;
      const near = now ?? (table && !idle ? nearest(name, table.shown) : undefined);
      const facts = {
        path: `/${path}`,
        nearest: `/${first}${near === undefined ? '' : `/${near}`}`,
        idle,
        ...(now === undefined ? {} : { renamed: true as const }),
      };
      return [report('link-page-unknown', SOMEWHERE, facts)];
    }
  }
  if (first === 'glossary' && course.glossary.terms.length === 0)
    return [report('link-page-unknown', SOMEWHERE, { path: `/${path}`, nearest: undefined })];
  const place = /#(.+)$/s.exec(rest)?.[1];
  if (place === undefined) return [];
  // A glossary may have as many words as its lessons have links to them.
  if (first === 'glossary' && shown.terms.has(decoded(place))) return [];
  const ids = (first === 'glossary' ? course.glossary.terms : [{ id: 'none' }, ...course.file.stages]).map(
    ({ id }) => id,
  );
  const places = (PAGE_PLACES[below.length > 0 ? `${first}/*` : first] ?? []).flatMap((one) =>
    one.endsWith('*') ? ids.map((id) => one.replace('*', id)) : one,
  );
  if (places.includes(decoded(place))) return [];
  const former = new Map([...formerStages(course.file)].map(([old, id]) => [`stage-${old}`, `stage-${id}`]));
  const near = nearestNow(place, places, first === '' ? former : undefined);
  const facts = { path: `/${path}`, place, ...near, known: places };
  return [report('link-page-anchor', SOMEWHERE, facts)];
}

const SOMEWHERE = { from: 0, to: 0 };

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
