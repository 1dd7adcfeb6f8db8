/** What would be too deep for the reader of MDX is found before it gets there. */
import { mdxToJs } from 'satteri';
import { describe, expect, test } from 'vitest';
import { placeOf } from '../../src/diagnostics/place.ts';
import { readMarkdown } from '../../src/lesson/markdown.ts';
import { tooDeepIn } from '../../src/lesson/nesting.ts';

const reported = (text: string) =>
  readMarkdown(text, placeOf(text)).diagnostics.map(({ message, span }) => [span.from, message]);

const IN_ONE_ANOTHER = 'More than 100 quotations, lists or elements are in one another here, which no lesson needs.';
const lines = (count: number, line: (index: number) => string): string =>
  Array.from({ length: count }, (_, index) => line(index)).join('\n');

describe('a lesson is refused', () => {
  test.each([
    ['quotations in one line', `One.\n\n${'> '.repeat(101)}a`, 6, IN_ONE_ANOTHER],
    ['quotations without blanks, very many', `${'>'.repeat(1_000_000)}a`, 0, IN_ONE_ANOTHER],
    ['lists in one line', `${'- '.repeat(101)}a`, 0, IN_ONE_ANOTHER],
    ['numbered lists in one line', `${'1. '.repeat(101)}a`, 0, IN_ONE_ANOTHER],
    ['lists and quotations in turn', `\r\n${'- > '.repeat(60)}a`, 2, IN_ONE_ANOTHER],
    ['elements in one another', `${'<b>'.repeat(105)}x${'</b>'.repeat(105)}`, undefined, IN_ONE_ANOTHER],
    ['lists line by line', lines(60, (index) => `${'  '.repeat(index)}- a`), undefined, IN_ONE_ANOTHER],
    [
      'very many elements',
      `${'<b className="x">'.repeat(100_000)}`,
      1000 * 17,
      'More than 1000 tags are open here at once, which no lesson needs.',
    ],
    [
      'elements side by side',
      '<i /> '.repeat(20_000),
      10_000 * 6,
      'This is the text’s tag or brace number 10001, which no lesson needs.',
    ],
    [
      'comments side by side',
      '{/* */} '.repeat(20_000),
      10_000 * 8,
      'This is the text’s tag or brace number 10001, which no lesson needs.',
    ],
    [
      'references to characters',
      '&amp;'.repeat(20_000),
      10_000 * 5,
      'This is the text’s reference to a character number 10001, which no lesson needs.',
    ],
    [
      'lines of a program',
      `Text.\n\nexport const a = [\n${'1,\n\n'.repeat(20_000)}]`,
      7,
      'A program would begin here, and more comes after it than could be one, which no lesson needs.',
    ],
    ['brackets', '['.repeat(10_000), 1000, 'More than 1000 brackets are open here at once, which no lesson needs.'],
  ])('for too many %s', (_, text, at, message) => {
    const [first, ...others] = reported(text);
    expect(others).toEqual([]);
    expect(first?.[1]).toBe(message);
    if (at !== undefined) expect(first?.[0]).toBe(at);
  });
});

