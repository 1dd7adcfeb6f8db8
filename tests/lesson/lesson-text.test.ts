import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { destinationSpan } from '../../src/lesson/destination.ts';
import { readLessonText } from '../../src/lesson/lesson-text.ts';
import { attributesAt } from '../../src/lesson/tag.ts';
import { readValue } from '../../src/lesson/value.ts';
import { lesson } from '../course/some-course.ts';
import { cases } from '../setup/long.ts';

const read = (text: string) => readLessonText(lesson(text));
const reported = (text: string): string[] => {
  const { source, diagnostics } = read(text);
  return diagnostics.map(({ code, span }) => `${code} ${source.slice(span.from, span.to)}`);
};

describe('references', () => {
  test('are links, pictures and what components name, each at its address', () => {
    const { source, references } = read(
      [
        'A [link](one "t"), [two *in* [it]](<two b>), a [reference][r], ![picture](media/a\\_b.svg), <https://example.org>'.replace(
          ', <https://example.org>',
          ',',
        ),
        '[three](a(b)c) and [four](five?x#y).',
        '',
        '[r]: three.mdx',
        '',
        '<Clip src="media/talk.mp4" captions={"media/talk.vtt"} />',
        '<img alt="x" src="media/x.png" /> <a href="six">six</a>',
      ].join('\n'),
    );
    expect(references.map(({ url, span, use }) => [url, source.slice(span.from, span.to), use])).toEqual([
      ['one', 'one', 'link'],
      ['two b', 'two b', 'link'],
      ['media/a_b.svg', 'media/a\\_b.svg', 'embed'],
      ['a(b)c', 'a(b)c', 'link'],
      ['five?x#y', 'five?x#y', 'link'],
      ['three.mdx', 'three.mdx', 'link'],
      ['media/talk.mp4', 'media/talk.mp4', 'play'],
      ['media/talk.vtt', '"media/talk.vtt"', 'play'],
      ['media/x.png', 'media/x.png', 'embed'],
      ['six', 'six', 'link'],
    ]);
  });

  test.each(['![x][]', '![x]', '![a picture][ X ]', '[x] ![x]', '> ![x]'])(
    'that are defined apart are fetched where a picture refers to them: %s',
    (picture) => {
      const uses = (text: string) => read(text).references.map(({ url, use }) => [url, use]);
      const definitions = '[x]: https://example.org/x.png\n[y]: first\n';
      const wanted = [
        ['https://example.org/x.png', 'embed'],
        ['first', 'link'],
      ];
      expect(uses(`${picture}\n\n${definitions}`)).toEqual(wanted);
      expect(uses(`${definitions}\n${picture}\n`)).toEqual(wanted);
    },
  );

  test('stand for the whole where their address is not clear from it', () => {
    expect(destinationSpan('[x](&ouml;)', { from: 0, to: 11 }, 'ö')).toEqual({ from: 0, to: 11 });
  });
});

test('a heading has its text as written for an anchor, and says where its components are', () => {
  const { headings } = read('## <Note>-2</Note> in <Key />\n');
  expect(headings.map(({ slug, parts }) => [slug, parts])).toEqual([['-2-in', [28, ' in ', 47]]]);
});

test('headings have the anchors their page gives them', () => {
  const { headings } = read("# The *turn*\n\n## The turn\n\n> ### `-3'` over IV\n");
  expect(headings).toEqual([
    { depth: 1, slug: 'the-turn', span: { from: 25, to: 37 }, parts: ['The ', 'turn'] },
    { depth: 2, slug: 'the-turn-1', span: { from: 39, to: 50 }, parts: ['The turn'] },
    { depth: 3, slug: '-3-over-iv', span: { from: 54, to: 71 }, parts: ["-3'", ' over IV'] },
  ]);
});

