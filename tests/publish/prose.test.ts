/** Components within a sentence on the pages of a built site: valid HTML, no spaces that nobody wrote, anchors that links lead to. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { JSDOM } from 'jsdom';
import { beforeAll, describe, expect, inject, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { buildInto } from '../../src/publish/build.ts';
import { engraverWith } from '../../src/publish/engraving/engrave.ts';
import { NO_RECORD_STORE } from '../../src/publish/engraving/record-store.ts';
import { present } from '../../src/values/checked.ts';
import { courseOf, lesson } from '../course/some-course.ts';
import { LONG } from '../setup/long.ts';

const TEXT = `Lead to [one](#the--blues-on), [two](#-3-and-riff) and [three](first#key).

## The <Key /> blues on <Harp article="yes" />

<Key />

<Position /> <Harp />
<Technique>vibrato</Technique>

## <Note over="I7">-3'</Note> and <Term>riff</Term>

It (<Note show="pitch">-3'</Note>), “<Harp />”, **<Chord>IV7</Chord>**, *<Position />*, <Note show="tab">-3'</Note>: <Key/>-major.

<Harp article="yes" /> is mine. <Term>riffs</Term>, <Term of="riff">this & that</Term>.

- <Note show="name pitch">-3'</Note>
- in <Key />

  <Position show="both" />

| <Chord show="numeral">I7</Chord> | <Note show="pitch">-2 -3</Note> |
|---|---|
| <Key show="full" /> | **<Harp show="label" />** |

> <Position /> [in <Key />](https://example.org) and <Term>riff</Term>.

A note.[^1]

[^1]: <Harp /> is it, <Note show="pitch">-2''</Note>.

Setext <Key />
==============

\`\`\`tab
title: x
chords: I7
-2[vibrato] = = = -3 = = . |]
\`\`\`

It has <Technique>vibrato</Technique>.

### Key
`;

const FILES = {
  'course.yaml': 'title: A course\n',
  'glossary.yaml': 'terms:\n  - term: riff\n    means: "A <short> figure & more."\n    also: [riffs, "<b>lick</b>"]\n',
};

let document: Document;
let html = '';
let glossary: Document;
beforeAll(async () => {
  const course = loadCourse(courseOf({ ...FILES, 'lessons/first.mdx': lesson(TEXT, 'title: One\nposition: 2') }));
  expect(course.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const folder = mkdtempSync(join(inject('scratch'), 'prose-'));
  await buildInto(folder, course, engraverWith(NO_RECORD_STORE), {
    base: '/school/',
    origin: undefined,
    authoring: false,
  });
  html = readFileSync(join(folder, 'lessons/first/index.html'), 'utf8');
  document = new JSDOM(html).window.document;
  glossary = new JSDOM(readFileSync(join(folder, 'glossary/index.html'), 'utf8')).window.document;
}, 120_000);

const text = (selector: string): Element => present(document.querySelector(`.lesson-text ${selector}`), selector);
/** As it is read on the page, without what is for a voice. */
const shown = (element: Element): string => {
  const copy = element.cloneNode(true) as Element;
  for (const one of copy.querySelectorAll('.aloud')) one.remove();
  return present(copy.textContent, 'the text').replace(/\s+/g, ' ').trim();
};
const all = (selector: string): string[] => [...document.querySelectorAll(`.lesson-text ${selector}`)].map(shown);

