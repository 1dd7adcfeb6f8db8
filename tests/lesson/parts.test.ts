/** The small readers of a lesson: front matter, addresses, tags, values in braces, lines as messages repeat them. */
import { describe, expect, test } from 'vitest';
import { placeOf } from '../../src/diagnostics/place.ts';
import { attributeText } from '../../src/lesson/component-text.ts';
import { destinationSpan } from '../../src/lesson/destination.ts';
import { fenceFault } from '../../src/lesson/fence.ts';
import { readFrontMatter, withEmptyFrontMatter, withoutFrontMatter } from '../../src/lesson/front-matter.ts';
import { readLessonText } from '../../src/lesson/lesson-text.ts';
import { lineFrom, oneLine } from '../../src/lesson/line.ts';
import { readableText, readMarkdown } from '../../src/lesson/markdown.ts';
import { attributesAt } from '../../src/lesson/tag.ts';
import { attributeValueText, readValue } from '../../src/lesson/value.ts';
import { lesson } from '../course/some-course.ts';

describe('front matter', () => {
  const read = (source: string) => {
    const { value, written, diagnostics } = readFrontMatter(source);
    return { value: { ...(value as object) }, written, codes: diagnostics.map(({ code }) => code) };
  };
  test.each([
    ['---\ntitle: A\n---\n', { title: 'A' }],
    ['---\r\ntitle: A\r\n---\r\n', { title: 'A' }],
    ['---\rtitle: A\r---\r', { title: 'A' }],
    ['---\r\ntitle: A\r\n---\r\nText.', { title: 'A' }],
    ['--- \t\ntitle: A\n---  \nText.', { title: 'A' }],
    ['---\ntitle: A\n---', { title: 'A' }],
    ['---\ntitle: ---x\nsummary: B\n---\nA line of\n---\n', { title: '---x', summary: 'B' }],
    ['---\n---\n', {}],
  ])('of %j is read', (source, value) => expect(read(source)).toEqual({ value, written: true, codes: [] }));

  test.each([
    ['', 'front-matter-missing'],
    ['Text.\n---\ntitle: A\n---\n', 'front-matter-missing'],
    ['----\ntitle: A\n----\n', 'front-matter-missing'],
    [' ---\ntitle: A\n---\n', 'front-matter-missing'],
    ['--- title\n---\n', 'front-matter-missing'],
    ['---\ntitle: A\n', 'front-matter-unclosed'],
    ['---\ntitle: A\n--- b\n', 'front-matter-unclosed'],
    ['---\ntitle: A\n ---\n', 'front-matter-unclosed'],
    ['---', 'front-matter-unclosed'],
  ])('of %j is none', (source, code) => expect(read(source)).toEqual({ value: {}, written: false, codes: [code] }));

  test('that begins too late is reported as that, and other text is not', () => {
    const message = (source: string) => readFrontMatter(source).diagnostics[0]?.message;
    expect(message('\n---\ntitle: A\n---\n')).not.toBe(message('Text.\n'));
    expect(message('  \n --- \ntitle: A\n')).toBe(message('\n---\ntitle: A\n---\n'));
    expect(message('\n----\n')).toBe(message('Text.\n'));
    expect(readFrontMatter('Text.\n').diagnostics[0]?.span).toEqual({ from: 0, to: 0 });
    expect(readFrontMatter('---\ntitle: A\n').diagnostics[0]?.span).toEqual({ from: 0, to: 3 });
  });
});

describe('the text of a lesson for a reader of MDX', () => {
  test.each([
    ['---\ntitle: A\n---\nText.', '   \n        \n   \nText.', '---\n        \n---\nText.'],
    ['---\r\ntitle: A\r\n---\r\nText.', '   \r\n        \r\n   \r\nText.', '---\r\n        \r\n---\r\nText.'],
    ['---\ra: b\r---\rText.', '   \n    \n   \rText.', '---\n    \n---\rText.'],
    // Another program ends it at the first line that begins so, or at the last that has nothing else on it.
    ['---\na: |\n---x\n--- \t\nText.\n---\n', '   \n    \n    \n     \nText.\n---\n', undefined],
    ['---\n---\n---\na: b\n---', '   \n   \n---\na: b\n---', '---\n---\n---\na: b\n---'],
    ['---\nlayout: 𝄞\n---', '   \n          \n   ', '---\n          \n---'],
    ['Text.', 'Text.', 'Text.'],
  ])('%j has its front matter emptied, and each character in its place', (source, blank, empty) => {
    expect(withoutFrontMatter(source)).toBe(blank);
    if (empty !== undefined) expect(withEmptyFrontMatter(source)).toBe(empty);
    expect(withEmptyFrontMatter(source)).toHaveLength(source.length);
  });
  test.each([
    '\n---\nlayout: a\n---\n',
    '+++\nlayout = "a"\n+++\n',
    ' \t\n+++\n',
    '---\na: b\n',
    '\ufeff---\na: b\n---\n',
  ])('%j is for none that would find front matter where there is none', (source) => {
    expect(withEmptyFrontMatter(source)).toBeUndefined();
    expect(withoutFrontMatter(source)).toBe(source);
  });
});

