/** What can be wrong with a component within a sentence, beyond its notes and settings, which are read as those of a figure are. */
import { type Catalogue, didYouMean, error, hint, type Near } from '../../diagnostics/catalogue.ts';
import type { LetterKind } from './plain-letters.ts';

/** What follows the harp, in the place of letters. */
const IN_PLACE_OF: Readonly<Record<LetterKind, string>> = {
  pitch: `a note with its pitch, as in <Note show="pitch">-3'</Note>`,
  key: '<Key />, or <Key position="1" /> for that of another position',
  chord: 'a chord by its numeral, as in <Chord>IV7</Chord>',
  harp: '<Harp />, or <Harp article="yes" /> for “a” or “an” before it',
};

const EMPTY = 'This “of” is empty.';

/** How a word is added, letter for letter, unless it has signs that YAML would read otherwise. */
const inGlossary = ({ name, glossary }: { readonly name: string; readonly glossary: boolean }): string => {
  const term = /^[\p{L}][\p{L}\p{N} ’-]*$/u.test(name) ? name : JSON.stringify(name);
  return glossary
    ? `Add it to the terms of glossary.yaml: a line “- term: ${term}”, and below it “means: …” with what it means.`
    : `Make a file glossary.yaml beside course.yaml: a line “terms:”, then “- term: ${term}”, and below that “means: …” with what it means.`;
};

export const INLINE_PROBLEMS = {
  'inline-no-chord': error<object>({
    about: 'What a note is to a chord can be said only where the chord is known.',
    message: () => 'A role is what a note is to a chord, and this <Note> names no chord.',
    help: () => 'Name the chord, as in over="IV7".',
  }),
  'inline-notes': error<{ bars: boolean }>({
    about: 'A <Note> holds a note, or a few; it has no bars.',
    message: ({ bars }) =>
      bars ? 'A <Note> has no bars, and here is a bar line.' : 'There is no note between <Note> and </Note>.',
    help: () => "Write notes as in a block, divided by spaces: <Note>-3'</Note>, <Note>-2 -3 -4</Note>.",
  }),
  'technique-not-known': error<Near & { name: string }>({
    about: 'A <Technique> names a technique of the course by its id or its title.',
    message: ({ name }) => (name === '' ? EMPTY : `There is no technique “${name}”.`),
    help: (facts) =>
      didYouMean(facts) ??
      (facts.name === ''
        ? 'Write the id of a technique, as in of="vibrato".'
        : 'Run `reedway techniques` for a list of them.'),
  }),
  'term-not-known': error<Near & { name: string; glossary: boolean }>({
    about: 'A <Term> is a word that the course explains in glossary.yaml.',
    message: ({ name, glossary }) => {
      if (name === '') return EMPTY;
      return glossary
        ? `The glossary does not explain “${name}”.`
        : `The course has no glossary that explains “${name}”.`;
    },
    help: (facts) =>
      didYouMean(facts) ?? (facts.name === '' ? 'Write a word of the glossary, as in of="riff".' : inGlossary(facts)),
  }),
  'term-twice': error<{ word: string }>({
    about: 'Each word of the glossary is explained once.',
    message: ({ word }) => `“${word}” is in the glossary already, as a word or under “also”.`,
    help: () => 'Keep one of the two.',
  }),
  'link-in-link': error<{ component: string }>({
    about: 'A link within a link leads nowhere: a browser ends the first where the second begins.',
    message: ({ component }) => `This <${component}> is a link, and it is in the text of another.`,
    help: ({ component }) => `Write the word itself there, or put the <${component}> beside the link.`,
  }),
  'letter-in-prose': hint<{ text: string; kind: LetterKind }>({
    about:
      'Blocks and figures follow the harp that a student chooses. A pitch, a key or a harp in plain letters stays, and is then wrong.',
    message: ({ text }) => `“${text}” stays as it is when a student chooses another harp.`,
    help: ({ kind }) =>
      `Write ${IN_PLACE_OF[kind]}. Where it is meant for this harp alone, add follow="no" to that component.`,
  }),
  'letter-in-title': hint<{ text: string }>({
    about:
      'Above a block or a figure, a title that names a pitch, a key or a harp is wrong as soon as a student chooses another harp.',
    message: ({ text }) => `“${text}” in this title stays as it is when a student chooses another harp.`,
    help: () => 'Leave it out of the title, or say it in the text with a component that follows the harp.',
  }),
} satisfies Catalogue;