describe('a lesson', () => {
  test.each([
    'Nothing but text with a < b, a > b and 2 }.',
    '{/* a comment */}\n\nText {"{"} and {`a`} and {-1}.\n',
    '<RoleTable notes={["-3", "-3\'"]} form="twelve-bar" />',
    '<div lang="de">*text*</div>',
    '<>text</>',
    '`import x from "y"`',
    '```js\nimport x from "y"\n```',
  ])('may hold %j', (text) => {
    expect(reported(text)).toEqual([]);
  });

  test.each([
    ['export const x = 1', 'lesson-code export const x = 1'],
    ['Text {x}', 'lesson-expression {x}'],
    ['Text {1, 2}', 'lesson-expression {1, 2}'],
    ['Text {[1]}', 'lesson-expression {[1]}'],
    ['{process.exit()}', 'lesson-expression {process.exit()}'],
    ['{1 <!--a[process.exit()]}', 'lesson-expression {1 <!--a[process.exit()]}'],
    ['<audio src={["https://example.org/a.mp3"]} />', 'lesson-expression ["https://example.org/a.mp3"]'],
    ['<a href={["javascript:a"]}>text</a>', 'lesson-expression ["javascript:a"]'],
    ['<p title={{ toString: 1 }}>text</p>', 'lesson-expression { toString: 1 }'],
    ['<p title={null}>text</p>', 'lesson-expression null'],
    ['<HarpMap notes={x.y} />', 'lesson-expression x.y'],
    ['<HarpMap {...x} />', 'lesson-expression {...x}'],
    ['<Harp.Map />', 'component-unknown Harp.Map'],
    ['<script>x</script>', 'script-in-lesson script'],
    ['<style>x</style>', 'element-unknown style'],
    ['<my-own-tag />', 'element-unknown my-own-tag'],
    ['<div class="x">text</div>', 'element-attribute class'],
  ])('may not hold %j', (text, wanted) => {
    expect(reported(text)).toEqual([wanted]);
  });

  test.each([
    ['x <3 y', 'mdx-syntax <3', 'A < begins a component here, and what follows is none.'],
    ['a {b', 'mdx-syntax {', 'The brace that begins here is not closed.'],
    ['Text {...x}', 'mdx-syntax }', 'What is in these braces is no value.'],
    ['{1 +}', 'mdx-syntax }', 'What is in these braces is no value.'],
    ['<!-- x -->', 'mdx-syntax <!--', 'A comment is written in another way in MDX.'],
    ['text\n\n</Clip>', 'mdx-syntax </Clip>', 'Nothing is open here that </Clip> could close.'],
    ['<div>\n\n</span>', 'mdx-syntax </span>', '</span> closes something other than what was opened last.'],
    ['♭𝄞 <Clip>', 'mdx-syntax <Clip>', 'The component <Clip> that begins here is not closed.'],
  ])('says in its author’s terms what is wrong with %j', (text, at, message) => {
    expect(reported(text)).toEqual([at]);
    expect(read(text).diagnostics[0]?.message).toBe(message);
  });

  test.each(['---\t', '---  ', '--- \t '])('holds no program below front matter that ends with %j', (end) => {
    const { diagnostics } = readLessonText(`---\ntitle: A\n${end}\n\n{process.exit()}\n\n---\n`);
    expect(diagnostics.map(({ code }) => code)).toEqual(['lesson-expression']);
  });

  test('is read to its end however deep it is nested', () => {
    expect(read(`${'> '.repeat(20_000)}text`).blocks).toEqual([]);
  });

  test('is read to its end however much is wrong or named in one place', () => {
    expect(read(`<a ${'href="a" '.repeat(130_000)}>x</a>`).references).toHaveLength(130_000);
  });

  test.each(['{', '[', '<Clip at={['])('names brackets that open and open: %s', (text) => {
    const { diagnostics, blocks } = read(`${text}${'['.repeat(100_000)}\n\n\`\`\`tab\n4\n\`\`\`\n`);
    expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
      ['mdx-syntax', 'More than 1000 brackets are open here at once, which no lesson needs.'],
    ]);
    expect(blocks.length).toBe(1);
  });

  /** Each ended the process inside the reader of MDX (satteri 0.10.5), which no test can catch. */
  test.each(['export `\\', "import '\\", 'Words.\n\nexport "a\\', '---\ntitle: A\n---\nexport x = `\\'])(
    'that ends with a backslash inside code is read: %j',
    (text) => {
      const { source, diagnostics } = readLessonText(text);
      expect(source).toBe(text);
      expect(diagnostics.map(({ code }) => code)).toEqual(['lesson-code']);
    },
  );

  test('that ends inside braces is reported at a character it has', () => {
    for (const text of ['{[a](}', 'Words.\n\n{[a](}'])
      expect(readLessonText(text).diagnostics.map(({ code, span }) => [code, span])).toEqual([
        ['mdx-syntax', { from: text.length - 1, to: text.length }],
      ]);
  });

  test('never throws, whatever its bytes are', () => {
    const piece = fc.constantFrom(
      '---\n', 'title: A\n', '\n', '```tab\n', '```', '4 -3\' ', '> ', '- ', '<Clip ', '<HarpMap>', '</HarpMap>', '/>', '{', '}', '"', "'",
      '[a](', '![b](media/', ')', ']: ', '&', '\\', '\t', '\r\n', '\r', '\0', '\u2028', '𝄞', '\ud834', 'import a\n', 'export ', '<!--',
      '$', '*', '|', '#', '`', '::',
    ); // biome-ignore format: a list to read across
    fc.assert(
      fc.property(
        fc.array(fc.oneof(piece, fc.string({ unit: 'binary', maxLength: 4 })), { maxLength: 40 }),
        (pieces) => {
          const { source, diagnostics } = readLessonText(pieces.join(''));
          for (const { span } of diagnostics) {
            expect(span.from).toBeGreaterThanOrEqual(0);
            expect(span.to).toBeLessThanOrEqual(source.length);
            expect(span.to).toBeGreaterThanOrEqual(span.from);
          }
        },
      ),
      { numRuns: cases(500, 10_000) },
    );
  });
});

