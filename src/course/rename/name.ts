/** What in a course has a name that an author chose, and how such a name is written on a command line. */
import { nearest } from '../../diagnostics/nearest.ts';
import { isId } from '../../document/schema.ts';
import { fieldOf } from '../../document/unknown.ts';
import { readYaml } from '../../document/yaml.ts';
import { isLessonName, isReservedName } from '../../lesson/lesson-name.ts';
import { CATALOGUE } from '../../technique/catalogue.ts';
import { ID as TECHNIQUE_ID } from '../../technique/technique.ts';
import type { Course } from '../course.ts';
import { TECHNIQUES_FILE } from '../folder.ts';

/** The kinds of things that can get another name. */
export const NAMED_KINDS = ['lesson', 'block', 'phrase', 'technique', 'stage'] as const;
/** One of {@link NAMED_KINDS}. */
export type NamedKind = (typeof NAMED_KINDS)[number];

/** Whether a word is one of {@link NAMED_KINDS}. */
export const isNamedKind = (word: string): word is NamedKind => NAMED_KINDS.some((kind) => kind === word);

/** A thing of a course by its name. */
export type Named =
  | { readonly kind: 'lesson'; readonly lesson: string }
  | { readonly kind: 'block'; readonly lesson: string; readonly block: string }
  | { readonly kind: 'phrase'; readonly lesson: string; readonly block: string; readonly phrase: string }
  | { readonly kind: 'technique'; readonly technique: string }
  | { readonly kind: 'stage'; readonly stage: string };

/** A name as an author writes it: `first-notes`, `first-notes/walk`, `first-notes/walk:up`, `blue-seventh`, `blues`. */
export function wholeName(named: Named): string {
  switch (named.kind) {
    case 'lesson':
      return named.lesson;
    case 'block':
      return `${named.lesson}/${named.block}`;
    case 'phrase':
      return `${named.lesson}/${named.block}:${named.phrase}`;
    case 'technique':
      return named.technique;
    case 'stage':
      return named.stage;
  }
}

/** Whether two names are of the same thing. */
export const isSameName = (a: Named, b: Named): boolean => a.kind === b.kind && wholeName(a) === wholeName(b);

/** The name itself, without what it is in. */
export function ownName(named: Named): string {
  return named.kind === 'block' ? named.block : named.kind === 'phrase' ? named.phrase : wholeName(named);
}

/** A name that was understood, or why it was not, in sentences. */
export type NameRead = { readonly named: Named } | { readonly fault: string };

/**
 * What a written name means: a lesson (`first-notes`, also as the name of its file), a block (`first-notes/walk` or
 * `first-notes#walk`), a phrase (`first-notes/walk:up`), a technique or a stage. `kind` decides where several things have the name.
 */
