import { describe, expect, test } from 'vitest';
import { placeOf } from '../../src/diagnostics/place.ts';
import { nearestPlace, readYaml, yamlPlaces } from '../../src/document/yaml.ts';

describe('YAML', () => {
  test.each([
    ['60:40', '60:40'],
    ['12/8', '12/8'],
    ['1/16', '1/16'],
    ['F#', 'F#'],
    ['Bb', 'Bb'],
    ['092', '092'],
    ['1.10', '1.10'],
    ['no', 'no'],
    ['2024-01-01', '2024-01-01'],
    ['I7 | IV7 | V7', 'I7 | IV7 | V7'],
    ['"#1"', '#1'],
    ["'it''s'", "it's"],
    ['~', undefined],
    ['null', undefined],
    ['"null"', 'null'],
    ['', undefined],
    ['# nothing yet', undefined],
  ])('keeps %j as the author wrote it', (written, value) => {
    const read = readYaml(`key: ${written}\n`);
    expect(read.diagnostics).toEqual([]);
    expect({ ...(read.value as object) }).toEqual({ key: value });
  });

  test('knows where every key and value is, in the file it is in', () => {
    const source =
      '---\r\ntitle: "A"\r\nstages:\r\n  - id: one\r\n    title: >\r\n      Long\r\n      words\r\nlist: [a, b]\r\n---\r\n';
    const { spans } = readYaml(source, 5, source.lastIndexOf('---'));
    const said = [...spans].map(([path, { key, value }]) => [
      path,
      key && source.slice(key.from, key.to),
      source.slice(value.from, value.to),
    ]);
    expect(said.filter(([path]) => path !== '')).toEqual([
      ['title', 'title', '"A"'],
      ['stages', 'stages', '- id: one\r\n    title: >\r\n      Long\r\n      words\r\n'],
      ['stages/0', undefined, 'id: one\r\n    title: >\r\n      Long\r\n      words\r\n'],
      ['stages/0/id', 'id', 'one'],
      ['stages/0/title', 'title', '>\r\n      Long\r\n      words\r\n'],
      ['list', 'list', '[a, b]'],
      ['list/0', undefined, 'a'],
      ['list/1', undefined, 'b'],
    ]);
    const places = yamlPlaces(spans, placeOf(source));
    expect(places.get('list/1')?.value.start).toEqual({ line: 8, column: 11 });
    expect(nearestPlace(places, ['stages', 0, 'summary'])?.value.start).toEqual({ line: 4, column: 5 });
    expect(nearestPlace(places, ['nothing', 'of', 'it'])).toBe(places.get(''));
  });

  test.each([
    ['title: @home', 7, 'A value may not start with this character.'],
    ['title: a\n\tharp: C', 9, 'This line is indented with a tab, which YAML does not allow.'],
    ['title: "a', 7, 'The quotation mark that begins here is not closed.'],
    ['just words\nmore: x', 0, 'This line is no “key: value”.'],
    ['a: [b, c', 3, 'The bracket that begins here is not closed.'],
    ['a: b\n---\nc: d', 5, 'A line of --- begins a second document.'],
    ['a: !thing x', 3, 'A value that starts with ! names a type, which course files do not use.'],
    [
      'a: &x b\nc: *x',
      11,
      'A value that starts with * refers to another place of the file, which course files do not use.',
    ],
    ['chords: | I7 | IV7', 10, 'A value that begins with | or > is read as a text of several lines.'],
  ])('says in its author’s terms what is wrong with %j', (text, at, message) => {
    const { diagnostics } = readYaml(text);
    expect(diagnostics.map(({ code, span, message: said }) => [code, span.from, said])).toEqual([
      ['yaml-syntax', at, message],
    ]);
  });

  test.each(['\n', '\r\n', '\r'])('takes %j for the end of a line', (end) => {
    const { value, diagnostics } = readYaml(`a: 1${end}b:${end}  - 2${end}`);
    expect(diagnostics).toEqual([]);
    expect({ ...(value as object) }).toEqual({ a: '1', b: ['2'] });
  });

  test('takes the first of a repeated key', () => {
    const { value, diagnostics } = readYaml('a: 1\nb: 2\na: 3\n');
    expect({ ...(value as object) }).toEqual({ a: '1', b: '2' });
    expect(diagnostics.map(({ code, span }) => [code, span])).toEqual([['key-twice', { from: 10, to: 11 }]]);
  });

  test.each(['harp: F # sharp, that is', 'harp: F# # the sharp one', 'requires: # none'])(
    'leaves the comment of %j alone',
    (text) => {
      expect(readYaml(text).diagnostics).toEqual([]);
    },
  );

  test('survives nesting deeper than any reader follows', () => {
    const { diagnostics } = readYaml(`a: ${'['.repeat(50_000)}`);
    expect(diagnostics.map(({ code }) => code)).toEqual(['yaml-syntax']);
  });

  test('knows no key of JavaScript’s own', () => {
    const { value, diagnostics } = readYaml('__proto__: x\nconstructor: y\n');
    expect(Object.keys(value as object)).toEqual(['constructor']);
    expect(diagnostics.map(({ code }) => code)).toEqual(['key-reserved']);
  });
});

test.each(['a: b\n[', 'a: [', 'a: "', 'a: {', "a: '"])(
  'a mistake at the very end of a text is in the text: %j',
  (source) => {
    for (const text of [source, `${source}\n---\n`]) {
      const { diagnostics } = readYaml(text, 0, source.length);
      expect(diagnostics).not.toEqual([]);
      for (const { span } of diagnostics) {
        expect(span.from).toBeLessThanOrEqual(span.to);
        expect(span.to).toBeLessThanOrEqual(source.length);
      }
    }
  },
);
