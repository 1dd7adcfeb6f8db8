/** What can be wrong with a bar that plays the one before it again, and with a rest of several bars. */
import { type Catalogue, error } from '../../diagnostics/catalogue.ts';

const WHY = {
  first: { says: 'There is no bar before % to be played again.', help: 'Write the notes of the first bar.' },
  beside: {
    says: 'A bar with % has no notes, holds or rests of its own.',
    help: 'Leave % alone between its bar lines, or write the bar out.',
  },
  start: {
    says: 'Playing comes to this bar from more than one other, so % does not say which is played again.',
    help: 'Write the bar out.',
  },
  held: {
    says: 'The bar before % begins with a note that is held on from the bar before it, which cannot be played again.',
    help: 'Write the bar out.',
  },
  rest: {
    says: 'The bar before % is one of a rest of several bars.',
    help: 'Count this bar in that rest, as in .x5 for .x4 and one more.',
  },
  length: { says: 'The bar before % is of another length.', help: 'Write the bar out.' },
  phrase: {
    says: 'A phrase is quoted at several places, so % does not say which bar is played again.',
    help: 'Write the bar out.',
  },
  'too-many': { says: 'Bars that are played again make this block too long.', help: 'Use a repeat: |: … :|' },
} as const satisfies Readonly<Record<string, { says: string; help: string }>>;

/** Why it is not clear what is played again. */
export type AgainUnclear = keyof typeof WHY;

/** A rest of more bars than this is longer than any block. */
export const MOST_REST_BARS = 99;

const REST_WHY = {
  spelled: 'A rest of several bars is written with a period, an x and the number of bars.',
  count: `A rest of several bars is of 2 to ${MOST_REST_BARS} bars.`,
  beside: 'A rest of several bars is alone between its bar lines.',
} as const;

export const AGAIN_PROBLEMS = {
  'rest-bars': error<{ why: keyof typeof REST_WHY; count?: number | undefined }>({
    about: 'The sign .x4 is a rest of four whole bars, and stands for all of them.',
    message: ({ why }) => REST_WHY[why],
    help: ({ why, count = 4 }) =>
      why === 'spelled' && count >= 2 && count <= MOST_REST_BARS
        ? `For a rest of ${count} bars write | .x${count} |`
        : 'Rest for a whole bar with .8 (in slots of 1/8), or for four with | .x4 |',
  }),
  'again-unclear': error<{ why: AgainUnclear }>({
    about: 'The sign % stands for all of a bar, and plays the notes of the bar before it once more.',
    message: ({ why }) => WHY[why].says,
    help: ({ why }) => WHY[why].help,
  }),
} satisfies Catalogue;
