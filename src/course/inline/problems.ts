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

export const INLINE_PROBLEMS = {
  'inline-no-chord': error<object>({
    about: 'What a note is to a chord can be said only where the chord is known.',
    message: () => 'This <Note> is to show a role, and there is no chord that it counts from.',
    help: () => 'Name the chord, as in over="IV7".',
  }),
  'inline-notes': error<object>({
    about: 'A <Note> holds a note, or a few; it has no bars.',
    message: () => 'What this <Note> holds is no note.',
    help: () => "Write notes as in a block, divided by spaces: <Note>-3'</Note>, <Note>-2 -3 -4</Note>.",
  }),
  'technique-not-known': error<Near & { name: string }>({
    about: 'A <Technique> names a technique of the course by its id or its title.',
    message: ({ name }) => `There is no technique “${name}”.`,
    help: (facts) => didYouMean(facts) ?? 'Run `reedway techniques` for a list of them.',
  }),
  'term-not-known': error<Near & { name: string; glossary: boolean }>({
    about: 'A <Term> is a word that the course explains in glossary.yaml.',
    message: ({ name, glossary }) =>
      glossary ? `The glossary does not explain “${name}”.` : `The course has no glossary that explains “${name}”.`,
    help: (facts) => didYouMean(facts) ?? `Add it to glossary.yaml, as in “${facts.name}: what it means”.`,
  }),
  'term-twice': error<{ word: string }>({
    about: 'Each word of the glossary is explained once.',
    message: ({ word }) => `“${word}” is in the glossary already.`,
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