describe('a line', () => {
  test.each([
    ['one\ntwo', 0, 'one'],
    ['one\r\ntwo', 1, 'ne'],
    ['one\rtwo', 0, 'one'],
    ['one\ntwo', 4, 'two'],
    ['one\n', 4, ''],
  ])('of %j from %d goes to its end', (source, from, line) => {
    const span = lineFrom(source, from);
    expect(span.from).toBe(from);
    expect(source.slice(span.from, span.to)).toBe(line);
  });
  test('is repeated without breaks, and not at any length', () => {
    expect(oneLine('  a\n\t b  c ')).toBe('a b c');
    expect(oneLine('x'.repeat(40))).toBe('x'.repeat(40));
    expect(oneLine('x'.repeat(41))).toBe(`${'x'.repeat(40)}…`);
  });
});

describe('an address', () => {
  const at = (text: string, url: string): string => {
    const span = destinationSpan(`ab ${text} cd`, { from: 3, to: 3 + text.length }, url);
    return `${span.from - 3} ${`ab ${text} cd`.slice(span.from, span.to)}`;
  };
  test.each([
    ['https://a.b', 'https://a.b', '0 https://a.b'],
    ['<https://a.b>', 'https://a.b', '0 <https://a.b>'],
    ['[x](one)', 'one', '4 one'],
    ['[x]( one "t")', 'one', '5 one'],
    ['[x](<one two>)', 'one two', '5 one two'],
    ['[x](<a\\>b>)', 'a>b', '0 [x](<a\\>b>)'],
    ['[x](a(b)c)', 'a(b)c', '4 a(b)c'],
    ['[x](a\\)b)', 'a)b', '4 a\\)b'],
    ['[x](a\\(b)', 'a(b', '4 a\\(b'],
    ['[x](a?b&amp;c)', 'a?b&c', '4 a?b&amp;c'],
    ['[x]:one', 'one', '4 one'],
    ['[x]: one', 'one', '5 one'],
    ['[x]:\n  <one>', 'one', '8 one'],
    ['[a](one)(two) [x](two)', 'two', '18 two'],
    ['[x](&ouml;)', 'ö', '0 [x](&ouml;)'],
  ])('in %s is %s', (text, url, place) => expect(at(text, url)).toBe(place));
});

describe('the attributes of a tag', () => {
  const read = (source: string, from = 0): string[] =>
    attributesAt(source, from).map(
      ({ name, nameSpan, valueSpan }) =>
        `${name} ${source.slice(nameSpan.from, nameSpan.to)} ${source.slice(valueSpan.from, valueSpan.to)}`,
    );
  test.each([
    ['<a>', []],
    ['<a/>', []],
    ['<a open>', ['open open open']],
    ['<a b="c" d=\'e\'>', ['b b c', 'd d e']],
    ['<a b = "c">', ['b b c']],
    ['<a b={c} d>', ['b b c', 'd d d']],
    ['<a b={"}"} c={1} />', ['b b "}"', 'c c 1']],
    ["<a b={'}'} c={1} />", ["b b '}'", 'c c 1']],
    ['<a b={`}`} c={1} />', ['b b `}`', 'c c 1']],
    ['<a b={`x}y`} c={1} />', ['b b `x}y`', 'c c 1']],
    ['<a b={"\\"}"} c={1} />', ['b b "\\"}"', 'c c 1']],
    ["<a b={'\\'}'} c={1} />", ["b b '\\'}'", 'c c 1']],
    ['<a b={/* } */ 1} c={2} />', ['b b /* } */ 1', 'c c 2']],
    ['<a b={1 // }\n} c={2} />', ['b b 1 // }\n', 'c c 2']],
    ['<a b={{c: {}}} d={2} />', ['b b {c: {}}', 'd d 2']],
    ['<a {...b} c="d">', ['undefined {...b} {...b}', 'c c d']],
    ['<a\n  b="c"\n  d>', ['b b c', 'd d d']],
    ['< a b>', ['b b b']],
    ['<a b', ['b b b']],
    ['<a b=', []],
    ['<a b="c', []],
  ])('%s', (source, attributes) => expect(read(source)).toEqual(attributes));
  test('are read on behind the mark of a quotation at the start of a line', () => {
    const source = '> <a b="c"\n> d="e"\n>f>';
    expect(read(source, 2)).toEqual(['b b c', 'd d e', 'f f f']);
    expect(read('x\n\t> <a b="c"\r\t> d>', 5)).toEqual(['b b c', 'd d d']);
  });
  test('end with the tag outside of a quotation', () => expect(read('<a b="c"\n> d="e">')).toEqual(['b b c']));
});

