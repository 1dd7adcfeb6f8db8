/** What is reported of YAML that does not fit its schema: at which place, in which words, and what of it is still read. */
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { type Checked, checkYaml } from '../../src/document/check-yaml.ts';
import { keys, list, namedValues, number, oneOrMore, refuse, text } from '../../src/document/schema.ts';
import { readYaml } from '../../src/document/yaml.ts';

const SCHEMA = keys({
  title: text,
  minutes: number(1, 60).optional(),
  tags: list(text).optional(),
  stages: list(keys({ id: text, title: text })).optional(),
  forms: namedValues(number(1, 9)).optional(),
  author: keys({ name: text, mail: text.optional() }).optional(),
});

const check = (written: string, schema: z.ZodType = SCHEMA): Checked<unknown> =>
  checkYaml(schema, readYaml(written), { title: 'Untitled' });

/** `code “the characters it is at”: message help` of each problem. */
function reported(written: string, schema: z.ZodType = SCHEMA): string[] {
  return check(written, schema).diagnostics.map(({ code, span, message, help }) =>
    `${code} “${written.slice(span.from, span.to)}”: ${message} ${help ?? ''}`.trim(),
  );
}

describe('what fits', () => {
  test('is read, and nothing is reported', () => {
    const { value, wrong, diagnostics } = check('title: A\nminutes: 5\ntags: a\nforms: { one: 1 }\n');
    expect(value).toEqual({ title: 'A', minutes: 5, tags: ['a'], forms: { one: 1 } });
    expect([...wrong]).toEqual([]);
    expect(diagnostics).toEqual([]);
  });
});

describe('an unknown key', () => {
  test('is reported at its name, with the one that is probably meant', () => {
    expect(reported('title: A\nminuts: 5\n')).toEqual([
      'key-unknown “minuts”: There is no key “minuts” here. Did you mean “minutes”?',
    ]);
  });
  test('far from all others is reported with those there are', () => {
    expect(reported('title: A\nauthor:\n  name: B\n  colour: red\n')).toEqual([
      'key-unknown “colour”: There is no key “colour” here. The keys are: name, mail.',
    ]);
  });
  test('is reported for each key that nobody reads', () => {
    expect(reported('title: A\nminuts: 5\ntagz: a\n')).toHaveLength(2);
  });
  test('that is meant for a required one is not reported as missing too', () => {
    expect(reported('titel: A\n')).toEqual([
      'key-unknown “titel”: There is no key “titel” here. Did you mean “title”?',
    ]);
    expect(reported('title: A\nstages:\n  - id: a\n    titel: B\n')).toEqual([
      'key-unknown “titel”: There is no key “titel” here. Did you mean “title”?',
    ]);
  });
  test('excuses only the key of its own group', () => {
    expect(reported('title: A\nauthor:\n  nmae: B\nstages:\n  - id: a\n')).toEqual([
      'key-missing “”: “title” is missing. Write a line title: …',
      'key-unknown “nmae”: There is no key “nmae” here. Did you mean “name”?',
    ]);
  });
  test('leaves the others as they are', () => {
    const { value, wrong } = check('title: A\nminuts: 5\ntags: [a]\n');
    expect(value).toEqual({ title: 'A', tags: ['a'] });
    expect([...wrong]).toEqual(['minuts']);
  });
  test('is shortened where it is very long', () => {
    const [message = ''] = reported(`title: A\n${'k'.repeat(100)}: B\n`);
    expect(message).toContain(`There is no key “${'k'.repeat(60)}…” here.`);
  });
});

describe('a required key', () => {
  test('that is missing is reported where its group begins, and its fallback is read', () => {
    expect(reported('\nminutes: 5\n')).toEqual(['key-missing “”: “title” is missing. Write a line title: …']);
    const { value, wrong, diagnostics } = check('minutes: 5\n');
    expect(value).toEqual({ title: 'Untitled', minutes: 5 });
    expect([...wrong]).toEqual(['title']);
    expect(diagnostics[0]?.span).toEqual({ from: 0, to: 0 });
    const nested = 'title: A\nstages:\n  - title: B\n';
    expect(check(nested).diagnostics[0]?.span).toEqual({
      from: nested.indexOf('title: B'),
      to: nested.indexOf('title: B'),
    });
  });
  test('without a value is reported at its name', () => {
    expect(reported('title:\nminutes: 5\n')).toEqual(['key-missing “title”: “title” has no value.']);
  });
  test('is missed in an empty file as well', () => {
    expect(reported('')).toEqual(['key-missing “”: “title” is missing. Write a line title: …']);
  });
  test('is missed in the only entry of a list that has no dash', () => {
    expect(reported('title: A\nstages:\n  id: a\n')).toEqual([
      'key-missing “”: “title” is missing. Write a line title: …',
    ]);
  });
});

