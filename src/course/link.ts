/**
 * Where a link of a lesson leads. An author links to a lesson by its name (`first-bends`, `first-bends.mdx`, or from one
 * folder to another `../blues/turnaround`), to a block or heading of it behind `#`, to media by its path below the
 * course (`media/harp.svg`), and to a page of the site by its address (`/path`).
 */
import { posix } from 'node:path';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../diagnostics/edit.ts';
import { type FormerNames, nearest, nearestNow } from '../diagnostics/nearest.ts';
import type { Reference } from '../lesson/reference.ts';
import { GROUPS } from '../technique/technique.ts';
import { itemAt } from '../values/checked.ts';
import { checkLinkQuery, type PlayedScore } from './block-link/check.ts';
import { COURSE_PROBLEMS } from './problems.ts';

/** What a link leads to. */
export type LinkTarget =
  /** `query` is what it asks of the page, with its question mark: the bars and the tempo to play, say. */
  | { readonly kind: 'lesson'; readonly lesson: string; readonly place?: LinkPlace; readonly query?: string }
  /** `path` is relative to the course folder. */
  | { readonly kind: 'media'; readonly path: string }
  /** A page of the site, by its address below the base without a leading slash, and what followed `#` or `?`. */
  | { readonly kind: 'page'; readonly path: string; readonly rest: string }
  | { readonly kind: 'outside' }
  /** It leads nowhere, which has been reported. */
  | { readonly kind: 'broken' };

/** A place in a lesson. */
export type LinkPlace = { readonly block: string } | { readonly heading: string };

/** What links are looked up in. */
export interface Places {
  readonly lessons: ReadonlyMap<string, LessonPlaces>;
  readonly media: ReadonlySet<string>;
  /** Names that lessons had before. */
  readonly former?: FormerNames;
  /** Ids of the tunings that a harp can have. */
  readonly tunings?: readonly string[];
}

/** What of a lesson can be linked to. */
export interface LessonPlaces {
  readonly id: string;
  readonly draft: boolean;
  readonly blocks: readonly { readonly id: string }[];
  /** The score of a block, as far as it is known: what its bars are called. */
  readonly scoreOf?: (block: string) => PlayedScore | undefined;
  readonly headings: readonly { readonly slug: string }[];
  /** Ids that its blocks had before. */
  readonly former?: FormerNames | undefined;
}

/**
 * Pages that are no lessons, by their address below the base, each with the places a link may name behind `#`. In an
 * address `*` stands for the ids of a table, in a place for those of the stages or of the terms.
 */
export const PAGE_PLACES: Readonly<Record<string, readonly string[]>> = {
  '': ['page', 'cautions', 'stage-*'],
  path: ['page'],
  techniques: ['page', ...GROUPS.map((group) => `group-${group}`)],
  'techniques/*': ['page', 'blocks'],
  harps: ['page', 'used', 'keys'],
  'harps/*': ['page', 'map', 'positions', 'tuning', 'lessons'],
  glossary: ['page', 'term-*'],
  'play-along': ['page', 'band', 'drone', 'forms'],
  guide: ['page', 'playing', 'lanes', 'bends', 'together', 'time', 'views', 'roles', 'mouth', 'marks', 'repeats'],
};

/** The first steps of their addresses. */
export const SITE_PAGES: readonly string[] = Object.keys(PAGE_PLACES).filter((page) => !page.endsWith('*'));

const report = reporter(COURSE_PROBLEMS);

/** What a link leads to, with the problems found in it. */
export interface Resolved {
  readonly target: LinkTarget;
  readonly diagnostics: readonly Diagnostic[];
}

const BROKEN: LinkTarget = { kind: 'broken' };
const sound = (target: LinkTarget): Resolved => ({ target, diagnostics: [] });
const broken = (diagnostic: Diagnostic): Resolved => ({ target: BROKEN, diagnostics: [diagnostic] });