describe('components within a sentence, on a page', () => {
  test('are in headings, whose anchors are those that links were checked against', () => {
    expect(
      all('h1, h2')
        .filter((one) => one !== 'One')
        .slice(0, 3),
    ).toEqual(['The G blues on a C harp', 'Flat third and riff', 'Setext G']);
    for (const link of document.querySelectorAll('.lesson-text > p:first-child a')) {
      const id = decodeURIComponent(present(link.getAttribute('href'), 'the address').replace(/^.*#/, ''));
      expect(document.getElementById(id)?.localName, id).toMatch(/^h[23]$/);
    }
  });

  test('have no spaces but those that were written', () => {
    expect(all('p')).toEqual(
      expect.arrayContaining([
        'G',
        'Second position C harp vibrato',
        "It (B♭), “C harp”, C7, second position, -3': G-major.",
        'A C harp is mine. riffs, this & that.',
        'Second position in G and riff.',
      ]),
    );
    expect(document.querySelector('.lesson-text .footnotes, .lesson-text section')?.textContent).toContain(
      'C harp is it, F.',
    );
  });

  test('are in lists, tables, emphasis, quotes and links', () => {
    expect(all('li').slice(0, 2)).toEqual(['Draw 3 bent a half step (B♭)', 'in G Second position (cross harp)']);
    expect(all('th')).toEqual(['I7', 'G and B']);
    expect(all('td')).toEqual(['G major', 'C']);
    expect(shown(text('strong'))).toBe('C7');
    expect(shown(text('em'))).toBe('second position');
    expect(shown(text('blockquote a[href="https://example.org"]'))).toBe('in G');
    expect(text('code').textContent).toBe("-3'");
  });

  test('lead to the glossary and to techniques of this site', () => {
    const links = [...document.querySelectorAll('.lesson-text a[href*="#term-"], .lesson-text a[href*="techniques"]')];
    expect(new Set(links.map((link) => link.getAttribute('href')))).toEqual(
      new Set(['/school/glossary/#term-riff', '/school/techniques/vibrato/']),
    );
    const term = present(glossary.getElementById('term-riff'), 'the word');
    expect(term.querySelector('dt')?.textContent).toBe('riff');
    expect(term.querySelector('dd')?.textContent).toMatch(/^\s*A <short> figure & more\./);
    expect(term.querySelector('.also')?.textContent).toContain('riffs, <b>lick</b>');
    expect(term.querySelector('b')).toBeNull();
  });

  test('are valid: nothing of a sentence is put out of its paragraph, and no paragraph is in another', () => {
    for (const said of document.querySelectorAll('.said')) {
      expect(said.closest('p, li, th, td, h1, h2, h3'), said.outerHTML).not.toBeNull();
      expect(said.querySelector('p, div, ul')).toBeNull();
    }
    expect(document.querySelectorAll('.lesson-text p p, .lesson-text a a, .lesson-text p:empty').length).toBe(0);
    // What a parser had to correct would be written otherwise: each opening tag of a paragraph has its end.
    expect([...html.matchAll(/<p[ >]/g)].length).toBe([...html.matchAll(/<\/p>/g)].length);
    expect(html).not.toMatch(/saidBroken|<mark>|undefined/);
  });

  test('have numbers of their own, which the music of the lesson knows', () => {
    const numbers = [...document.querySelectorAll('.lesson-text [data-said]')].map((one) =>
      one.getAttribute('data-said'),
    );
    expect(new Set(numbers).size).toBe(numbers.length);
    expect(numbers.length).toBe(25);
  });
});

test.runIf(LONG)(
  'a broken one has a message for its author, on the page that is made while they work',
  async () => {
    const course = loadCourse(
      courseOf({
        ...FILES,
        'lessons/first.mdx': lesson('It is <Note>hello</Note>, <Key /> and <Term>nothing</Term>.\n', 'title: One'),
      }),
    );
    const folder = mkdtempSync(join(inject('scratch'), 'prose-'));
    const build = (authoring: boolean) =>
      buildInto(folder, course, engraverWith(NO_RECORD_STORE), {
        base: '/',
        origin: undefined,
        authoring,
      });
    await build(true);
    const page = new JSDOM(readFileSync(join(folder, 'lessons/first/index.html'), 'utf8')).window.document;
    const marks = [...page.querySelectorAll('.lesson-text mark')];
    expect(marks).toHaveLength(2);
    expect(page.querySelector('.lesson-text')?.textContent).toMatch(/^\s*It is .+, C and .+\.\s*$/);
  },
  120_000,
);
