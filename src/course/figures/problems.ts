/** What can be wrong with a figure in a lesson, beyond its notes, which are read as those of a block are. */
import { type Catalogue, didYouMean, error, type Near } from '../../diagnostics/catalogue.ts';
import { NO_CHORD } from '../../harmony/chord.ts';
import { chordHelp } from '../../harmony/symbol-help.ts';

export const FIGURE_PROBLEMS = {
  'figure-value': error<{ message: string; help: string | undefined }>({
    about: 'A component takes the same values as the head of a block: a harp, a position, a form.',
    message: ({ message }) => message,
    help: ({ help }) => help,
  }),
  'figure-choice': error<Near & { key: string; text: string; choices: readonly string[] }>({
    about: 'An attribute of a component that takes one of a few words.',
    message: ({ key, text, choices }) => `“${key}” is one of ${choices.join(', ')}, not “${text}”.`,
    help: didYouMean,
  }),
  'figure-notes-only': error<{ text: string }>({
    about: 'A component names notes; it has no rhythm and no chords of its own.',
    message: ({ text }) => `“${text}” is no note, and only notes are read here.`,
    help: () => "Write notes as in a block, divided by spaces: 4 -3' 6o.",
  }),
  'figure-empty': error<{ component: string; key: string }>({
    about: 'A figure of no notes shows nothing.',
    message: ({ component, key }) => `The “${key}” of this <${component}> name no note.`,
    help: () => "Write notes as in a block, divided by spaces: 4 -3' 6o.",
  }),
  'figure-no-chords': error<{ component: string }>({
    about: 'A role table and a form chart show chords, which come from a form or a list.',
    message: ({ component }) => `This <${component}> has no chords: neither it nor its lesson names a form.`,
    help: () => 'Give it a form, as in form="twelve-bar", or chords, as in chords="I7 | IV7 | V7".',
  }),
  'figure-chord': error<{ text: string }>({
    about: 'A chord is a roman numeral of the song’s key or a name.',
    message: ({ text }) => `“${text}” is not a chord symbol.`,
    help: ({ text }) =>
      text === NO_CHORD
        ? 'Name a chord that sounds, or leave this out.'
        : (chordHelp(text) ?? 'Write a numeral such as IV7, or a name such as A7.'),
  }),
  'figure-lights': error<{ first: string; second: string }>({
    about: 'A harp map highlights one thing at a time.',
    message: ({ first, second }) => `This map is to light both its “${first}” and its “${second}”.`,
    help: () => 'Keep one of them, or set two maps.',
  }),
  'figure-unknown': error<Near & { what: string; name: string }>({
    about: 'A figure names a block or a phrase that does not exist.',
    message: ({ what, name }) => `There is no ${what} “${name}”.`,
    help: didYouMean,
  }),
  'figure-unreadable': error<{ name: string }>({
    about: 'A figure shows the notes of a block that could not be read.',
    message: ({ name }) => `The block “${name}” has a mistake in it, so its notes cannot be shown.`,
    help: () => 'Fix that block first.',
  }),
  'figure-other-tuning': error<{ name: string; theirs: string; ours: string }>({
    about: 'Notes for one tuning cannot be shown on a map of another.',
    message: ({ name, theirs, ours }) => `${name} is for a harp tuned ${theirs}, and this map shows one tuned ${ours}.`,
    help: ({ theirs }) => `Give the map tuning="${theirs}".`,
  }),
  'figure-no-hole': error<{ text: string; holes: number }>({
    about: 'A bend ladder shows one hole of the harp.',
    message: ({ text, holes }) => `“${text}” is no hole of a harp that has ${holes}.`,
    help: ({ holes }) => `Write a number from 1 to ${holes}.`,
  }),
  'figure-stroke': error<{ text: string }>({
    about: 'A rhythm line has strokes without pitch.',
    message: ({ text }) => `“${text}” is no stroke, hold, rest or bar line.`,
    help: () => 'Write x for a stroke, x[accent] for a strong one, = to hold it, . to rest, and | between bars.',
  }),
  'figure-sides': error<object>({
    about: 'A tune is shown on two harps or in two positions.',
    message: () => 'This figure shows a tune on two harps or in two positions.',
    help: () => 'Name either two harps, as in harps="C, A", or two positions, as in positions="1, 2".',
  }),
  'figure-holes': error<{ text: string; holes: number }>({
    about: 'Target notes are looked for on a run of holes.',
    message: ({ text, holes }) => `“${text}” is no range of holes of a harp that has ${holes}.`,
    help: () => 'Write the first and the last hole, as in holes="1-6".',
  }),
  'figure-targets': error<{ bars: number; targets: number }>({
    about: 'There is one target note for each bar of the form; bars are divided by bar lines.',
    message: ({ bars, targets }) => `There are targets for ${targets} bars, and the form has ${bars}.`,
    help: () => 'Divide bars by | and leave a bar without a target empty or as a rest: -3 | . | 4',
  }),
  'figure-target-many': error<{ bar: number }>({
    about: 'A bar of a form chart has one target note.',
    message: ({ bar }) => `Bar ${bar} has more than one target.`,
    help: () => 'Keep the one that the bar’s first chord asks for, and divide bars by | .',
  }),
} satisfies Catalogue;
