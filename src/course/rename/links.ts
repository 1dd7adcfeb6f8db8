/** A link after something was renamed: written as its author writes, and leading where it led. */
import { posix } from 'node:path';
import type { TextEdit } from '../../diagnostics/diagnostic.ts';
import type { Course, Lesson, Link } from '../course.ts';
import { type LessonPlaces, type LinkTarget, type Places, resolve } from '../link.ts';
import type { LinkMention } from './mentions.ts';
import { isSameName, type Named } from './name.ts';

/** What gets another name, and which. */
export interface Renaming {
  readonly from: Named;
  readonly to: Named;
}

/** The name that a thing has afterwards. Names within a renamed thing follow it. */
export function renamed<Name extends Named>(named: Name, { from, to }: Renaming): Name {
  if (isSameName(named, from)) return { ...named, ...to };
  if (from.kind === 'lesson' && to.kind === 'lesson' && 'lesson' in named && named.lesson === from.lesson)
    return { ...named, lesson: to.lesson };
  if (from.kind === 'block' && to.kind === 'block' && named.kind === 'phrase')
    return named.lesson === from.lesson && named.block === from.block ? { ...named, block: to.block } : named;
  return named;
}

/** What links are looked up in once things have their new names. */
export function placesAfter({ lessons, media }: Course, renaming: Renaming): Places {
  const places = lessons.map(({ id, frontMatter: { draft }, blocks, headings }): [string, LessonPlaces] => {
    const lesson = lessonAfter(id, renaming);
    const named = blocks.map((block) => ({
      id: renamed({ kind: 'block', lesson: id, block: block.id }, renaming).block,
    }));
    return [lesson, { id: lesson, draft, blocks: named, headings }];
  });
  return { lessons: new Map(places), media: new Set(media) };
}

export const lessonAfter = (lesson: string, renaming: Renaming): string =>
  renamed({ kind: 'lesson', lesson }, renaming).lesson;

