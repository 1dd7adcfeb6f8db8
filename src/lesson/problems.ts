/** Problems of the text of one lesson, without the music of its blocks, by code. Codes are permanent; the words are for a teacher. */
import { type Catalogue, didYouMean, error, type Near, nearestInstead, warning } from '../diagnostics/catalogue.ts';
import { certainly, perhaps } from '../diagnostics/edit.ts';
import { excerpt } from '../diagnostics/excerpt.ts';

const listed = (words: readonly string[]): string => words.join(', ');

/** A component that holds something, as it may be written. */
const EXAMPLES: ReadonlyMap<string, string> = new Map([
  ['Note', "a note, as in <Note>-3'</Note>"],
  ['Chord', 'a chord, as in <Chord>IV7</Chord>'],
  ['Technique', 'the id of a technique, as in <Technique>vibrato</Technique>'],
  ['Term', 'a word of the glossary, as in <Term>riff</Term>'],
]);

/** What is in the place of front matter, and what is to be done. */
const MISSING: Readonly<Record<'none' | 'late' | 'odd' | 'unopened', readonly [string, string]>> = {
  none: [
    'This lesson does not begin with front matter, so it has no title.',
    'Begin with three lines: --- , then title: … , then --- again.',
  ],
  late: ['Something is before the front matter, so it is not read as such.', 'Move the --- into the very first line.'],
  odd: ['Front matter begins with a line of exactly three hyphens, and this is another.', 'Write ---'],
  unopened: ['The line of three hyphens that begins the front matter is missing.', 'Write a line --- above this one.'],
};