describe('a problem with a tag', () => {
  test.each([
    ['x <nothing /> nothing', 3, 10],
    ['x <b\n:ase /> b:ase', 3, 4],
    ['x <b .c /> b.c', 3, 4],
  ])('points at the name in the tag, also where the name has white space in it: %j', (source, from, to) => {
    expect(readLessonText(source).diagnostics.map(({ span }) => span)).toEqual([{ from, to }]);
  });
});

describe('the attributes of a tag', () => {
  test('are found in every form, with what is around them', () => {
    const source = '> <Foo a="1" b=\'2 > 3\' c d={ {x: "}"} /* } */ }\n>   {...e} f-g = "h"/> rest="no"';
    const said = attributesAt(source, 2).map(({ name, nameSpan, valueSpan }) => [
      name,
      source.slice(nameSpan.from, nameSpan.to),
      source.slice(valueSpan.from, valueSpan.to),
    ]);
    expect(said).toEqual([
      ['a', 'a', '1'],
      ['b', 'b', '2 > 3'],
      ['c', 'c', 'c'],
      ['d', 'd', ' {x: "}"} /* } */ '],
      [undefined, '{...e}', '{...e}'],
      ['f-g', 'f-g', 'h'],
    ]);
  });
  test('end where the source does, however broken it is', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('<a', ' b', '=', '"', "'", '{', '}', '`', '/*', '>', '/', '\n')),
        (pieces) => {
          const source = pieces.join('');
          for (const { valueSpan } of attributesAt(source, 0)) expect(valueSpan.to).toBeLessThanOrEqual(source.length);
        },
      ),
    );
  });
});

describe('a value in braces', () => {
  test.each([
    ['"a"', 'a'],
    ["'a'", 'a'],
    ['`a`', 'a'],
    ['1.5', 1.5],
    ['-3', -3],
    ['true', true],
    ['null', null],
    ['["-3", [2]]', ['-3', [2]]],
    ['{a: 1, "b c": [2], }', { a: 1, 'b c': [2] }],
    ['/* nothing */', undefined],
    ['// nothing', undefined],
    ['', undefined],
  ])('%s is read as it stands', (text, value) => {
    expect(readValue(text)).toMatchObject({ value });
  });
  test('has a place for everything in it', () => {
    const text = `[{ at: '1:42', "bars": -3 }, [true]]`;
    const read = readValue(text);
    const parts = 'parts' in read ? [...read.parts].map(([path, { from, to }]) => [path, text.slice(from, to)]) : [];
    expect(parts).toEqual([
      ['', text],
      ['0', `{ at: '1:42', "bars": -3 }`],
      ['0/at:', 'at'],
      ['0/at', "'1:42'"],
      ['0/bars:', '"bars"'],
      ['0/bars', '-3'],
      ['1', '[true]'],
      ['1/0', 'true'],
    ]);
  });
  // biome-ignore lint/suspicious/noTemplateCurlyInString: a template is among what is refused.
  test.each(['a', '`${a}`'])('%s is none', (text) => {
    expect(readValue(text)).toEqual({ bad: true });
  });
  test.each([
    'a.b',
    '1 + 1',
    'f()',
    '() => 1',
    '{a}',
    '{[a]: 1}',
    '{get a() {}}',
    '[...a]',
    '/a/',
    '1n',
    '-"a"',
    '"a", "b"',
    ']; f([',
    '<b/>',
  ])('%s would have to be computed', (text) => {
    expect(readValue(text)).toEqual({ bad: true });
  });
});
