/** The catalogue of mistakes of a block that are seen to be something else, spelled or written as elsewhere. */
import { type Catalogue, error } from '../../diagnostics/catalogue.ts';
import { type SpellingFacts, spellingHelp, spellingMessage } from './spelling-words.ts';

export const MISTAKE_PROBLEMS = {
  'other-spelling': error<SpellingFacts>({
    about: 'Notes, rests, bar lines and chord symbols are spelled in one way here, whatever is usual elsewhere.',
    message: spellingMessage,
    help: spellingHelp,
  }),
  'setting-unmarked': error<{ written: string; meant: string }>({
    about: 'A setting is its name, a colon and its value, on a line of its own.',
    message: ({ written }) => `“${written}” reads as a setting, and is not written as one.`,
    help: ({ meant }) => `Write ${meant}`,
  }),
  'comment-unmarked': error<object>({
    about: 'A comment begins with # at the start of a line or between spaces.',
    message: () => 'Slashes do not begin a comment here.',
    help: () => 'Write # and a space before it.',
  }),
  'settings-together': error<{ key: string; first: string }>({
    about: 'Each setting is on a line of its own.',
    message: ({ key, first }) => `The setting “${key}” is on the line of “${first}”.`,
    help: () => 'Write each setting on a line of its own.',
  }),
  'chords-above': error<{ line: string | undefined }>({
    about: 'A chord symbol is in the music, in quotation marks, right before the slot from which on it applies.',
    message: () => 'Chord symbols are in the line of music, in quotation marks.',
    help: ({ line }) =>
      line === undefined ? 'Write each right before its slot, as in "C7" 4 5 "F7" 6 -6' : `Write ${line}`,
  }),
  'dotted-note': error<{ written: string; count: number }>({
    about: 'A period is a rest of one slot, right behind a note as well. A note is longer by holds.',
    message: ({ written, count }) =>
      `“${written}” is a note and a rest of one slot, so the bar is of a wrong length.${count === 1 ? '' : ` The block has ${count} such dots in bars of a wrong length.`}`,
    help: ({ written }) => `Hold a note with = for each further slot: ${written.slice(0, -1)} =2 is three slots long.`,
  }),
  'bar-line-extra': error<{ bar: number; has: readonly [string, string]; wants: string }>({
    about: 'Two bars that follow each other and are one full bar together have a bar line too many between them.',
    message: ({ bar, has, wants }) =>
      `Bars ${bar} and ${bar + 1} are one bar together: they hold ${has.join(' and ')} of ${wants} slots.`,
    help: () => 'Is this bar line one too many?',
  }),
} satisfies Catalogue;