describe('a value in braces', () => {
  test.each([
    ['1', 1],
    ['-1.5', -1.5],
    ["'a'", 'a'],
    ['"a"', 'a'],
    ['`a`', 'a'],
    ['``', ''],
    ['true', true],
    ['null', null],
    ['', undefined],
    ['/* nothing */', undefined],
    ['1 // one', 1],
    ["[1, ['a']]", [1, ['a']]],
    ["{a: 1, 'b-c': {d: []}, 2: 'e'}", { a: 1, 'b-c': { d: [] }, 2: 'e' }],
  ])('%s is read', (text, value) => expect(readValue(text)).toMatchObject({ value }));
  test.each([
    'a',
    '1 + 1',
    '+1',
    '!true',
    '-"a"',
    '-a',
    `\`\${a}\``,
    '/a/',
    '1n',
    '[...a]',
    '{...a}',
    '{[a]: 1}',
    '{get a() { return 1 }}',
    '{a() {}}',
    '{a}',
    '1, 2',
    '[1,,2]',
    '1]; [2',
    '() => 1',
    '(',
    // A comment in a script, and two operators in the module that a lesson becomes.
    '1 <!--a[f()]',
    '"a" <!--a',
    '1\n--> a',
  ])('%s would have to be computed', (text) => expect(readValue(text)).toEqual({ bad: true }));
  test('knows the place of each part', () => {
    const text = "[{at: '1:02', bars: [-3]}]";
    const read = readValue(text);
    const parts = 'parts' in read ? [...read.parts] : [];
    expect(parts.map(([path, { from, to }]) => [path, text.slice(from, to)])).toEqual([
      ['', text],
      ['0', "{at: '1:02', bars: [-3]}"],
      ['0/at:', 'at'],
      ['0/at', "'1:02'"],
      ['0/bars:', 'bars'],
      ['0/bars', '[-3]'],
      ['0/bars/0', '-3'],
    ]);
  });
  test('is a text in braces as in quotation marks', () => {
    expect(attributeValueText('a')).toBe('a');
    expect(attributeValueText({ value: "'a'" })).toBe('a');
    expect(attributeValueText({ value: '1' })).toBeUndefined();
    expect(attributeValueText({ value: 'a' })).toBeUndefined();
    expect(attributeValueText(null)).toBeUndefined();
    expect(attributeValueText(undefined)).toBeUndefined();
  });
});

describe('a component', () => {
  const read = (text: string) => readLessonText(lesson(text));
  const attributes = (text: string) => read(text).components.flatMap((one) => one.attributes);
  test('has its values, and says which are in the file letter for letter', () => {
    const [title, cues, ...others] = attributes('<Clip title="One" cues={[{at: "1"}]} src={"a\\tb"} name />');
    expect(title).toMatchObject({ name: 'title', value: 'One', verbatim: true });
    expect(title?.parts).toBeUndefined();
    expect(cues).toMatchObject({ name: 'cues', value: [{ at: '1' }], verbatim: false });
    expect([...(cues?.parts?.keys() ?? [])]).toEqual(['', '0', '0/at:', '0/at']);
    expect(others).toMatchObject([
      { name: 'src', value: 'a\tb', verbatim: false },
      { name: 'name', value: true },
    ]);
  });
  test('places the parts of a value in the file', () => {
    const { source, components } = read('Text.\n\n<Clip name="a" cues={[{at: "1:02"}]} />\n');
    const span = components[0]?.attributes[1]?.parts?.get('0/at');
    expect(source.slice(span?.from, span?.to)).toBe('"1:02"');
  });
  test('has no value that would have to be computed, and says that it could not be read', () => {
    const { source, diagnostics, components } = read('<Clip name={a + b} />');
    expect(components[0]?.attributes).toMatchObject([{ name: 'name', value: true, unread: true }]);
    expect(diagnostics.map(({ code, span }) => [code, source.slice(span.from, span.to)])).toEqual([
      ['lesson-expression', 'a + b'],
    ]);
  });
  test('says a value as text', () => {
    const [text, figure, list, none] = attributes('<Clip title="One" name={2} cues={[]} src />');
    expect([text, figure, list, none, undefined].map(attributeText)).toEqual(['One', '2', '', '', '']);
  });
  test('names a file where it plays one, and nothing where it is empty', () => {
    const uses = (text: string) => read(text).references.map(({ url, use }) => `${use} ${url}`);
    expect(uses('<Clip src="media/a.mp3" captions="media/a.vtt" title="A" />')).toEqual([
      'play media/a.mp3',
      'play media/a.vtt',
    ]);
    expect(uses('<Clip src=" " />')).toEqual([]);
    expect(uses('<a href=" ">x</a>')).toEqual(['link  ']);
    expect(uses('<Clip name="media/a.mp3" />')).toEqual(['play media/a.mp3']);
    expect(uses('<Clip name="../media/a.mp3" />')).toEqual(['play ../media/a.mp3']);
    expect(uses('<Clip name="a/media/b" />')).toEqual([]);
  });
});