export const LESSON_PROBLEMS = {
  'front-matter-missing': error<{ how: 'none' | 'late' | 'odd' | 'unopened' }>({
    about:
      'A lesson begins with front matter: a line of three hyphens, the title and whatever else is said of the lesson, and three hyphens again.',
    message: ({ how }) => MISSING[how][0],
    help: ({ how }) => MISSING[how][1],
  }),
  'front-matter-unclosed': error<{ odd: boolean }>({
    about: 'Front matter that is not closed hides the lesson; often the file is incomplete.',
    message: ({ odd }) =>
      odd
        ? 'Front matter ends with a line of exactly three hyphens, and this is another.'
        : 'The front matter that begins here is not closed.',
    help: ({ odd }) => (odd ? 'Write ---' : 'Write a line of three hyphens --- after its last key.'),
  }),
  'mdx-syntax': error<{ what: string; fix: string | undefined }>({
    about: 'A lesson is MDX: Markdown in which < and { begin a component and an expression.',
    message: ({ what }) => what,
    help: ({ fix }) => fix,
  }),
  'lesson-code': error<{ word: 'import' | 'export' }>({
    about: 'A course is text and media, never a program: its components are there without being imported.',
    message: ({ word }) => `A lesson does not ${word} anything.`,
    help: ({ word }) =>
      word === 'import'
        ? 'Remove the line: components are there without it. A line of text cannot begin with this word.'
        : 'Remove the line. A line of text cannot begin with this word.',
  }),
  'lesson-expression': error<{ text: string; what?: string; fix?: string }>({
    about: 'A lesson is text, never a program: braces hold a value as it is, and nothing is computed.',
    message: ({ text, what }) =>
      what ??
      `“{${text}}” is no value: braces hold a text in quotation marks, a number or, in an attribute of a component, a list.`,
    help: ({ fix }) => fix ?? 'For a brace in the text write \\{ .',
    fix: ({ what }, { from }) => (what === undefined ? perhaps({ from, to: from }, '\\') : undefined),
  }),
  'component-unknown': error<Near & { name: string; known: readonly string[] }>({
    about: 'Only the components that come with Reedway may be in a lesson.',
    message: ({ name }) => `There is no component <${name}>.`,
    help: ({ nearest, known }) =>
      nearest === undefined
        ? `There are: ${known.map((one) => `<${one}>`).join(', ')}.`
        : `Did you mean “<${nearest}>”?`,
  }),
  'component-key': error<
    Near & { component: string; key: string; known: readonly string[]; said?: string | undefined }
  >({
    about: 'A component takes the attributes listed for it; another one is most often a mistake in its name.',
    message: ({ component, key }) => `<${component}> has no attribute “${key}”.`,
    help: (facts) => {
      const { component, said, known } = facts;
      if (said !== undefined && facts.nearest === undefined)
        return `Write what it is about between its tags: <${component}>${excerpt(said)}</${component}>.`;
      return didYouMean(facts) ?? (known.length ? `It takes: ${listed(known)}.` : 'It takes none.');
    },
    fix: nearestInstead,
  }),
  'component-content': error<{ component: string; file?: string | undefined }>({
    about: 'A component draws what its attributes say; nothing else of it is shown.',
    message: ({ component }) => `What is between <${component}> and </${component}> would not be shown.`,
    help: ({ component, file }) =>
      file !== undefined
        ? `Write <${component} src="${file}" />`
        : `Close it at once, <${component} … />, and write what belongs to the text below it.`,
  }),
  'component-empty': error<{ component: string }>({
    about: 'A component within a sentence says what its tags enclose.',
    message: ({ component }) => `Nothing is between <${component}> and </${component}>.`,
    help: ({ component }) => `Write ${EXAMPLES.get(component) ?? `<${component}>…</${component}>`}.`,
  }),
  'component-marks': error<{ component: string }>({
    about: 'A link to a word or a technique shows its text letter for letter, with no emphasis and no component in it.',
    message: ({ component }) => `In a <${component}> is plain text alone, and this would be shown with its marks.`,
    help: ({ component }) => `Write the marks around it, as in **<${component}>…</${component}>**.`,
  }),
  'component-key-missing': error<{ component: string; key: string }>({
    about: 'A component lacks an attribute it cannot do without.',
    message: ({ component, key }) => `<${component}> needs the attribute “${key}”.`,
  }),
  'element-unknown': error<Near & { name: string }>({
    about:
      'A lesson may hold the elements of HTML that are for text, tables and media. The guide to a course lists them.',
    message: ({ name }) => `A lesson cannot hold the element <${name}>.`,
    help: (facts) =>
      facts.nearest === undefined
        ? 'Write it in Markdown, or link to the page that has it. For the sign itself write \\< .'
        : `Did you mean “<${facts.nearest}>”?`,
  }),
  'element-attribute': error<Near & { element: string; key: string; known: readonly string[] }>({
    about:
      'Of the attributes of HTML a lesson may use those that say what a text is. The look is that of the site, and its scripts use ids and classes.',
    message: ({ element, key }) => `In a lesson <${element}> has no attribute “${key}”.`,
    help: (facts) => didYouMean(facts) ?? 'Remove it.',
  }),
  'script-in-lesson': error<{ name: string }>({
    about: 'A lesson cannot contain scripts.',
    message: ({ name }) => `“${name}” would run a script on the page, and a lesson cannot have scripts.`,
    help: () => 'Remove it.',
  }),
  'picture-alt': warning<{ url: string | undefined }>({
    about: 'A picture needs a description for students who cannot see it. A decorative picture has an empty alt.',
    message: () => 'This picture has no description for students who cannot see it.',
    help: ({ url }) =>
      url === undefined
        ? 'Add alt="…" with a description, or alt="" for a decorative picture.'
        : `Describe the picture between the brackets. For a decorative picture, write <img src="${url}" alt="" /> instead.`,
  }),
  'heading-space': warning<{ text: string; signs: string; isCertain: boolean }>({
    about: 'A heading has a space between its signs and its words; without it Markdown shows the signs as text.',
    message: ({ text }) => `“${text}” is no heading, and is shown as it is written.`,
    help: ({ text, signs }) => `Write a space behind ${signs}, as in ${signs} ${text.slice(signs.length)}.`,
    fix: ({ signs, isCertain }, { from }) =>
      (isCertain ? certainly : perhaps)({ from: from + signs.length, to: from + signs.length }, ' '),
  }),
  'link-space': warning<{ text: string }>({
    about: 'An address ends at its first space, so that what has one in it is no link and no picture.',
    message: ({ text }) => `“${text}” is shown as it is written: there is a space in its address.`,
    help: () => 'Write %20 for the space, or give the file a name without one.',
  }),
  'link-lost': warning<{ text: string; meant: string }>({
    about:
      'A link is words in brackets with an address in parentheses right behind them. Anything else is shown as it is written.',
    message: ({ text }) => `“${text}” is no link, and is shown as it is written.`,
    help: ({ meant }) => `Write ${meant}`,
  }),
  'component-in-alt': error<{ component: string }>({
    about: 'The description of a picture is plain text, in which a component says nothing.',
    message: ({ component }) => `What <${component}> says is lost in the description of a picture.`,
    help: () => 'Write the words themselves; leave a pitch, a key or a harp to the text beside the picture.',
  }),
  'fence-unclosed': error<{ next?: number }>({
    about: 'A block whose fence is not closed contains the rest of the lesson; often the file is incomplete.',
    message: ({ next }) =>
      next === undefined
        ? 'The block that begins here is not closed.'
        : `The block that begins here is not closed before another begins, ${next === 1 ? 'one line' : `${next} lines`} below.`,
    help: () => 'Write a line of ``` after its last line.',
  }),
  'fence-word': warning<{ word: string }>({
    about: 'Only a fence marked with the word tab, in small letters, is a block; any other is shown as plain text.',
    message: ({ word }) => `A fence marked “${word}” is shown as plain text.`,
    help: () => 'A block begins with ```tab .',
  }),
  'block-lost': warning<{ how: 'bare' | 'wordless' }>({
    about:
      'Settings and music outside of a block are shown as plain text, not as music. Most often a line of ``` is missing, or the word tab after it.',
    message: ({ how }) =>
      how === 'bare'
        ? 'This reads as a block, and is shown as plain text: nothing marks where the block begins and ends.'
        : 'This reads as a block, and is shown as plain text: its first line has no word tab.',
    help: ({ how }) =>
      how === 'bare' ? 'Write a line ```tab before it and a line ``` after it.' : 'Begin it with a line ```tab .',
  }),
  'fence-settings': error<{ text: string }>({
    about: 'Settings of a block are inside it, line by line, not after the word tab.',
    message: ({ text }) => `“${text}” after the word tab is not read.`,
    help: () => 'Write settings as key: value lines at the top of the block.',
  }),
} satisfies Catalogue;
