import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { mdxToJs } from 'satteri';
import { beforeEach, describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { engraverWith } from '../../src/publish/engraving/engrave.ts';
import { NO_RECORD_STORE } from '../../src/publish/engraving/record-store.ts';
import { lessonElements, lessonMarkdown } from '../../src/publish/lesson-plugin.ts';
import { holdSite } from '../../src/site/site.ts';
import { siteOf } from '../../src/site/site-of-course.ts';
import { itemAt } from '../../src/values/checked.ts';
import { courseOf, lesson } from '../course/some-course.ts';

const BLOCK = '```tab\nid: figure\n4 = = = = = = =\n```\n';

const compiled = async (text: string, file = 'lessons/blues/second.mdx'): Promise<string> => {
  const dir = courseOf({
    'lessons/first.mdx': lesson(`## A heading\n\n${BLOCK}`),
    'lessons/blues/second.mdx': lesson(text),
    'media/harp.svg': '<svg/>',
    'media/clip one.mp4': '',
  });
  const course = loadCourse(dir);
  expect(course.problems).toEqual([]);
  holdSite(
    Promise.resolve(
      siteOf(course, engraverWith(NO_RECORD_STORE), { base: 'school', origin: undefined, authoring: false }),
    ),
  );
  const result = await mdxToJs(lesson(text), {
    mdastPlugins: [lessonMarkdown],
    hastPlugins: [lessonElements],
    fileURL: pathToFileURL(join(dir, file)),
  });
  return result.code;
};
const addresses = (code: string): string[] =>
  [...code.matchAll(/(?:href|src|poster): "([^"]*)"/g)].map((match) => itemAt(match, 1));
const blocks = (code: string): string[] =>
  [...code.matchAll(/TabBlock, \{\s*lesson: "([^"]*)",\s*index: "([^"]*)"/g)].map((match) => `${match[1]} ${match[2]}`);

beforeEach(() => holdSite(Promise.reject(new Error('no site')).catch(() => undefined as never)));

describe('a tab block', () => {
  test('becomes a component that names its lesson and number, in the order of the text, however deep it stands', async () => {
    const code = await compiled(
      [
        '```tab\n4 = = = = = = =\n```',
        '> ```tab\n> 5 = = = = = = =\n> ```',
        '- so:\n\n  ```tab\n  6 = = = = = = =\n  ```',
        '```tab\n.8\n```',
      ].join('\n\n'),
    );
    expect(blocks(code)).toEqual(['blues/second 0', 'blues/second 1', 'blues/second 2', 'blues/second 3']);
    expect(code).not.toMatch('= = =');
  });

  test('is only one that is marked tab, in a lesson', async () => {
    const code = await compiled('```text\n4 = = =\n```\n');
    expect(blocks(code)).toEqual([]);
    expect(code).toMatch('4 = = =');
    expect(blocks(await compiled('```tab\n.8\n```\n', 'elsewhere.mdx'))).toEqual([]);
  });
});

test('a figure gets its lesson and its number, wherever it is, and keeps what is in it', async () => {
  const code = await compiled(
    '<BendLadder hole="4" />\n\n- <BendLadder hole="3" />\n\n<div>\n\n```tab\n.8\n```\n\n[x](first)\n\n</div>\n',
  );
  const places = [...code.matchAll(/BendLadder, \{\s*hole: "(\d)",\s*lesson: "([^"]*)",\s*index: "(\d)"/g)];
  expect(places.map((place) => place.slice(1))).toEqual([
    ['4', 'blues/second', '0'],
    ['3', 'blues/second', '1'],
  ]);
  expect(blocks(code)).toEqual(['blues/second 0']);
  expect(addresses(code)).toEqual(['/school/lessons/first/']);
});

/** Footnotes are at the end of a page, in the order in which the text refers to them, wherever they are written. */
test('a figure and a block of a footnote get their own number, not that of their turn on the page', async () => {
  const code = await compiled(
    [
      'Text[^late] and text[^early].',
      '[^early]: <BendLadder hole="1" />\n\n    ```tab\n    id: one\n    4 = = = = = = =\n    ```',
      '<BendLadder hole="2" />',
      '```tab\nid: two\n5 = = = = = = =\n```',
      '[^late]: 𝄞 <BendLadder hole="3" />',
      '- > <BendLadder\n  > hole="4" />',
      '[^never]: <BendLadder hole="6" />',
      '<BendLadder hole="5" />',
    ].join('\n\n'),
  );
  const places = [...code.matchAll(/BendLadder, \{\s*hole: "(\d)",\s*lesson: "[^"]*",\s*index: "(\d)"/g)];
  const onPage = places.map(([, hole, index]) => `${hole} is ${index}`);
  expect(onPage).toEqual(['2 is 1', '4 is 3', '5 is 5', '3 is 2', '1 is 0']);
  expect(blocks(code)).toEqual(['blues/second 1', 'blues/second 0']);
});

test('what is in braces is compiled as the text it is, and no expression is left', async () => {
  const code = await compiled('One {"tw" /* w */} {3} {`four`} {/* five */} {true}\n\n{"six"}\n');
  for (const text of ['"tw"', '"3"', '"four"', '"six"']) expect(code).toContain(text);
  expect(code).not.toMatch(/five|true|`/);
});

describe('a lesson that was changed after the course was read', () => {
  const changed = async (authoring: boolean): Promise<string> => {
    const dir = courseOf({ 'lessons/first.mdx': lesson('<BendLadder hole="4" />\n') });
    const course = loadCourse(dir);
    holdSite(
      Promise.resolve(siteOf(course, engraverWith(NO_RECORD_STORE), { base: '', origin: undefined, authoring })),
    );
    const result = await mdxToJs(lesson('More.\n\n<BendLadder hole="4" />\n'), {
      mdastPlugins: [lessonMarkdown],
      hastPlugins: [lessonElements],
      fileURL: pathToFileURL(join(dir, 'lessons/first.mdx')),
    });
    return result.code;
  };
  test('is not built with another figure than it names', async () => {
    await expect(changed(false)).rejects.toThrow('lessons/first.mdx was changed while it was built. Build it again.');
  });
  test('shows no other figure to its author until it is read again', async () => {
    expect(await changed(true)).toMatch('index: "-1"');
  });
});

describe('a link', () => {
  test.each([
    ['[x](first)', '/school/lessons/first/'],
    ['[x](first.mdx)', '/school/lessons/first/'],
    ['[x](../first.mdx)', '/school/lessons/first/'],
    ['[x](first#figure)', '/school/lessons/first/#block-figure'],
    ['[x](first#a-heading)', '/school/lessons/first/#a-heading'],
    ['[x](/guide)', '/school/guide/'],
    ['[x][y]\n\n[y]: first', '/school/lessons/first/'],
    ['![x](media/harp.svg)', '/school/media/harp.svg'],
    ['![x](<media/clip one.mp4>)', '/school/media/clip%20one.mp4'],
    ['[x](https://example.org/first)', 'https://example.org/first'],
    ['[x](mailto:teacher@example.org)', 'mailto:teacher@example.org'],
    ['<a href="first">x</a>', '/school/lessons/first/'],
    ['<img src="media/harp.svg" alt="x" />', '/school/media/harp.svg'],
  ])('%j leads to %s', async (text, address) => {
    expect(addresses(await compiled(`${text}\n`))).toEqual([address]);
  });
});
