/** The schema kit: what each kind of value takes, and what is said of one it does not take. */
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import {
  groups,
  isId,
  keys,
  list,
  namedValues,
  number,
  oneOrMore,
  text,
  word,
  yesOrNo,
} from '../../src/document/schema.ts';
import { courseInMemory } from '../course/files-in-memory.ts';
import { lesson } from '../course/some-course.ts';

/** The value, or `path: message` of each issue. */
function read(schema: z.ZodType, value: unknown): unknown {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  return result.error.issues.map(({ path, message }) => `${path.join('/')}: ${message}`);
}

describe('yes or no', () => {
  test.each([
    ['yes', true],
    ['Yes', true],
    ['TRUE', true],
    ['no', false],
    ['False', false],
    [true, true],
  ])('%j is %j', (value, read_) => expect(read(yesOrNo, value)).toBe(read_));
  test.each(['y', 'on', '1', 'maybe'])('%s is neither', (value) => {
    expect(read(yesOrNo, value)).toEqual([`: is true or false, not “${value}”`]);
  });
});

describe('a number', () => {
  test.each([
    ['1', 1],
    [12, 12],
    ['007', 7],
  ])('%j is %j', (value, read_) => expect(read(number(1, 12), value)).toBe(read_));
  test.each(['0', '13', '1.5', '1e1', ' ', '٣', 'one'])('%j is none from 1 to 12', (value) => {
    expect(read(number(1, 12), value)).toEqual([expect.stringMatching(/is a whole number from 1 to 12|is empty/)]);
  });
  test('may have decimals where it says so', () => expect(read(number(0, 1, false), '0.25')).toBe(0.25));
});

describe('a word', () => {
  const colour = word(['blow', 'draw']);
  test('is one of a few', () => expect(read(colour, 'draw')).toBe('draw'));
  test('that is none of them gets a message with those there are', () =>
    expect(read(colour, 'drew')).toEqual([': is one of blow, draw, not “drew”']));
  test('is not a name that every object has', () => {
    for (const name of ['constructor', 'toString', '__proto__']) expect(read(colour, name)).toHaveLength(1);
  });
});

describe('a list', () => {
  test.each([
    [undefined, []],
    ['a', ['a']],
    [
      ['a', 'b'],
      ['a', 'b'],
    ],
  ])('%j is %j', (value, read_) => expect(read(list(text), value)).toEqual(read_));
  test('of one or more is not empty', () => {
    expect(read(oneOrMore(text), [])).toEqual([': is an empty list']);
    expect(read(oneOrMore(text), 'a')).toEqual(['a']);
  });
  test('says which of its items is wrong', () =>
    expect(read(list(number(1, 3)), ['1', '9'])).toEqual(['1: is a whole number from 1 to 3, not “9”']));
});

const stage = { id: text, title: text };

describe('groups of keys', () => {
  test('have no other keys', () => expect(read(keys(stage), { id: 'a', title: 'A', tilte: 'B' })).toHaveLength(1));
  test('get one message about the right shape, however much is in the wrong one', () => {
    expect(read(groups(stage), { first: 'The first', second: 'The second' })).toEqual([
      ': is a group of “key: value” lines with id, title',
    ]);
  });
  test('may have names of the author’s own', () => {
    expect(read(namedValues(text), { riff: 'a' })).toEqual({ riff: 'a' });
    expect(read(namedValues(text), { 'no name': 'a' })).toEqual([
      'no name: is no name: it is made of letters, digits and hyphens',
    ]);
  });
});

describe('groups of the wrong shape are written for the author in the right one:', () => {
  const help = (value: unknown): unknown => {
    const result = groups({ id: text, title: text }).safeParse(value);
    const [issue] = result.success ? [] : result.error.issues;
    return issue?.code === 'custom' ? [issue.path, issue.params?.['each'], issue.params?.['help']] : issue;
  };
  test.each([
    [{ first: 'One' }, [], 'Write “- id: first”, and “title: One” in a line below it.'],
    [{ first: ['One'] }, [], 'Write “- id: first”, and “title: …” in a line below it.'],
    [['first', 'second'], [0], 'Write “- id: first”, and “title: …” in a line below it.'],
    [[['first', 'One']], [0], 'Write “- id: first”, and “title: One” in a line below it.'],
    [[{ id: 'a', title: 'A' }, 'second'], [1], 'Write “- id: second”, and “title: …” in a line below it.'],
    [[null], [0], 'Write “- id: …”, and “title: …” in a line below it.'],
    ['first', [], 'Write “- id: first”, and “title: …” in a line below it.'],
  ])('%j', (value, path, words) => expect(help(value)).toEqual([path, true, words]));
  test('a group with a key that is nearly right is of the right shape', () => {
    expect(read(groups(stage), [{ id: 'a', titel: 'A' }])).not.toContainEqual(expect.stringContaining('lines'));
    // Too short a key may be near by chance.
    expect(read(groups({ id: text, of: text }), [{ in: 'a' }])).toEqual([
      '0: is a group of “key: value” lines with id, of',
    ]);
  });
  test('only a few keys are named', () => {
    const shape = (count: number) => Object.fromEntries(Array.from({ length: count }, (_, at) => [`key${at}`, text]));
    expect(read(keys(shape(6)), 'x')).toEqual([
      ': is a group of “key: value” lines with key0, key1, key2, key3, key4, key5',
    ]);
    expect(read(keys(shape(7)), 'x')).toEqual([': is a group of “key: value” lines']);
  });
});

describe('a name of the author’s own', () => {
  test.each(['a', '1st', 'ä-b_c', 'Ж'])('may be %s', (name) => expect(isId(name)).toBe(true));
  test.each(['', '-a', '_a', 'a b', 'a.b', '~', 'a/'])('may not be %j', (name) => expect(isId(name)).toBe(false));
  test('is not that of one there is', () => {
    const values = namedValues(text, [{ id: 'riff' }, { id: 'lick' }]);
    expect(read(values, { lick: 'a', turn: 'b' })).toEqual(['lick: is the name of one that is there already']);
    expect(read(namedValues(text), undefined)).toEqual({});
  });
});

test('yes and no are whole words', () => {
  for (const word of ['yes!', 'oh yes', 'not', 'untrue', 'falsely']) expect(read(yesOrNo, word)).toHaveLength(1);
});

describe('the files of a course have one kit', () => {
  const techniques = (lines: string): string =>
    `techniques:\n  - id: train\n    title: Train\n    about: Chords.\n    group: breath\n    find: { note: { holes: 3 } }\n${lines}`;
  const reported = (files: Record<string, string>): string[] =>
    courseInMemory(files)
      .problems.filter(({ severity }) => severity === 'error')
      .map(({ file, message, help }) => `${file}: ${message} ${help ?? ''}`.trim());

  test.each(['Yes', 'yes', 'TRUE', 'true'])('%s is yes in a lesson and in techniques.yaml', (yes) => {
    const files = {
      'lessons/first.mdx': lesson('', `title: A\nteaches: train\ndraft: ${yes}`),
      'techniques.yaml': techniques(`    assumed: ${yes}\n`),
    };
    expect(reported(files)).toEqual([]);
  });
  test('a key that is nearly right is given the right one in each of them', () => {
    const nearly = reported({
      'course.yaml': 'title: A\nsumary: B\n',
      'lessons/first.mdx': lesson('', 'title: A\nrequieres: b'),
      'techniques.yaml': techniques('    asumed: yes\n'),
    });
    expect(nearly.map((line) => /Did you mean “(\w+)”/.exec(line)?.[1])).toEqual(['summary', 'requires', 'assumed']);
  });
});