describe('a wrong value', () => {
  test('is reported at the value, under the name of its key', () => {
    expect(reported('title: A\nminutes: many\n')).toEqual([
      'value-wrong “many”: “minutes” is a whole number from 1 to 60, not “many”.',
    ]);
    expect(reported('title: A\nauthor:\n  name: [a]\n')).toEqual([
      'value-wrong “[a]”: “name” takes a text, not a list or a group of keys.',
    ]);
  });
  test('is as if its key were not there; the others are read', () => {
    const { value, wrong } = check('title: A\nminutes: many\ntags: [a]\n');
    expect(value).toEqual({ title: 'A', tags: ['a'] });
    expect([...wrong]).toEqual(['minutes']);
  });
  test('of a required key gives way to its fallback', () => {
    const { value, wrong } = check('title: [A]\nminutes: 5\n');
    expect(value).toEqual({ title: 'Untitled', minutes: 5 });
    expect([...wrong]).toEqual(['title']);
  });
  test('in a list is reported at the item, and goes by the name of the list', () => {
    expect(reported('title: A\ntags: [a, [b]]\n')).toEqual([
      'value-wrong “[b]”: Each entry of “tags” takes a text, not a list or a group of keys.',
    ]);
  });
  test('among values of the author’s own names leaves out that one alone', () => {
    const { value, wrong, diagnostics } = check('title: A\nforms:\n  one: 1\n  two: many\n  three: lots\n');
    expect(value).toEqual({ title: 'A', forms: { one: 1 } });
    expect([...wrong]).toEqual(['forms']);
    expect(diagnostics).toHaveLength(2);
  });
  test('for the whole group of names leaves out the group', () => {
    expect(reported('title: A\nforms: [1, 2]\n')).toEqual([
      'value-wrong “[1, 2]”: “forms” is a group of “name: …” lines, without dashes.',
    ]);
    expect(check('title: A\nforms: [1, 2]\n').value).toEqual({ title: 'A' });
    expect(check('title: A\nforms: words\n').value).toEqual({ title: 'A' });
  });
  test('that is about a name is reported at the name', () => {
    expect(reported('title: A\nforms:\n  no name: 1\n')).toEqual([
      'value-wrong “no name”: “no name” is no name: it is made of letters, digits and hyphens.',
    ]);
  });
  test('in a list of groups leaves out the list', () => {
    const { value } = check('title: A\nstages:\n  - id: a\n    title: B\n  - id: [c]\n    title: D\n');
    expect(value).toEqual({ title: 'A' });
  });
});

describe('a file of another shape', () => {
  test('is reported as a whole', () => {
    const words = 'is a group of “key: value” lines with title, minutes, tags, stages, forms, author.';
    expect(reported('- a\n- b\n')).toEqual([`value-wrong “- a\n- b”: This file ${words}`]);
    expect(reported('only words\n')).toEqual([`value-wrong “only words”: This file ${words}`]);
    expect(check('- a\n- b\n').value).toEqual({ title: 'Untitled' });
  });
  test('that only lacks the space behind a colon is reported as that', () => {
    expect(readYaml('title:A course\n').diagnostics.map(({ help }) => help)).toEqual([
      'Write a space behind the colon: title: A course',
    ]);
    expect(reported('title:A course\n')).toEqual([]);
    expect(reported('a word, title:A\n')[0]).not.toContain('colon: title');
    expect(reported('title: A\nminutes: 5:6\n')[0]).not.toContain('Write a space');
  });
});

describe('a check of several keys', () => {
  const both = keys({
    title: text,
    from: number(1, 9).optional(),
    to: number(1, 9).optional(),
    note: number(1, 9).optional(),
  }).superRefine(({ from = 1, to = 9 }, context) => {
    if (from > to) context.addIssue({ code: 'custom', path: ['to'], message: 'comes after from' });
  });
  test('is made although another key is wrong', () => {
    const written = 'title: A\nfrom: 5\nto: 3\nnote: x\n';
    expect(reported(written, both)).toEqual([
      'value-wrong “x”: “note” is a whole number from 1 to 9, not “x”.',
      'value-wrong “3”: “to” comes after from.',
    ]);
    const { value, wrong } = check(written, both);
    expect(value).toEqual({ title: 'A', from: 5 });
    expect([...wrong]).toEqual(['note', 'to']);
  });
});

describe('what a schema says of an issue', () => {
  const saying = (params: Parameters<typeof refuse>[2]) =>
    keys({ title: text, word: text.transform((_, context) => refuse(context, 'is refused', params)).optional() });
  test('is the rest of a sentence about the key, or a sentence of its own, with its help', () => {
    const of = (params: Parameters<typeof refuse>[2]) => reported('title: A\nword: B\n', saying(params));
    expect(of({})).toEqual(['value-wrong “B”: “word” is refused.']);
    expect(of({ whole: true })).toEqual(['value-wrong “B”: is refused']);
    expect(of({ each: true })).toEqual(['value-wrong “B”: Each entry of “word” is refused.']);
    expect(of({ help: 'Do not.' })).toEqual(['value-wrong “B”: “word” is refused. Do not.']);
    expect(of({ key: true })).toEqual(['value-wrong “word”: “word” is refused.']);
  });
  test('of an empty list is at the list', () => {
    expect(reported('title: A\ntags: []\n', keys({ title: text, tags: oneOrMore(text).optional() }))).toEqual([
      'value-wrong “[]”: “tags” is an empty list.',
    ]);
  });
});

test('nothing is reported of a file with a mistake in its YAML, which is read as far as it fits', () => {
  const { value, diagnostics } = check('minutes: many\ntitle: "A\n');
  expect(diagnostics).toEqual([]);
  expect(value).toMatchObject({ title: expect.any(String) });
});

test('a repeated key does not keep the rest from being checked', () => {
  expect(reported('title: A\ntitle: B\nminutes: many\n')).toEqual([
    'value-wrong “many”: “minutes” is a whole number from 1 to 60, not “many”.',
  ]);
});
