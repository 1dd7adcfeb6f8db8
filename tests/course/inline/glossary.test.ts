/** glossary.yaml: what is read of it, in which order, and what is wrong with it. */
import { describe, expect, test } from 'vitest';
import { formOf, readGlossary } from '../../../src/course/inline/glossary.ts';

const read = (text: string | undefined) =>
  readGlossary(text === undefined ? undefined : { file: 'glossary.yaml', text }, undefined);

describe('a glossary', () => {
  test('has its words in the order of the alphabet, whatever their capitals, each with what it means', () => {
    const { terms, problems } = read(
      'terms:\n- term: riff\n  means: Short.\n- term: Apple\n  means: A fruit.\n  also: [apples, pome]\n- term: éclair\n  means: A cake.\n- term: zoo\n  means: A place.\n',
    );
    expect(problems).toEqual([]);
    expect(terms).toEqual([
      { id: 'apple', term: 'Apple', means: 'A fruit.', also: ['apples', 'pome'] },
      { id: 'éclair', term: 'éclair', means: 'A cake.', also: [] },
      { id: 'riff', term: 'riff', means: 'Short.', also: [] },
      { id: 'zoo', term: 'zoo', means: 'A place.', also: [] },
    ]);
  });

  test('finds a word by each of its forms, and the same where it is written otherwise', () => {
    const { byForm, terms } = read('terms:\n- term: Quick change\n  means: A.\n  also: [quick four]\n');
    for (const word of ['quick change', 'QUICK  CHANGE', ' Quick\nchange ', 'quick four', 'Quick Four'])
      expect(byForm.get(formOf(word))).toBe(terms[0]);
    expect(byForm.get(formOf('quickchange'))).toBeUndefined();
    expect(formOf('e\u0301clair')).toBe(formOf('\u00c9clair'));
  });

  test('has an anchor of its own for words that are spelled alike', () => {
    const { terms, problems } = read(
      'terms:\n- {term: a b, means: A.}\n- {term: a-b, means: B.}\n- {term: "a b!", means: C.}\n',
    );
    expect(problems).toEqual([]);
    expect(new Set(terms.map(({ id }) => id)).size).toBe(3);
  });

  test('may be missing, empty, or without a word', () => {
    expect(read(undefined)).toMatchObject({ text: undefined, terms: [], problems: [] });
    expect(read('terms: []\n')).toMatchObject({ terms: [], problems: [] });
    expect(read('')).toMatchObject({ terms: [] });
  });

  test('is not read again while its text is the same', () => {
    const before = read('terms: []\n');
    expect(readGlossary({ file: 'glossary.yaml', text: 'terms: []\n' }, before)).toBe(before);
    expect(readGlossary({ file: 'glossary.yaml', text: 'terms: []\n\n' }, before)).not.toBe(before);
    expect(readGlossary(undefined, read(undefined)).problems).toEqual([]);
    expect(readGlossary(undefined, before).text).toBeUndefined();
  });

  test.each([
    ['terms:\n- term: riff\n', 'key-missing 2:3'],
    ['terms:\n- {term: riff, means: A., mean: B.}\n', 'key-unknown 2:27'],
    ['terms: riff\n', 'value-wrong 1:8'],
    ['words: []\n', 'key-unknown 1:1'],
    ['terms:\n- {term: "", means: A.}\n', 'value-wrong 2:10'],
    ['terms:\n- {term: riff, means: A., also: [Riff, riffs, riffs]}\n', 'term-twice 2:34, term-twice 2:47'],
    ['terms:\n- {term: [riff\n', 'yaml'],
  ])('%j has problems at their places', (text, wanted) => {
    const { problems } = read(text);
    const found = problems.map(({ code, line, column }) => `${code} ${line}:${column}`).join(', ');
    expect(found).toContain(wanted);
  });
});
