/** Links to pages of the site beside its lessons, in their whole length. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { PAGE_PLACES } from '../../src/course/link.ts';
import { loadCourse } from '../../src/course/load.ts';
import { LESSON_PROBLEMS } from '../../src/lesson/problems.ts';
import { ownProblems } from './own-problems.ts';
import { courseOf, lesson } from './some-course.ts';

const BENT = "```tab\nslot: 1/4\nharp: low F\n-3' -3 4 -4\n```\n";
const COURSE = {
  'course.yaml': 'title: A course\nstages:\n  - {id: breath, title: In and out}\n',
  'lessons/bends.mdx': lesson(BENT, 'title: Bends'),
  'lessons/draft.mdx': lesson('```tab\ntuning: natural-minor\nslot: 1/1\n8(slap)\n```\n', 'title: Draft\ndraft: true'),
};

const reported = (links: readonly string[], more: Readonly<Record<string, string>> = {}) => {
  const text = lesson(`${links.map((link) => `- [it](${link})`).join('\n')}\n`);
  const { problems } = loadCourse(courseOf({ ...COURSE, 'lessons/first.mdx': text, ...more }));
  return ownProblems(problems, LESSON_PROBLEMS)
    .filter(({ file }) => file === 'lessons/first.mdx')
    .map(({ line, column, code, message, help }) => `${line}:${column} ${code} ${message} ${help}`);
};

describe('a link to a page of the site', () => {
  test('leads there, to the very place', () => {
    const sound = [
      '/',
      '/#cautions',
      '/#stage-breath',
      '/path/',
      '/techniques',
      '/techniques/#group-bends',
      '/techniques/half-step-bends',
      '/techniques/half-step-bends/#blocks',
      '/harps/richter/#positions',
      '/harps/?harp=A#keys',
      '/guide/#roles',
    ];
    expect(reported(sound)).toEqual([]);
  });

  test.each([
    ['/techniques/half-step-bend/', 'The site has no page /techniques/half-step-bend.', '/techniques/half-step-bends'],
    [
      '/techniques/Half%20step%20bends',
      'The site has no page /techniques/Half step bends.',
      '/techniques/half-step-bends',
    ],
    ['/harps/ritcher', 'The site has no page /harps/ritcher.', '/harps/richter'],
    ['/harps/country', 'The site has no page /harps/country.', '/harps'],
    ['/path/first', 'The site has no page /path/first.', '/path'],
    ['/guide/roles', 'The site has no page /guide/roles.', '/guide'],
    [
      '/techniques/overblows',
      'The site has no page /techniques/overblows, since no published lesson has to do with it.',
      '/techniques',
    ],
    [
      '/harps/natural-minor',
      'The site has no page /harps/natural-minor, since no published lesson has to do with it.',
      '/harps',
    ],
  ])('that is not there is reported: %s', (link, message, near) => {
    const idle = message.includes('since');
    const [only, ...others] = reported([link]);
    expect(others).toEqual([]);
    expect(only).toContain(`5:8 link-page-unknown ${message} `);
    expect(only).toContain(idle ? `, ${near} is there to link to.` : `Did you mean “${near}”?`);
  });

  test('with a place that the page does not have is reported', () => {
    expect(
      reported(['/techniques/#group-bend', '/#stage-blues', '/guide/#xyz', '/techniques/half-step-bends#block']),
    ).toEqual([
      '5:8 link-page-anchor The page /techniques has no place with the id “group-bend”. Did you mean “group-bends”?',
      '6:8 link-page-anchor The page / has no place with the id “stage-blues”. Its places are: page, cautions, stage-none, stage-breath.',
      `7:8 link-page-anchor The page /guide has no place with the id “xyz”. Its places are: ${PAGE_PLACES['guide']?.join(', ')}.`,
      '8:8 link-page-anchor The page /techniques/half-step-bends has no place with the id “block”. Did you mean “blocks”?',
    ]);
  });

  test('may lead from a draft to what only drafts have', () => {
    const text = (frontMatter: string) => lesson('[it](/harps/natural-minor/)\n', frontMatter);
    expect(reported([], { 'lessons/first.mdx': text('title: One\ndraft: true') })).toEqual([]);
    expect(reported([], { 'lessons/first.mdx': text('title: One') })).toHaveLength(1);
  });

  test('is not doubted while a block that may bring the page about cannot be read', () => {
    const broken = { 'lessons/bends.mdx': lesson('```tab\n4 4 4 4 4 4 4 4 4\n```\n', 'title: Bends') };
    expect(
      reported(['/techniques/overblows', '/harps/natural-minor', '/techniques/nothing-known'], broken),
    ).toHaveLength(1);
  });
});

test('the places of pages are those their sources have', () => {
  const FILES: Readonly<Record<string, string>> = {
    '': 'index',
    path: 'path/index',
    techniques: 'techniques/index',
    'techniques/*': '../layouts/TechniquePage',
    harps: 'harps/index',
    'harps/*': 'harps/[tuning]',
    glossary: '[glossary]',
    'play-along': 'play-along',
    guide: 'guide',
  };
  for (const [page, places] of Object.entries(PAGE_PLACES)) {
    const source = readFileSync(new URL(`../../src/site/pages/${FILES[page]}.astro`, import.meta.url), 'utf8');
    const ids = [...source.matchAll(/<(?:h2|div) id=(?:"([^"]+)"|\{`([\w-]+)\$\{[^`]*`\})/g)].map(
      ([, plain, stem]) => plain ?? stem,
    );
    // The frame of every page has the first.
    const stems = places
      .slice(1)
      .map((place) => ids.find((id) => place === id || (id?.endsWith('-') && place.startsWith(id))));
    expect(places[0]).toBe('page');
    expect(new Set(stems), page).toEqual(new Set(ids));
  }
});