/** What a link leads to once things have their new names. */
export function targetAfter(target: LinkTarget, renaming: Renaming): LinkTarget {
  if (target.kind === 'lesson') {
    const { lesson, place } = target;
    const moved = { ...target, lesson: lessonAfter(lesson, renaming) };
    if (!place || 'heading' in place) return moved;
    return { ...moved, place: { block: renamed({ kind: 'block', lesson, block: place.block }, renaming).block } };
  }
  if (target.kind !== 'page') return target;
  const { from, to } = renaming;
  if (from.kind === 'technique' && to.kind === 'technique') {
    const [, slash = ''] = new RegExp(`^techniques/${from.technique}(/?)$`).exec(target.path) ?? [];
    if (target.path === `techniques/${from.technique}${slash}`)
      return { ...target, path: `techniques/${to.technique}${slash}` };
  }
  if (
    from.kind === 'stage' &&
    to.kind === 'stage' &&
    target.path === '' &&
    anchorOf(target.rest) === `stage-${from.stage}`
  )
    return { ...target, rest: target.rest.replace(/#.*$/s, `#stage-${to.stage}`) };
  return target;
}

const anchorOf = (rest: string): string | undefined => {
  const written = /#(.*)$/s.exec(rest)?.[1];
  return written === undefined ? undefined : decoded(written);
};

/** An edit of a link. */
export interface LinkEdit {
  readonly edit: TextEdit;
  /** Whether the link would lead elsewhere without it. */
  readonly isNeeded: boolean;
}

/** Whether a path with dots was that of the file it leads to, and is not from where its lesson goes. Reedway finds the lesson by its name all the same. */
function isOffCourse({ url }: Link, { id }: Lesson, from: LessonPlaces, wanted: LinkTarget): boolean {
  if (wanted.kind !== 'lesson' || posix.dirname(id) === posix.dirname(from.id)) return false;
  const [path = ''] = /^\.{1,2}\/[^?#]*/.exec(url.trim()) ?? [];
  const core = decoded(path.replace(/(?:\.mdx)?\/?$/, ''));
  const [before, after] = [id, from.id].map((one) => posix.join(posix.dirname(one), core));
  return core !== '' && before === wanted.lesson && after !== wanted.lesson;
}

/** The edit of a link that has to be written otherwise; `fault` where its place is not known or no address would lead there. */
export function editOfLink(
  { lesson, link, span, exact }: LinkMention,
  course: Course,
  renaming: Renaming,
  places: Places,
): LinkEdit | undefined | 'unplaced' | 'unwritable' {
  const wanted = targetAfter(link.target, renaming);
  if (link.target.kind === 'broken' || link.target.kind === 'outside' || link.target.kind === 'media') return undefined;
  const from = places.lessons.get(lessonAfter(lesson.id, renaming));
  if (!from) return 'unwritable';
  const leads = (url: string): boolean => isSameTarget(leadsTo(url, from, places), wanted);
  const isNeeded = !leads(link.url);
  if (!isNeeded && !isOffCourse(link, lesson, from, wanted)) return undefined;
  const written = lesson.source.slice(span.from, span.to);
  const [path = ''] = /^[^?#]*/.exec(written) ?? [];
  const rest = written.slice(path.length);
  if (!exact && (unescaped(written) !== link.url || written.includes('&'))) return 'unplaced';
  const blanks = /^\s*/.exec(path)?.[0] ?? '';
  const found = spellings({ path: path.trim(), rest }, { lesson, wanted, from, course, renaming }).find(
    ([p, r]) => leads(unescaped(`${p}${r}`)) && (isNeeded || p !== path.trim()),
  );
  if (!found) return 'unwritable';
  return { edit: shortest(span.from, written, `${blanks}${found[0]}${found[1]}`), isNeeded };
}

const leadsTo = (url: string, from: LessonPlaces, places: Places): LinkTarget =>
  resolve({ url, span: { from: 0, to: 0 }, use: 'link' }, from, places).target;

function isSameTarget(a: LinkTarget, b: LinkTarget): boolean {
  const textOf = (target: LinkTarget): string => {
    if (target.kind === 'lesson') return JSON.stringify([target.lesson, target.place ?? null, target.query ?? null]);
    return JSON.stringify(target);
  };
  return a.kind === b.kind && textOf(a) === textOf(b);
}

/** What stays of an address stays: the edit is of what differs, up to whole names. */
function shortest(at: number, before: string, after: string): TextEdit {
  const parts = (text: string): string[] => text.split(/(?<=[/#])|(?=[/#?]|\.mdx)/);
  const [a, b] = [parts(before), parts(after)];
  let start = 0;
  while (start < Math.min(a.length, b.length) && a[start] === b[start]) start++;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a.at(-1 - end) === b.at(-1 - end)) end++;
  const length = (list: readonly string[]): number => list.join('').length;
  const from = at + length(a.slice(0, start));
  const to = at + before.length - length(a.slice(a.length - end));
  return { span: { from, to }, text: b.slice(start, b.length - end).join('') };
}

interface Spelling {
  readonly lesson: Lesson;
  readonly wanted: LinkTarget;
  readonly from: LessonPlaces;
  readonly course: Course;
  readonly renaming: Renaming;
}

/** The ways to write a link, the one most like its author's first: each a path, and what is behind it. */
function spellings(
  { path, rest }: { readonly path: string; readonly rest: string },
  { lesson, wanted, from, renaming }: Spelling,
): (readonly [string, string])[] {
  if (wanted.kind === 'page') {
    const { to } = renaming;
    if (to.kind === 'technique') return [[path.replace(/^(\/techniques\/)[^/]*/, `$1${to.technique}`), rest]];
    if (to.kind === 'stage') return [[path, rest.replace(/#.*$/s, `#stage-${to.stage}`)]];
    return [];
  }
  if (wanted.kind !== 'lesson') return [];
  const behind = restAfter(rest, wanted);
  // A place in the same lesson needs no path.
  if (path === '') return [[path, behind]];
  const [ending = ''] = /(?:\.mdx)?\/?$/.exec(path) ?? [];
  const core = path.slice(0, path.length - ending.length);
  const target = wanted.lesson;
  const beside = posix.relative(posix.dirname(from.id), target);
  const pointed = beside.startsWith('.') ? beside : `./${beside}`;
  const old = { core: decoded(unescaped(core)), dir: posix.dirname(lesson.id) };
  const [lead = ''] = /^(?:\.{0,2}\/)*(?:lessons\/)?/.exec(core) ?? [];
  const byName = `${lead}${target}`;
  const isRelative =
    lead.startsWith('.') && !lead.includes('lessons/') ? true : isBeside(old.core, old.dir, target, renaming);
  const dotted = isRelative && lead.startsWith('.') ? pointed : beside;
  const [first, second] = isRelative ? [dotted, byName] : [byName, pointed];
  return [core, first, second, target, pointed, `/lessons/${target}`].map(
    (one) => [`${one}${ending}`, behind] as const,
  );
}

/** Whether a path without dots was meant beside its own lesson. */
function isBeside(core: string, dir: string, target: string, renaming: Renaming): boolean {
  const before = lessonAfter(target, { from: renaming.to, to: renaming.from });
  return core !== before && posix.join(dir, core) === before;
}

function restAfter(rest: string, { place }: LinkTarget & { readonly kind: 'lesson' }): string {
  if (!place || !('block' in place)) return rest;
  const [, before = '', anchor = ''] = /^([^#]*#)(.*)$/s.exec(rest) ?? [];
  if (decoded(unescaped(anchor)).replace(/^block-/, '') === place.block) return rest;
  // An address copied from the site has the anchor of the page.
  const head = anchor.startsWith('block-') ? 'block-' : '';
  return `${before}${head}${place.block}`;
}

const unescaped = (text: string): string => text.replace(/\\([!-/:-@[-`{-~])/g, '$1').replaceAll('&amp;', '&');

function decoded(text: string): string {
  try {
    return decodeURIComponent(text).normalize();
  } catch {
    return text;
  }
}
