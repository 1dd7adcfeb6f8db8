/** What can be wrong among the techniques of a course, beyond the shape of their file. */
import { type Catalogue, didYouMean, error, type Near } from '../diagnostics/catalogue.ts';

const linesFor = (keys: readonly string[]): string =>
  `${keys.length === 1 ? 'a line' : 'the lines'} ${keys.map((key) => `${key}: …`).join(' and ')}`;

export const TECHNIQUE_PROBLEMS = {
  'technique-twice': error<{ id: string }>({
    about: 'Two techniques of a course share an id, so a lesson that teaches it cannot say which.',
    message: ({ id }) => `There is a technique “${id}” above already.`,
    help: () => 'Give this one another id.',
  }),
  'technique-incomplete': error<Near & { id: string; keys: readonly string[] }>({
    about: 'A technique that does not come with Reedway needs a title, what it is about, a group and a rule.',
    message: ({ id, keys }) => `The technique “${id}” is new, and has no ${keys.join(', no ')}.`,
    help: ({ keys, nearest }) =>
      nearest === undefined
        ? `Write ${linesFor(keys)}`
        : `Write ${linesFor(keys)} ; if it is meant to change a technique that ships, its id may be “${nearest}”.`,
  }),
  'technique-unknown': error<Near & { id: string }>({
    about: 'A technique is named that neither ships with Reedway nor is in the course’s techniques.yaml.',
    message: ({ id }) => `There is no technique “${id}”.`,
    help: didYouMean,
  }),
  'technique-cycle': error<{ ids: readonly string[]; key: 'requires' | 'kind-of' }>({
    about: 'Techniques that require each other, or are kinds of each other, in a cycle, have no first one.',
    message: ({ ids, key }) =>
      key === 'requires'
        ? `These techniques require each other in a cycle: ${ids.join(' → ')}.`
        : `These techniques are kinds of each other in a cycle: ${ids.join(' → ')}.`,
    help: () => 'Take one step of the ring out.',
  }),
} satisfies Catalogue;
