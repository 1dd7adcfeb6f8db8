/** What can be wrong with a YAML document and its values, by code. Codes are permanent; the words are for a teacher. */
import { type Catalogue, didYouMean, error, type Near, nearestInstead, warning } from '../diagnostics/catalogue.ts';

const listed = (words: readonly string[]): string => words.join(', ');

export const DOCUMENT_PROBLEMS = {
  'yaml-syntax': error<{ what: string; fix?: string }>({
    about:
      'course.yaml and front matter are YAML: `key: value` lines, lists with dashes, quotation marks where a value holds a colon or starts with a sign.',
    message: ({ what }) => what,
    help: ({ fix }) => fix,
  }),
  'yaml-comment': warning<{ key: string; value: string | undefined }>({
    about: 'In YAML a # after a space begins a comment, so what follows is not read.',
    message: ({ key, value }) =>
      value === undefined
        ? `The # here begins a comment, so “${key}” has no value.`
        : `The # here begins a comment, so “${key}” is just “${value}”.`,
    help: () => 'Quote the value, or write a sharp right after its letter: F# . A comment has a space after its # .',
  }),
  'key-twice': error<{ key: string }>({
    about: 'A key may appear only once, or it would be unclear which value is meant.',
    message: ({ key }) => `The key “${key}” appears twice.`,
    help: () => 'Keep the one you mean.',
  }),
  'key-reserved': error<{ key: string }>({
    about:
      'One name, __proto__, has a meaning of its own in the language this program is written in, so nothing can be called so.',
    message: ({ key }) => `Nothing can be called “${key}” here.`,
    help: () => 'Choose another name.',
  }),
  'key-unknown': error<
    Near & { key: string; known: readonly string[]; belongs?: string | undefined; spaced?: string | undefined }
  >({
    about: 'An unknown key is usually a misspelled one, or one that belongs to another file.',
    message: ({ key, belongs }) =>
      belongs === undefined
        ? `There is no key “${key}” here.`
        : `“${key}” is a key of ${belongs}, and is not read here.`,
    help: (facts) => {
      if (facts.belongs !== undefined) return 'Move it there.';
      if (facts.spaced !== undefined) return `Write a space behind the colon: ${facts.spaced}`;
      return didYouMean(facts) ?? `The keys are: ${listed(facts.known)}.`;
    },
    fix: nearestInstead,
  }),
  'key-missing': error<{ key: string; empty: boolean; comment?: string | undefined }>({
    about: 'A required key is missing or has no value.',
    message: ({ key, empty }) => (empty ? `“${key}” has no value.` : `“${key}” is missing.`),
    help: ({ key, empty, comment }) => {
      if (comment !== undefined) return `A # after a space begins a comment. Quote the value: ${key}: "${comment}"`;
      return empty ? undefined : `Write a line ${key}: …`;
    },
  }),
  'value-wrong': error<{ message: string; help: string | undefined }>({
    about: 'A value does not fit its key. Settings take the same values as in the header of a block.',
    message: ({ message }) => message,
    help: ({ help }) => help,
  }),
} satisfies Catalogue;
