/** The author's guide is true: its right examples make a sound course, its wrong ones give the message printed below them. */
import { readFileSync } from 'node:fs';
import GithubSlugger from 'github-slugger';
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { COMMANDS } from '../../src/command/commands.ts';
import { courseSchema } from '../../src/course/course-schema.ts';
import { COURSE_FILE, LESSONS, MEDIA, TECHNIQUES_FILE } from '../../src/course/folder.ts';
import { lessonSchema } from '../../src/course/lesson-schema.ts';
import { SITE_PAGES } from '../../src/course/link.ts';
import { loadCourse } from '../../src/course/load.ts';
import { showProblem } from '../../src/diagnostics/place.ts';
import { COMPONENTS } from '../../src/lesson/component.ts';
import { ELEMENTS } from '../../src/lesson/element.ts';
import { SHIPPED_TABLES } from '../../src/notation/setting-values.ts';
import { LINK_PARAMETERS } from '../../src/schedule/block-link.ts';
import { present } from '../../src/values/checked.ts';
import { folderOf } from './some-course.ts';

const GUIDE = readFileSync(new URL('../../src/course/guide.md', import.meta.url), 'utf8');

/** Fences in order; `path` is where an example is in a course. */
const fences = [...GUIDE.matchAll(/^(`{3,})(\w+)(?: (\S+))?\n([\s\S]*?)^\1$/gm)].map(([, , kind, path, text = '']) => ({
  kind,
  path,
  text,
}));
const examples = fences.flatMap(({ path, text }, index) => {
  const next = fences[index + 1];
  const message = next?.kind === 'text' ? next.text.trimEnd() : undefined;
  return path === undefined ? [] : [{ path, text, message }];
});
const right = examples.filter(({ message }) => message === undefined);
const wrong = examples.filter(({ message }) => message !== undefined);

/** The guide without its fences. */
const PROSE = GUIDE.replace(/^(`{3,})\w+(?: \S+)?\n[\s\S]*?^\1$/gm, '');
const sectionOf = (heading: string): string =>
  PROSE.split(/^## /m).find((part) => part.startsWith(`${heading}\n`)) ?? '';
const namesIn = (text: string): string[] =>
  [...text.matchAll(/`([^`]+)`/g)].map(([, name]) => present(name, 'the text'));

/** The rows of the table of a section, without its head. */
const rowsOf = (heading: string): string[][] =>
  sectionOf(heading)
    .split('\n')
    .filter((line) => line.startsWith('| '))
    .slice(2)
    .map((line) => line.slice(2, -2).split(' | '));
const namesOf = (heading: string): string[] => rowsOf(heading).flatMap(([first = '']) => namesIn(first));

interface Shaped {
  readonly def: z.core.$ZodTypeDef & Partial<Record<'in' | 'out' | 'innerType' | 'element' | 'valueType', Shaped>>;
  readonly shape?: Readonly<Record<string, Shaped>>;
}

/** What lies inside a schema's wrappers. */
function inside(schema: Shaped): Shaped[] {
  if (schema.shape) return [schema];
  const { def } = schema;
  return [def.in, def.out, def.innerType, def.element, def.valueType].flatMap((one) => (one ? inside(one) : []));
}

/** The keys of a group, or of the groups in a list or record; none for a value of another kind. */
const keysOf = (schema: unknown): Readonly<Record<string, Shaped>> => inside(schema as Shaped)[0]?.shape ?? {};

const MEDIA_FILES = Object.fromEntries(
  right.flatMap(({ text }) => [...text.matchAll(/\bmedia\/[\w.-]+/g)].map(([path]) => [path, 'x'])),
);

describe('the guide to a course', () => {
  test('has right examples that are files of one course, in which nothing is wrong', () => {
    expect(right.map(({ path }) => path)).toEqual([
      'course.yaml',
      'lessons/first-notes.mdx',
      'lessons/blues/the-seventh.mdx',
      'techniques.yaml',
    ]);
    const files = Object.fromEntries(right.map(({ path, text }) => [path, text]));
    const course = loadCourse(folderOf({ ...files, ...MEDIA_FILES }), undefined, { strict: true });
    expect(course.problems).toEqual([]);
    expect(course.lessons.map(({ id }) => id)).toEqual(['first-notes', 'blues/the-seventh']);
    const [first, second] = course.lessons;
    expect(first?.blocks.map(({ id }) => id)).toEqual(['walk']);
    expect(second?.links.map(({ target }) => target)).toEqual([
      { kind: 'lesson', lesson: 'first-notes', place: { block: 'walk' } },
      { kind: 'lesson', lesson: 'first-notes' },
      { kind: 'lesson', lesson: 'first-notes', place: { block: 'walk' }, query: '?bars=3-4&tempo=60%' },
      { kind: 'media', path: 'media/two-reeds.svg' },
    ]);
    expect(second?.figures).toHaveLength(1);
    expect(second?.clips[0]?.clip?.title).toBe('What the hands do');
  });

  test.each(wrong)('prints what is reported of a mistake in $path: $text', ({ path, text, message }) => {
    const others =
      path === 'lessons/first-notes.mdx' ? [] : right.filter((one) => one.path === 'lessons/first-notes.mdx');
    const frontMatter = Object.fromEntries(others.map((one) => [one.path, one.text.replace('stage: breath\n', '')]));
    const { problems } = loadCourse(folderOf({ 'course.yaml': 'title: A course\n', ...frontMatter, [path]: text }));
    const reported = problems.filter(({ file }) => file === path).map((problem) => showProblem(problem, text));
    expect(reported.join('\n')).toBe(message);
  });

  test.each([
    ['course.yaml', courseSchema(SHIPPED_TABLES)],
    ['A lesson', lessonSchema(SHIPPED_TABLES)],
  ])('names every key and no other: %s', (heading, schema) => {
    const keys = keysOf(schema);
    expect(namesOf(heading)).toEqual(expect.arrayContaining(Object.keys(keys)));
    expect(Object.keys(keys)).toEqual(expect.arrayContaining(namesOf(heading)));
    for (const [name, schema] of Object.entries(keys)) {
      const row = rowsOf(heading).find(([first = '']) => namesIn(first).includes(name)) ?? [];
      // Tunings and cues have guides of their own.
      if (name === 'tunings') continue;
      for (const key of Object.keys(keysOf(schema))) expect(namesIn(row.join(' ')), name).toContain(key);
    }
  });

  test('names the defaults there are', () => {
    const elseOf = (heading: string, key: string) => rowsOf(heading).find(([first]) => first === `\`${key}\``)?.[2];
    const course = courseSchema(SHIPPED_TABLES).parse({ title: 'A course' });
    const lesson = lessonSchema(SHIPPED_TABLES).parse({ title: 'A lesson' });
    expect(elseOf('course.yaml', 'language')).toBe(`\`${course.language}\``);
    expect(elseOf('course.yaml', 'concert-a')).toBe(`\`${course.concertA}\``);
    expect(elseOf('course.yaml', 'temperament')).toBe(`\`${course.temperament.id}\``);
    expect(elseOf('A lesson', 'draft')).toBe(`\`${lesson.draft}\``);
    for (const [heading, read] of [
      ['course.yaml', course],
      ['A lesson', lesson],
    ] as const) {
      for (const [first = '', , other] of rowsOf(heading)) {
        const [key = ''] = namesIn(first);
        if (other === 'none') expect((read as unknown as Record<string, unknown>)[key] ?? [], key).toSatisfy(isNothing);
      }
    }
  });

  test('names every element of HTML that a lesson may hold', () => {
    const [, , listed = ''] = sectionOf('Elements of HTML').split('\n\n');
    expect(namesIn(listed)).toEqual([...ELEMENTS.keys()]);
  });

  test('names every file and folder, page and component', () => {
    for (const name of [COURSE_FILE, TECHNIQUES_FILE, `${LESSONS}/`, `${MEDIA}/`])
      expect(fences[0]?.text).toContain(`  ${name} `);
    for (const page of SITE_PAGES) expect(sectionOf('Links')).toContain(`\`/${page}\``);
    expect(namesOf('Figures and recordings')).toEqual([...COMPONENTS.keys()].map((name) => `<${name}>`));
  });

  test('has links to bars to copy, and names all that they can ask for', () => {
    const written = namesOf('Links to bars').filter((name) => name.startsWith('['));
    const first = present(
      right.find(({ path }) => path === 'lessons/first-notes.mdx'),
      'the lesson',
    );
    const text = first.text.replace('stage: breath\n', '') + written.map((link) => `\n- ${link}`).join('');
    const course = loadCourse(folderOf({ 'course.yaml': 'title: A course\n', [first.path]: `${text}\n` }));
    expect(course.problems).toEqual([]);
    expect(course.byId.get('first-notes')?.links.map(({ target }) => target)).toEqual(
      written.map(() => expect.objectContaining({ place: { block: 'walk' }, query: expect.any(String) })),
    );
    for (const name of LINK_PARAMETERS) expect(sectionOf('Links to bars')).toContain(`${name}=`);
  });

  test('has links to copy that lead where it says', () => {
    const written = namesOf('Links').map((link) => `- ${link}`);
    const block = '```tab\nid: lick\n4 =7 |]\n```\n';
    const titled = (text: string) => `---\ntitle: A lesson\n---\n\n${text}`;
    const course = loadCourse(
      folderOf({
        'course.yaml': 'title: A course\n',
        'lessons/blues/here.mdx': titled(`${block}\n${written.join('\n')}\n`),
        'lessons/blues/the-seventh.mdx': titled(''),
        'lessons/blues/the-turn.mdx': titled(''),
        'lessons/first-bends.mdx': titled(`## The turn\n\n${block}`),
        'media/sheet.pdf': 'x',
      }),
    );
    expect(course.problems).toEqual([]);
    expect(course.byId.get('blues/here')?.links.map(({ target }) => target)).toEqual([
      { kind: 'lesson', lesson: 'first-bends' },
      { kind: 'lesson', lesson: 'blues/the-seventh' },
      { kind: 'lesson', lesson: 'blues/the-turn' },
      { kind: 'lesson', lesson: 'first-bends' },
      { kind: 'lesson', lesson: 'first-bends', place: { block: 'lick' } },
      { kind: 'lesson', lesson: 'blues/here', place: { block: 'lick' } },
      { kind: 'lesson', lesson: 'first-bends', place: { heading: 'the-turn' } },
      { kind: 'media', path: 'media/sheet.pdf' },
      { kind: 'page', path: 'path', rest: '' },
      { kind: 'page', path: 'techniques/single-notes', rest: '' },
      { kind: 'page', path: 'harps/richter', rest: '#map' },
      { kind: 'outside' },
      { kind: 'outside' },
    ]);
  });

  test('is right about drafts', () => {
    const draft = '---\ntitle: Soon\ndraft: true\n---\n\n```tab\nid: lick\n4 =7 |]\n```\n';
    const codesOf = (frontMatter: string, text: string) => {
      const files = { 'course.yaml': 'title: A course\n', 'lessons/soon.mdx': draft };
      const dir = folderOf({ ...files, 'lessons/one.mdx': `---\ntitle: One\n${frontMatter}---\n\n${text}\n` });
      return loadCourse(dir).problems.map(({ code }) => code);
    };
    const [requiring, linking, quoting] = ['requires: soon\n', '[soon](soon)', '```tab\n<soon/lick>\n```'] as const;
    expect(codesOf(requiring, '')).toEqual(['requires-draft']);
    expect(codesOf('', linking)).toEqual(['link-draft']);
    expect(codesOf('', quoting)).toEqual(['quotes-draft']);
    expect(codesOf(`draft: true\n${requiring}`, `${linking}\n\n${quoting}`)).toEqual([]);
  });

  test('names every command, with options that there are', async () => {
    const rows = rowsOf('The commands');
    const typed = rows.flatMap(([first = '']) => namesIn(first)).map((line) => line.split(' '));
    expect(typed.map(([, name]) => name)).toEqual(COMMANDS.map(({ name }) => name));
    for (const [index, row] of rows.entries()) {
      const options = (await COMMANDS[index]?.load())?.command.options ?? {};
      for (const [, option = ''] of row.join(' ').matchAll(/--([a-z-]+)/g))
        expect(Object.keys(options)).toContain(option);
    }
  });

  test('leads with its links to files and headings that are there', () => {
    for (const [, file = '', hash] of PROSE.matchAll(/(?<!`)\]\(([\w./-]*\.md)?(?:#([\w-]+))?\)(?!`)/g)) {
      const text = file === '' ? GUIDE : readFileSync(new URL(`../../src/course/${file}`, import.meta.url), 'utf8');
      if (hash === undefined) continue;
      const slugger = new GithubSlugger();
      const slugs = [...text.matchAll(/^#+ (.*)$/gm)].map(([, heading = '']) =>
        slugger.slug(heading.replaceAll('`', '')),
      );
      expect(slugs).toContain(hash);
    }
  });
});

const isNothing = (value: unknown): boolean =>
  (Array.isArray(value) && value.length === 0) ||
  (value instanceof Map && value.size === 0) ||
  (typeof value === 'object' && value !== null && Object.keys(value).length === 0);