/** What a reference of a lesson leads to, or what is wrong with it. */
export function resolve(reference: Reference, from: LessonPlaces, places: Places): Resolved {
  const { span, use } = reference;
  const url = reference.url.trim();
  const odd = oddPath(url, reference, places);
  if (odd) return broken(odd);
  const scheme = schemeOf(url);
  if (scheme !== undefined) return outside(scheme, reference);
  const [, written = '', query, hash] = /^([^?#]*)(\?[^#]*)?(?:#(.*))?$/s.exec(url) ?? [];
  const path = decoded(written);
  const fragment = hash === undefined || hash === '' ? undefined : decoded(hash);

  const media = mediaPath(path);
  if (media !== undefined) {
    const file = fileNamed(media, url, places.media);
    if (file !== undefined) return sound({ kind: 'media', path: file });
    return broken(report('media-missing', span, { path: media, ...fileMeant(media, places.media) }));
  }
  if (use !== 'link') return broken(stray(path, span, places));
  if (path === '') return asked(inLesson(from, fragment, from, reference), query, reference, places);
  if (path.startsWith('/') && !/^\/lessons\/./.test(path)) return page(path, url, span, places);

  const lesson = candidates(path, from.id).find((id) => places.lessons.has(id));
  const found = lesson === undefined ? undefined : places.lessons.get(lesson);
  if (found) return asked(inLesson(found, fragment, from, reference), query, reference, places);
  const bare = bareName(path);
  // A name of a page or text file means the lesson without its extension.
  const unended = /^(.+)\.(?:html?|md|markdown)$/i.exec(bare)?.[1];
  if (unended === undefined && /\.[a-z0-9]{2,4}$/i.test(bare)) return broken(stray(path, span, places));
  const named = unended === undefined ? undefined : candidates(unended, from.id).find((id) => places.lessons.has(id));
  if (named !== undefined) {
    const rest = url.slice(url.search(/[?#]|$/));
    const fix = certainly(span, `${named}${rest}`);
    return broken(report('link-unknown', span, { lesson: bare, nearest: named }, fix));
  }
  const old = candidates(path, from.id).find((id) => places.former?.has(id)) ?? unended;
  const isPage = SITE_PAGES.filter(Boolean).includes(itemAt(bare.split('/'), 0));
  return broken(
    report('link-unknown', span, {
      lesson: bare,
      ...(isPage ? { nearest: `/${bare}` } : nearestNow(old ?? bare, places.lessons.keys(), places.former)),
    }),
  );
}

/** What is wrong with an address that is none here: it is empty, or it is written as in another place. */
function oddPath(url: string, { span, use }: Reference, places: Places): Diagnostic | undefined {
  if (url === '') return report('link-path', span, { why: 'empty', url, meant: undefined });
  if (/^(?:[a-z]:[\\/]|file:|\/(?:home|users|mnt|tmp|var|volumes)\/)/i.test(url))
    return report('link-path', span, { why: 'machine', url, meant: withinCourse(url, places) });
  const slashed = url.includes('\\') ? withinCourse(url, places) : undefined;
  if (slashed !== undefined) return report('link-path', span, { why: 'backslash', url, meant: slashed });
  if (use !== 'link') return undefined;
  if (/^[^\s@/:?#]+@[^\s@/:?#]+\.[a-z]{2,}$/i.test(url))
    return report('link-path', span, { why: 'mail', url, meant: `mailto:${url}` });
  if (
    /^(?:www\.[\w-]+\.|[\w-]+(?:\.[\w-]+)*\.(?:com|org|net|edu|info|io|eu|uk|de|fr|es|it|nl|at|ch|ca|au|us)(?:[/?#]|$))/i.test(
      url,
    )
  )
    return report('link-path', span, { why: 'web', url, meant: `https://${url}` });
  return undefined;
}

/** The lesson or the file of the media folder that a path of another shape ends in, as it is linked to here. */
function withinCourse(url: string, { lessons, media }: Places): string | undefined {
  const [, written = '', rest = ''] = /^([^?#]*)(.*)$/s.exec(url.replaceAll('\\', '/')) ?? [];
  const file = /(?:^|\/)(media\/.+)$/.exec(written)?.[1];
  if (file !== undefined && media.has(file) && isPlain(file)) return file;
  const lesson = bareName(/(?:^|\/)lessons\/(.+)$/.exec(written)?.[1] ?? written).replace(/\.md$/, '');
  return lessons.has(lesson) ? `${lesson}${rest}` : undefined;
}

/** Whether a path can be written in a link as it is. */
const isPlain = (path: string): boolean => /^[\w./-]+$/.test(path);

/** The file that is meant by one that is not there; certain where only capitals or its folder are different. */
function fileMeant(path: string, media: ReadonlySet<string>): MeantFile {
  const all = [...media];
  const name = posix.basename(path).toLowerCase();
  const same = all.filter((one) => one.toLowerCase() === path.toLowerCase());
  const called = same.length > 0 ? same : all.filter((one) => posix.basename(one).toLowerCase() === name);
  const [only, ...others] = called;
  if (only === undefined) return { nearest: nearest(path, all), certain: false };
  return { nearest: only, certain: others.length === 0 && isPlain(only) };
}

interface MeantFile {
  readonly nearest: string | undefined;
  readonly certain: boolean;
}

/** The scheme of a whole address, in small letters; what begins with two slashes is an address of the web. */
function schemeOf(url: string): string | undefined {
  const scheme = /^(?:([a-z][a-z0-9+.-]*):|\/\/)/i.exec(url);
  return scheme ? (scheme[1]?.toLowerCase() ?? 'https') : undefined;
}

/** Whether a page may have a reference though it leads nowhere: it runs no code, and loads nothing of another site by itself. */
export function isSafeReference(reference: Reference): boolean {
  // A browser reads an address without such characters, and a backslash as a slash.
  const scheme = schemeOf(reference.url.replace(/[\s\p{Cc}]/gu, '').replaceAll('\\', '/'));
  return scheme === undefined || outside(scheme, reference).diagnostics.length === 0;
}

function outside(scheme: string, { span, use, url }: Reference): Resolved {
  const web = scheme === 'https' || scheme === 'http';
  if (!(web || (use === 'link' && (scheme === 'mailto' || scheme === 'tel')))) {
    return broken(report('link-unsafe', span, { scheme: `${scheme}:` }));
  }
  if (use !== 'embed') return sound({ kind: 'outside' });
  return {
    target: { kind: 'outside' },
    diagnostics: [report('media-remote', span, { host: URL.parse(url)?.host ?? url })],
  };
}

function page(path: string, url: string, span: TextSpan, { lessons }: Places): Resolved {
  const [first = '', ...below] = path.slice(1).split('/');
  if (SITE_PAGES.includes(first))
    return sound({ kind: 'page', path: path.slice(1), rest: url.slice(url.search(/[?#]|$/)) });
  const near = nearest(first, SITE_PAGES.filter(Boolean));
  // The folder a site is in is no part of its own addresses: the build puts it before them.
  const [inner = ''] = below;
  const isInside = inner !== '' && [...SITE_PAGES, 'lessons'].includes(inner);
  const meant = isInside ? below.join('/') : near;
  const lesson = path.slice(1).replace(/\/$/, '');
  if (lessons.has(lesson)) {
    const rest = url.slice(url.search(/[?#]|$/));
    const fix = certainly(span, `${lesson}${rest}`);
    return broken(report('link-page-unknown', span, { path, nearest: lesson }, fix));
  }
  return broken(report('link-page-unknown', span, { path, nearest: meant && `/${meant}` }));
}

function inLesson(
  lesson: LessonPlaces,
  written: string | undefined,
  from: LessonPlaces,
  { span, url }: Reference,
): Resolved {
  const { id } = lesson;
  const fragment = asNamed(written, lesson);
  const diagnostics = lesson.draft && !from.draft ? [report('link-draft', span, { lesson: id })] : [];
  if (fragment === undefined) return { target: { kind: 'lesson', lesson: id }, diagnostics };
  const block = lesson.blocks.some((one) => one.id === fragment);
  if (block) return { target: { kind: 'lesson', lesson: id, place: { block: fragment } }, diagnostics };
  const heading = lesson.headings.some((one) => one.slug === fragment);
  if (heading) return { target: { kind: 'lesson', lesson: id, place: { heading: fragment } }, diagnostics };
  const known = [...lesson.blocks.map((one) => one.id), ...lesson.headings.map((one) => one.slug)];
  const now = nearestNow(fragment, known, lesson.former);
  const near = now.nearest ?? nearest(fragment.replace(/^block-/, ''), known);
  const facts = { lesson: id, place: fragment, ...now, nearest: near, known };
  const hash = url.indexOf('#') + 1;
  // Where the address is not in the file letter for letter, its part cannot be pointed at.
  const place = span.to - span.from === url.length ? { from: span.from + hash, to: span.to } : undefined;
  const isSame = now.renamed || near === fragment.toLowerCase().trim().replace(/\s+/g, '-');
  const fix = near !== undefined && place ? (isSame ? certainly(place, near) : perhaps(place, near)) : undefined;
  return { target: BROKEN, diagnostics: [...diagnostics, report('link-anchor-unknown', place ?? span, facts, fix)] };
}

/** A link to a lesson with what it asks of the page, which is checked as far as its block is known. */
function asked(found: Resolved, query: string | undefined, { url, span }: Reference, places: Places): Resolved {
  const { target, diagnostics } = found;
  if (query === undefined || query === '?' || target.kind !== 'lesson') return found;
  const block = target.place && 'block' in target.place ? target.place.block : undefined;
  const score = block === undefined ? undefined : places.lessons.get(target.lesson)?.scoreOf?.(block);
  // Where the address is not in the file letter for letter, its parts cannot be pointed at.
  const from = span.to - span.from === url.length ? span.from + url.indexOf('?') : undefined;
  const place = from === undefined ? span : { from, to: from + query.length };
  const problems = checkLinkQuery(query, { block, score, tunings: places.tunings }, place, from !== undefined);
  return { target: { ...target, query }, diagnostics: [...diagnostics, ...problems] };
}

/** An address copied from the site names a block by the anchor it has there. */
function asNamed(fragment: string | undefined, { blocks, headings }: LessonPlaces): string | undefined {
  const named = fragment?.startsWith('block-') ? fragment.slice('block-'.length) : undefined;
  if (headings.some(({ slug }) => slug === fragment) || blocks.some(({ id }) => id === fragment)) return fragment;
  return blocks.some(({ id }) => id === named) ? named : fragment;
}

/** The path below the course of a file in the media folder, however the author wrote it; undefined for anything else. */
function mediaPath(path: string): string | undefined {
  const plain = posix.normalize(path).replace(/^(?:\.{0,2}\/)+/, '');
  return plain.startsWith('media/') ? plain : undefined;
}

/**
 * The file that is meant by a path: the name may hold what means something else in an address (`take #2.mp3`), and on some
 * machines a letter and its accent are apart in it.
 */
function fileNamed(path: string, url: string, media: ReadonlySet<string>): string | undefined {
  const whole = mediaPath(url);
  if (whole !== undefined && media.has(whole)) return whole;
  return media.has(path) ? path : [...media].find((one) => one.normalize() === path);
}

/** A file that would not be published. The one of that name among the media may be meant. */
function stray(path: string, span: TextSpan, { media }: Places): Diagnostic {
  const { nearest: same, certain } = fileMeant(`media/${posix.basename(path.replaceAll('\\', '/'))}`, media);
  return report('media-outside', span, { path, nearest: same, certain });
}

/** The lessons a path may name: below the lessons folder, or beside the lesson that has the link. */
function candidates(path: string, from: string): string[] {
  const name = bareName(path);
  const beside = posix.join(posix.dirname(from), path.replace(/(?:\.mdx)?\/?$/, ''));
  return /^\.{1,2}\//.test(path) ? [beside, name] : [name, beside];
}

const bareName = (path: string): string =>
  path
    .replace(/^(?:\.{0,2}\/)+/, '')
    .replace(/^lessons\//, '')
    .replace(/\/$/, '')
    .replace(/\.mdx$/, '');

function decoded(text: string): string {
  try {
    return decodeURIComponent(text).normalize();
  } catch {
    return text;
  }
}
