/** The path and its techniques as pages, read as they are without scripts. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { JSDOM } from 'jsdom';
import { beforeAll, describe, expect, test } from 'vitest';
import { itemAt, present } from '../../src/values/checked.ts';
import { courseOf, folderOf, lesson } from '../course/some-course.ts';
import { filesBelow, reedway } from '../publish/some-site.ts';

const LONG = Array(3).fill('-4 -4 -4 -4').join(' | ');
const FILES = {
  'course.yaml':
    'title: A course\ntempo: 60\nslot: 1/4\nstages:\n  - { id: start, title: The start }\n  - { id: end, title: The end }\n',
  'lessons/first.mdx': lesson(
    '```tab\nid: open\ntitle: <Open> notes\n4 5 -5 -4\n```\n',
    'title: First & foremost\nstage: start\nteaches: breath-turns',
  ),
  'lessons/left.mdx': lesson(
    `\`\`\`tab\nid: licks\ntitle: Bent\n4 -4' -4' 4\n\`\`\`\n\n\`\`\`tab\nid: long\n${LONG}\n\`\`\`\n`,
    'title: The left branch\nstage: start\nrequires: first\nteaches: draw-4-half-step',
  ),
  'lessons/right.mdx': lesson('', 'title: The right branch\nstage: start\nrequires: first\nteaches: holding'),
  'lessons/both.mdx': lesson(
    "```tab\nid: last\ntitle: At last\n-4' -4 {4 -4'} 5\n```\n\n```tab\nid: quoted\n<left/licks>\n```\n",
    'title: Both together\nstage: end\nrequires: [left, right]',
  ),
  'lessons/secret.mdx': lesson("```tab\n-4' 4 4 4\n```\n", 'title: Secret\nrequires: both\ndraft: true'),
};

let site: string;
beforeAll(async () => {
  site = join(folderOf({}), 'site');
  const { code, err } = await reedway(['build', courseOf(FILES), '--out', site, '--base', '/under/']);
  expect(err).toContain('long-breath');
  expect(code).toBe(0);
});
const page = (path: string): Document =>
  new JSDOM(readFileSync(join(site, path, 'index.html'), 'utf8')).window.document;
const texts = (of: ParentNode, selector: string): string[] =>
  [...of.querySelectorAll(selector)].map((one) => (one.textContent ?? '').replace(/\s+/g, ' ').trim());
const links = (of: ParentNode, selector: string): (string | null)[] =>
  [...of.querySelectorAll(selector)].map((one) => one.getAttribute('href'));

describe('the path page', () => {
  test('lists the lessons in order, with what each comes after, what it opens and how hard it is', () => {
    const document = page('path');
    expect(texts(document, '.path-list h2')).toEqual(['The start', 'The end']);
    expect(texts(document, '.path-list li a')).toEqual([
      'First & foremost',
      'The left branch',
      'The right branch',
      'Both together',
    ]);
    expect(texts(document, '.path-list li .label')).toEqual([
      expect.stringMatching(/^start here · leads to 2 and 3 · difficulty \d(\.\d)? of 10$/),
      expect.stringMatching(/^after 1 · leads to 4 · difficulty \d(\.\d)? of 10$/),
      'after 1 · leads to 4',
      expect.stringMatching(/^after 2 and 3 · difficulty \d(\.\d)? of 10$/),
    ]);
    expect(document.body.textContent).not.toContain('Secret');
  });

  test('draws the same as a map of links, without a style attribute and with every line', () => {
    const map = present(page('path').querySelector('.path-map'), 'the element');
    expect(links(map, '.lesson-box')).toEqual(['first', 'left', 'right', 'both'].map((id) => `/under/lessons/${id}/`));
    expect([...map.querySelectorAll('.lesson-box')].map((one) => one.getAttribute('aria-label'))).toEqual([
      '1 First & foremost', '2 The left branch', '3 The right branch', '4 Both together',
    ]); // biome-ignore format: as it is read
    expect(map.querySelectorAll('.dependency')).toHaveLength(4);
    expect(map.outerHTML).not.toContain('style=');
  });

  test('offers the path as data to pages that point onward', () => {
    const stops = JSON.parse(readFileSync(join(site, 'path/lessons.json'), 'utf8')) as unknown;
    expect(stops).toContainEqual({
      id: 'both', needs: ['left', 'right'], title: 'Both together', number: 4, address: '/under/lessons/both/',
    }); // biome-ignore format: as it is read
  });
});

describe('a lesson’s page', () => {
  test('says what it comes after, what it opens and what it teaches, with what to take care of', () => {
    const document = page('lessons/left');
    const facts = new Map(
      [...document.querySelectorAll('.facts > div')].map((one) => [texts(one, 'dt')[0], links(one, 'dd a')]),
    );
    expect(facts.get('Builds on')).toEqual(['/under/lessons/first/']);
    expect(facts.get('Leads to')).toEqual(['/under/lessons/both/']);
    expect(facts.get('Teaches')).toEqual(['/under/techniques/draw-4-half-step/']);
    expect(texts(document, '.lesson-head .caution')[0]).toMatch(/^Stop when jaw/);
  });

  test('shows of each block how hard it is and why, and cautions where its breath is long', () => {
    const figures = [...page('lessons/left').querySelectorAll('.block-figure')];
    expect(texts(itemAt(figures, 0), '.block-foot summary')[0]).toMatch(/^Difficulty \d(\.\d)? of 10$/);
    expect(texts(itemAt(figures, 0), '.block-foot li')[0]).toMatch(
      /^2 bent notes, the hardest draw 4 bent a half step/,
    );
    expect(texts(itemAt(figures, 0), '.caution')).toEqual([]);
    expect(texts(itemAt(figures, 1), '.caution')[0]).toMatch(
      /^Watch your breath\. Here you draw for about 12 seconds without a change of breath/,
    );
  });

  test('leaves out drafts among what it opens', () => {
    expect(page('lessons/both').body.innerHTML).not.toContain('/under/lessons/secret/');
  });
});

describe('a technique’s page', () => {
  test('says what it is, where it is taught, and shows every block that uses it, the easiest first, with the notes marked', () => {
    const document = page('techniques/draw-4-half-step');
    expect(texts(document, 'h1')).toEqual(['Draw 4 bent a half step']);
    expect(links(document, '.facts a')).toContain('/under/lessons/left/');
    const uses = [...document.querySelectorAll('.use')];
    expect(uses.map((use) => links(use, 'h3 a')[0])).toEqual([
      '/under/lessons/left/#block-licks',
      '/under/lessons/both/#block-quoted',
      '/under/lessons/both/#block-last',
    ]);
    const levels = uses.map((use) => Number(/Difficulty (\S+)/.exec(texts(use, '.label')[0] ?? '')?.[1]));
    expect(levels).toEqual([...levels].sort((a, b) => a - b));
    const marked = (use: Element) => [
      ...new Set([...use.querySelectorAll('.e.found')].map((one) => one.getAttribute('data-event'))),
    ];
    expect(uses.map(marked)).toEqual([
      ['1', '2'],
      ['1', '2'],
      ['0', '3'],
    ]);
    // Blocks of several lessons are on one page, and no two of their parts share an id.
    const ids = [...document.querySelectorAll('[id]')].map((one) => one.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('is there for what no score shows, too, and only for what the course teaches or uses', () => {
    expect(page('techniques/holding').body.textContent).toContain('It cannot be seen in a score');
    const files = [...filesBelow(site).keys()];
    expect(files).not.toContain('techniques/octave-splits/index.html');
    const listed = links(page('techniques'), '.techniques > li > a');
    expect(listed).toContain('/under/techniques/holding/');
    for (const address of listed) expect(files).toContain(`${address?.slice('/under/'.length)}index.html`);
  });
});
