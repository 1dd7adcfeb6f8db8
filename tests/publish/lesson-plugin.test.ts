import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { mdxToJs } from 'satteri';
import { beforeEach, describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { engraverWith } from '../../src/publish/engraving/engrave.ts';
import { NO_PACK } from '../../src/publish/engraving/record-store.ts';
import { lessonElements, lessonMarkdown } from '../../src/publish/lesson-plugin.ts';
import { holdSite } from '../../src/site/site.ts';
import { siteOf } from '../../src/site/site-of-course.ts';
import { itemAt } from '../../src/time/item.ts';
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
    Promise.resolve(siteOf(course, engraverWith(NO_PACK), { base: 'school', origin: undefined, authoring: false })),
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

test('a figure is told its lesson and its number, wherever it stands, and keeps what stands in it', async () => {
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
