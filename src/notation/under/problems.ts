/** What can be wrong with the words and syllables under a line of music. */
import { type Catalogue, error, hint, plural, warning } from '../../diagnostics/catalogue.ts';
import { ordinal } from '../../instrument/position.ts';

export const UNDER_PROBLEMS = {
  'words-misplaced': error<object>({
    about: 'Lyrics are under the line of music they belong to.',
    message: () => 'There is no line of music above these words.',
    help: () => 'Write words: under the line of music that they are sung to.',
  }),
  'words-twice': error<{ verse: number }>({
    about: 'Each verse is written once under a line of music.',
    message: ({ verse }) => `The line of music above has words for verse ${verse} already.`,
    help: () => 'Without a number, words: is the verse after that of the line before.',
  }),
  'verse-number': error<{ written: string; most: number }>({
    about: 'The verses of a block are numbered from 1 to 9.',
    message: ({ written, most }) => `Verses are numbered 1 to ${most}, not ${written}.`,
    help: () => 'Write the number before the colon: words 2: … .',
  }),
  'verse-against-ending': error<{ time: number }>({
    about: 'In an ending each time has one verse. Words of a verse that an ending is not for are sung its first time.',
    message: ({ time }) => `Two lines have words here for the ${ordinal(time)} time.`,
    help: () => 'An ending has words for the times it is played. For a note without a syllable in a verse write *.',
  }),
  'verse-unsung': hint<{ verse: number; times: number; byEndings: boolean }>({
    about:
      'The nth verse is sung the nth time through a repeat, so a verse for a later time than the last one is not sung.',
    message: ({ verse, times }) =>
      `Verse ${verse} is not sung: the repeat above it is played ${times === 2 ? 'twice' : `${times} times`}.`,
    help: ({ verse, byEndings }) =>
      byEndings
        ? `For another time add its number to an ending, as in |1,2 … :|3`
        : `To play the repeat ${verse} times write :|x${verse}`,
  }),
  'syllables-misplaced': error<object>({
    about: 'Syllables are under the line of music they belong to.',
    message: () => 'There is no line of music above these syllables.',
    help: () => 'Write syllables: under the line of music that is played with them.',
  }),
  'syllables-twice': error<object>({
    about: 'A line of music has one line of syllables to articulate it with.',
    message: () => 'The line of music above has syllables already.',
    help: () =>
      'Keep one line, which is for each time the music is played. Words that are sung are written with words: .',
  }),
  'words-too-many': error<{ syllables: number; notes: number }>({
    about: 'A line of lyrics or syllables has one syllable for each sounding note of the line above, at the most.',
    message: ({ syllables, notes }) => `${plural(syllables, 'syllable')} for ${plural(notes, 'sounding note')} above.`,
    help: () => 'A held (=) note takes no syllable of its own; a hyphen divides a word.',
  }),
  'words-too-few': warning<{ syllables: number; notes: number }>({
    about:
      'A line of lyrics or syllables that ends before its music is probably not finished, or a syllable is missing in it.',
    message: ({ syllables, notes }) => `${plural(syllables, 'syllable')} for ${plural(notes, 'sounding note')} above.`,
    help: () => 'For a note without a syllable write *, for one that holds the syllable before it _ .',
  }),
} satisfies Catalogue;