describe('a lesson is read up to the limit, and not one step further:', () => {
  const reads = (text: string): boolean => reported(text).length === 0;
  test.each([
    ['brackets', (count: number) => `${'('.repeat(count)}a${')'.repeat(count)}`, 1000],
    ['quotations', (count: number) => `${'> '.repeat(count)}a`, 100],
    ['lists', (count: number) => `${'- '.repeat(count)}a`, 100],
  ])('%s in one another', (_, text, most) => {
    expect(tooDeepIn(text(most))).toBeUndefined();
    expect(tooDeepIn(text(most + 1))).toMatchObject({ what: expect.stringContaining(`${most}`) });
  });
  test('tags side by side', () => {
    expect(tooDeepIn('<i /> '.repeat(10_000))).toBeUndefined();
    expect(tooDeepIn('<i /> '.repeat(10_001))).toMatchObject({ at: 60_000, unreadable: true });
    expect(tooDeepIn('</i> '.repeat(10_001))).toBeUndefined();
  });
  test('references to characters, of which those in a fence are none', () => {
    expect(tooDeepIn('&amp; '.repeat(10_000))).toBeUndefined();
    expect(tooDeepIn('&#38; '.repeat(10_001))).toMatchObject({ at: 60_000, unreadable: true });
    expect(tooDeepIn('& '.repeat(10_001))).toBeUndefined();
    expect(tooDeepIn(`\`\`\`\n${'&amp;\n'.repeat(10_001)}\`\`\``)).toBeUndefined();
  });
  test('a program as long as a lesson, which has its own problem', () => {
    const program = `export const a = [\n${'1,\n\n'.repeat(1000)}]`;
    expect(tooDeepIn(program)).toBeUndefined();
    expect(tooDeepIn(`export the file.\n\n${'A line of text as long as others.\n\n'.repeat(1000)}`)).toBeUndefined();
    expect(tooDeepIn('1\n\n'.repeat(200_000))).toBeUndefined();
  });
  test('tags in one another, of which closed ones do not count', () => {
    expect(tooDeepIn(`${'<b>'.repeat(1000)}${'</b>'.repeat(1000)}`)).toBeUndefined();
    expect(tooDeepIn('<b>'.repeat(1001))).toMatchObject({ at: 3000, unreadable: true });
    expect(tooDeepIn('<b></b>'.repeat(1001))).toBeUndefined();
    expect(tooDeepIn(`${'</b>'.repeat(10)}${'<b>'.repeat(1001)}`)).toMatchObject({ at: 3040 });
  });
  test('brackets, of which closed ones do not count', () => {
    expect(tooDeepIn('()[]'.repeat(1001))).toBeUndefined();
    expect(tooDeepIn(`${')'.repeat(10)}${'['.repeat(1001)}`)).toMatchObject({ at: 1010, unreadable: false });
  });
  test('a rule of more than a hundred signs', () => {
    expect(reads(`${'- '.repeat(101)}-`)).toBe(true);
    expect(tooDeepIn(`${'- '.repeat(101)}*`)).toBeDefined();
    expect(tooDeepIn(`${'+ '.repeat(101)}`)).toBeDefined();
  });
  test('what is in a fence, which only a fence as long closes', () => {
    const signs = '('.repeat(1001);
    expect(tooDeepIn(`\`\`\`\n${signs}\n\`\`\`\n`)).toBeUndefined();
    expect(tooDeepIn(`\`\`\`\`\n\`\`\`\n${signs}\n\`\`\`\`\n`)).toBeUndefined();
    expect(tooDeepIn(`\`\`\`\n\`\`\` x\n${signs}\n`)).toBeUndefined();
    expect(tooDeepIn(`\`\`\`\n\`\`\` \n${signs}\n`)).toBeDefined();
    expect(tooDeepIn(`\`\`\`\n~~~\n${signs}\n`)).toBeUndefined();
    expect(tooDeepIn(`\`\`\` a\`b\n${signs}\n`)).toBeDefined();
  });
});

describe('a lesson is read, and can be compiled,', () => {
  test.each([
    ['with a quotation of forty levels', `${'> '.repeat(40)}a`],
    ['with long rules', `${'- '.repeat(300)}\n\n${'* '.repeat(300)}\n\n${'-'.repeat(300)}`],
    ['with a long line under a heading', `Title\n${'-'.repeat(300)}`],
    ['with many elements side by side', '<b>x</b> <i /> '.repeat(3000)],
    ['with many brackets side by side', '[a](b) (c) '.repeat(3000)],
    ['with many items of a list', lines(3000, (index) => `${index}. > a`)],
    ['with thousands of quotations in a block', `\`\`\`tab\n${'<riff> '.repeat(20_000)}\n\`\`\`\n\n<i />`],
    ['with brackets in a fence in a quotation', `> ~~~\n> ${'[{('.repeat(5000)}\n> ~~~\n\nText.`],
    ['with signs in a fence', `\`\`\`\n${lines(50, () => '<x> > > [ (')}\n\`\`\``],
  ])('%s', async (_, text) => {
    expect(reported(text)).toEqual([]);
    expect(await mdxToJs(text, {})).toHaveProperty('code');
  });
});