describe('a word behind a fence', () => {
  const codes = (word: string) => readLessonText(lesson(`~~~${word}\n4\n~~~\n`)).diagnostics.map(({ code }) => code);
  test.each(['tabs', 'TAB', 'Tabs'])('is nearly the right one: %s', (word) =>
    expect(codes(word)).toEqual(['fence-word']),
  );
  test.each(['tab', 'table', 'tabsy', 'stab', 'text', ''])('is right, or another one: %s', (word) => {
    expect(codes(word)).toEqual([]);
  });
});

test('a picture by reference needs words, as one by its address does', () => {
  const codes = (text: string) =>
    readLessonText(lesson(`${text}\n\n[a]: media/a.svg\n`)).diagnostics.map(({ code }) => code);
  expect(codes('![A harp][a] and ![A harp](media/a.svg)')).toEqual([]);
  expect(codes('![][a]')).toEqual(['picture-alt']);
  expect(codes('![ ](media/a.svg)')).toEqual(['picture-alt']);
});

describe('the text', () => {
  test('is given to the reader without half a surrogate pair or a last backslash', () => {
    expect(readableText('a\ud834b')).toBe('a\ufffdb');
    expect(readableText('a\\')).toBe('a\\\n');
    expect(readableText('a\\b')).toBe('a\\b');
  });
  test('holds texts, numbers and comments in braces, and nothing to compute', () => {
    const codes = (text: string) => readLessonText(lesson(text)).diagnostics.map(({ code }) => code);
    expect(codes("{'a'} and {1}, {/* b */}\n\n{2}")).toEqual([]);
    expect(codes('{a}')).toEqual(['lesson-expression']);
    expect(codes('{[1]}')).toEqual(['lesson-expression']);
  });
  test('that is no MDX is read as Markdown, with the mistake at its place', () => {
    const read = (text: string) => {
      const { diagnostics } = readMarkdown(text, placeOf(text));
      return diagnostics.map(({ code, span, message }) => [code, text.slice(span.from, span.to), message]);
    };
    expect(read('One.\n\n<Clip>\n')).toEqual([
      ['mdx-syntax', '<Clip>', 'The component <Clip> that begins here is not closed.'],
    ]);
    expect(read('One </Clip> two')).toEqual([
      ['mdx-syntax', '</Clip>', 'Nothing is open here that </Clip> could close.'],
    ]);
    expect(read('One {1')[0]?.[2]).toBe('The brace that begins here is not closed.');
    expect(read('One <!-- two -->')[0]?.[2]).toBe('A comment is written in another way in MDX.');
    expect(read('One <3')[0]?.[2]).toBe('A < begins a component here, and what follows is none.');
    expect(readLessonText(lesson('```tab\n4\n```\n\n<Clip>\n')).blocks).toHaveLength(1);
  });
});

describe('a fence', () => {
  const fault = (text: string) => fenceFault(`ab${text}cd`, { from: 2, to: 2 + text.length });
  test.each(['```tab\n4\n```', '~~~tab\n4\n~~~~', '```tab\r\n4\r\n``` \t', '> ```tab\n> 4\n> ```'])(
    '%j is closed',
    (text) => expect(fault(text)).toBeUndefined(),
  );
  test.each([
    ['```tab\n4\n5', {}],
    ['```tab', {}],
    ['````tab\n4\n```', {}],
    ['~~~tab\n4\n```', {}],
    ['```tab\n4\n\n~~~ tab\n5\n```', { next: 3 }],
    ['```tab\n4\n> ```tab\n5\n```', { next: 2 }],
  ])('%j is not, and says where the next block begins', (text, found) => expect(fault(text)).toEqual(found));
  test('of another word inside a block is no next one', () => {
    expect(fault('```tab\n4\n```table\n```')).toBeUndefined();
    expect(fault('```tab\nx ```tab\n```')).toBeUndefined();
  });
});
