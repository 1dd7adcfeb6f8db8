/**
 * Where a link of a lesson leads. An author links to a lesson by its name (`first-bends`, `first-bends.mdx`, or from one
 * folder to another `../blues/turnaround`), to a block or heading of it behind `#`, to media by its path below the
 * course (`media/harp.svg`), and to a page of the site by its address (`/path`).
 */
import { posix } from 'node:path';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { type FormerNames, nearest, nearestNow } from '../diagnostics/nearest.ts';
import type { Reference } from '../lesson/reference.ts';
import { GROUPS } from '../technique/technique.ts';
import { itemAt } from '../values/checked.ts';
import { COURSE_PROBLEMS } from './problems.ts';

/** What a link leads to. */
export type LinkTarget =
  | { readonly kind: 'lesson'; readonly lesson: string; readonly place?: LinkPlace }
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
}

/** What of a lesson can be linked to. */
export interface LessonPlaces {
  readonly id: string;
  readonly draft: boolean;
  readonly blocks: readonly { readonly id: string }[];
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
  guide: ['page', 'lanes', 'bends', 'together', 'time', 'views', 'roles', 'mouth', 'marks', 'repeats'],
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
  const scheme = schemeOf(url);
  if (scheme !== undefined) return outside(scheme, reference);
  const [, written = '', , hash] = /^([^?#]*)(\?[^#]*)?(?:#(.*))?$/s.exec(url) ?? [];
  const path = decoded(written);
  const fragment = hash === undefined || hash === '' ? undefined : decoded(hash);

  const media = mediaPath(path);
  if (media !== undefined) {
    const file = fileNamed(media, url, places.media);
    if (file !== undefined) return sound({ kind: 'media', path: file });
    return broken(report('media-missing', span, { path: media, nearest: nearest(media, places.media) }));
  }
  if (use !== 'link') return broken(stray(path, span, places));
  if (path === '') return inLesson(from, fragment, from, span);
  if (path.startsWith('/') && !/^\/lessons\/./.test(path)) return page(path, url, span);

  const lesson = candidates(path, from.id).find((id) => places.lessons.has(id));
  const found = lesson === undefined ? undefined : places.lessons.get(lesson);
  if (found) return inLesson(found, fragment, from, span);
  const bare = bareName(path);
  // A name of a page or text file means the lesson without its extension.
  const unended = /^(.+)\.(?:html?|md|markdown)$/i.exec(bare)?.[1];
  if (unended === undefined && /\.[a-z0-9]{2,4}$/i.test(bare)) return broken(stray(path, span, places));
  const old = candidates(path, from.id).find((id) => places.former?.has(id)) ?? unended;
  const isPage = SITE_PAGES.filter(Boolean).includes(itemAt(bare.split('/'), 0));
  return broken(
    report('link-unknown', span, {
      lesson: bare,
      ...(isPage ? { nearest: `/${bare}` } : nearestNow(old ?? bare, places.lessons.keys(), places.former)),
    }),
  );
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

function page(path: string, url: string, span: TextSpan): Resolved {
  const [first = '', ...below] = path.slice(1).split('/');
  if (SITE_PAGES.includes(first))
    return sound({ kind: 'page', path: path.slice(1), rest: url.slice(url.search(/[?#]|$/)) });
  const near = nearest(first, SITE_PAGES.filter(Boolean));
  // The folder a site is in is no part of its own addresses: the build puts it before them.
  const [inner = ''] = below;
  const isInside = inner !== '' && [...SITE_PAGES, 'lessons'].includes(inner);
  const meant = isInside ? below.join('/') : near;
  return broken(report('link-page-unknown', span, { path, nearest: meant && `/${meant}` }));
}

function inLesson(lesson: LessonPlaces, written: string | undefined, from: LessonPlaces, span: TextSpan): Resolved {
  const { id } = lesson;
  const fragment = asNamed(written, lesson);
  const diagnostics = lesson.draft && !from.draft ? [report('link-draft', span, { lesson: id })] : [];
  if (fragment === undefined) return { target: { kind: 'lesson', lesson: id }, diagnostics };
  const block = lesson.blocks.some((one) => one.id === fragment);
  if (block) return { target: { kind: 'lesson', lesson: id, place: { block: fragment } }, diagnostics };
  const heading = lesson.headings.some((one) => one.slug === fragment);
  if (heading) return { target: { kind: 'lesson', lesson: id, place: { heading: fragment } }, diagnostics };
  const known = [...lesson.blocks.map((one) => one.id), ...lesson.headings.map((one) => one.slug)];
  const facts = { lesson: id, place: fragment, ...nearestNow(fragment, known, lesson.former) };
  return { target: BROKEN, diagnostics: [...diagnostics, report('link-anchor-unknown', span, facts)] };
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
  const name = posix.basename(path);
  const same = [...media].find((one) => posix.basename(one) === name);
  return report('media-outside', span, { path, nearest: same ?? nearest(`media/${name}`, media) });
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