export function readOldName(course: Course, written: string, kind: NamedKind | undefined): NameRead {
  const all = meaningsOf(course, written);
  const found = kind === undefined ? all : all.filter((one) => one.kind === kind);
  const [only, ...others] = found;
  if (only && others.length === 0) return { named: only };
  if (only) {
    const ways = found.map((one) => `the ${one.kind} ${wholeName(one)}: --as ${one.kind}`);
    return { fault: `“${written}” names several things. Say which one you mean:\n${lined(ways)}` };
  }
  const what = kind ?? 'lesson, block, phrase, technique or stage';
  const within = [...namesIn(course)].filter((one) => ownName(one) === written && wholeName(one) !== written);
  const inside = within.filter((one) => kind === undefined || one.kind === kind);
  if (inside.length > 0) {
    const ways = inside.slice(0, MOST_LISTED).map((one) => `the ${one.kind} ${wholeName(one)}`);
    const more = inside.length > MOST_LISTED ? [`and ${inside.length - MOST_LISTED} more`] : [];
    return { fault: `A block is named with its lesson, and a phrase with its block:\n${lined([...ways, ...more])}` };
  }
  const known = [...namesIn(course)].filter((one) => kind === undefined || one.kind === kind).map(wholeName);
  const near = nearest(written, known);
  const numbered = /^(.*)[/#]\d+$/.exec(written)?.[1];
  const unnamed = numbered !== undefined && course.byId.has(numbered);
  return {
    fault: unnamed
      ? `“${written}” is a block without a name. Give it one with a line id: in its header.`
      : `This course has no ${what} “${written}”.${near === undefined ? '' : ` Did you mean ${near}?`}`,
  };
}

const MOST_LISTED = 10;
const lined = (lines: readonly string[]): string => lines.map((line) => `  ${line}`).join('\n');

/** Everything in a course that has a name of its author's. */
export function* namesIn({ lessons, file, repertoire }: Course): Generator<Named> {
  for (const { id: lesson, blocks } of lessons) {
    yield { kind: 'lesson', lesson };
    for (const { id: block, tree } of blocks) {
      if (tree.header.get('id')?.value === block) yield { kind: 'block', lesson, block };
      // A phrase of a block without a name is named by the number of its block.
      for (const phrase of tree.phrases.keys()) yield { kind: 'phrase', lesson, block, phrase };
    }
  }
  for (const { id: technique } of repertoire.techniques) yield { kind: 'technique', technique };
  for (const { id: stage } of file.stages) yield { kind: 'stage', stage };
}

function meaningsOf(course: Course, written: string): Named[] {
  const plain = written
    .replace(/^\.?\//, '')
    .replace(/^lessons\//, '')
    .replace(/\.mdx(?=$|[#/])/, '');
  const asBlock = plain.replace('#block-', '/').replace('#', '/');
  return [...namesIn(course)].filter((one) => {
    const name = wholeName(one);
    if (one.kind === 'lesson') return name === plain;
    if (one.kind === 'block' || one.kind === 'phrase') return name === asBlock;
    if (one.kind === 'technique') return name === written.replace(/^\/techniques\//, '');
    return name === written.replace(/^\/#stage-/, '');
  });
}

/** The renamed thing under its new name, or why it cannot have it. A block's may be written with its lesson, a phrase's with its block. */
export function readNewName(course: Course, old: Named, written: string): NameRead {
  const made = underName(old, written);
  if ('fault' in made) return made;
  const { named } = made;
  const name = ownName(named);
  const refused = SHAPES[named.kind](name);
  if (refused) return { fault: refused };
  if (isSameName(old, named)) return { fault: `The ${old.kind} is called “${name}” already.` };
  const taken = [...namesIn(course)].find((one) => isSameName(one, named));
  if (taken) return { fault: `There is a ${named.kind} “${wholeName(named)}” already.` };
  const heir = formerOwner(course, named);
  if (heir !== undefined && heir !== ownName(old))
    return { fault: `“${name}” is a former name of the ${named.kind} “${heir}”, to which old addresses lead.` };
  if (named.kind === 'lesson') {
    // Machines that ignore case have one file for both.
    const other = [...course.byId.keys()].find(
      (id) => id.toLowerCase() === name.toLowerCase() && wholeName(old) !== id,
    );
    if (other !== undefined) return { fault: `The lesson “${other}” differs from “${name}” in capital letters only.` };
  }
  if (old.kind === 'technique') {
    if (!ownTechniques(course).has(old.technique))
      return { fault: `“${old.technique}” comes with Reedway, so a course cannot rename it. It can change its title.` };
  }
  return { named };
}

/** What had a name before. */
function formerOwner({ former, repertoire }: Course, named: Named): string | undefined {
  switch (named.kind) {
    case 'lesson':
      return former.lessons.get(named.lesson);
    case 'block':
      return former.blocks.get(named.lesson)?.get(named.block);
    case 'technique':
      return repertoire.former.get(named.technique);
    case 'stage':
      return former.stages.get(named.stage);
    case 'phrase':
      return undefined;
  }
}

/** The techniques that are a course's own: those of techniques.yaml that do not come with Reedway. */
function ownTechniques({ sources }: Course): ReadonlySet<string> {
  const { value } = readYaml(sources.get(TECHNIQUES_FILE) ?? '');
  const extending = fieldOf(value, 'catalogue') !== 'replace';
  const shipped = new Set(extending ? CATALOGUE.map(({ id }) => id) : []);
  const list = [fieldOf(value, 'techniques') ?? []].flat();
  const ids = list.flatMap((entry) => fieldOf(entry, 'id') ?? []);
  return new Set(ids.filter((id) => typeof id === 'string' && !shipped.has(id)).map(String));
}

function underName(old: Named, written: string): NameRead {
  const wrong = (where: string): NameRead => ({
    fault: `A ${old.kind} keeps its ${where}: write the new name alone, as in “${ownName(old)}”.`,
  });
  switch (old.kind) {
    case 'lesson': {
      const lesson = written.replace(/^(?:\.?\/)?lessons\//, '').replace(/\.mdx$/, '');
      return { named: { kind: 'lesson', lesson } };
    }
    case 'block': {
      const [, lesson, block = written] = /^(.*)[/#]([^/#]*)$/.exec(written) ?? [];
      if (lesson !== undefined && lesson !== '' && lesson !== old.lesson) return wrong('lesson');
      return { named: { ...old, block } };
    }
    case 'phrase': {
      const [, block, phrase = written] = /^(.*):([^:]*)$/.exec(written) ?? [];
      const own = ['', old.block, `${old.lesson}/${old.block}`];
      if (block !== undefined && !own.includes(block)) return wrong('block');
      return { named: { ...old, phrase } };
    }
    case 'technique':
      return { named: { kind: 'technique', technique: written } };
    case 'stage':
      return { named: { kind: 'stage', stage: written } };
  }
}

/** Why a name cannot be that of a thing of its kind. */
const SHAPES: Readonly<Record<NamedKind, (name: string) => string | undefined>> = {
  lesson: (name) =>
    name.split('/').every(isLessonName)
      ? name.split('/').some(isReservedName)
        ? `“${name}” cannot be the name of a lesson: some machines have another use for it.`
        : undefined
      : `“${name}” cannot be part of an address. The name of a lesson is made of letters, digits, hyphens and underscores, with a slash behind each folder.`,
  block: (name) =>
    /^[a-z][a-z0-9-]*$/.test(name)
      ? undefined
      : `“${name}” cannot be the id of a block: small letters, digits and hyphens, beginning with a letter.`,
  phrase: (name) =>
    /^[\w-]+$/.test(name)
      ? undefined
      : `“${name}” cannot be the name of a phrase: letters, digits, hyphens and underscores.`,
  technique: (name) =>
    TECHNIQUE_ID.test(name)
      ? undefined
      : `“${name}” cannot be the id of a technique: small letters, digits and single hyphens.`,
  stage: (name) =>
    isId(name) && name !== 'none'
      ? undefined
      : `“${name}” cannot be the id of a stage: letters, digits, hyphens and underscores${name === 'none' ? '; the word none is for lessons without a stage' : ''}.`,
};
