/** What can be wrong with bar lines: repeats, endings and jumps. */
import { type Catalogue, didYouMean, error, hint, type Near, warning } from '../../diagnostics/catalogue.ts';
import { ordinal } from '../../instrument/position.ts';
import type { JumpSign } from '../../score/jump.ts';

import { AGAIN_PROBLEMS } from './again-problems.ts';

/** Why a sign is not where it has a meaning: what is said, and how to change it. */
const MISPLACED = {
  'no-bar-before': {
    says: (sign) => `There is no bar before |${sign} that could end here.`,
    help: 'Write it at the bar line behind the bar it ends.',
  },
  'no-bar-behind': {
    says: (sign) => `There is no bar behind |${sign} that could begin here.`,
    help: 'Write it at the bar line before the bar it begins.',
  },
  'in-ending': {
    says: (sign) => `After the jump back only last endings are played, and |${sign} is in another one.`,
    help: 'Move it to the last ending, or before the first one.',
  },
  'segno-behind': {
    says: () => 'The segno is behind the |D.S. that goes back to it.',
    help: 'Move |segno to the bar line where the music begins again.',
  },
  'coda-before': {
    says: () => 'The coda is before the jump back, so it would be played the first time too.',
    help: 'Write the coda behind |D.C. or |D.S.',
  },
  'not-met': {
    says: (sign) => `After the jump back the music does not come to this |${sign}.`,
    help: 'Move it between the place that the jump goes back to and the jump.',
  },
} as const satisfies Readonly<Record<string, { says: (sign: string) => string; help: string }>>;

const ALONE: Readonly<Record<'segno' | 'coda' | 'to-coda' | 'fine' | 'D.S.', readonly [string, string]>> = {
  segno: ['Nothing goes back to this |segno.', 'Write |D.S. at the bar line from which it is played again.'],
  coda: ['Nothing leads to this |coda.', 'Write |to-coda at the bar line from which the coda is played.'],
  'to-coda': ['There is no |coda to go to.', 'Write |coda at the bar line where it begins.'],
  fine: ['', ''],
  'D.S.': [
    'There is no |segno to go back to.',
    'Write |segno at the bar line where it begins, or |D.C. for the beginning.',
  ],
};

/**
 * Why an ending is not where it belongs: it is alone, an earlier one comes behind it, nothing goes back from it, or the one before it
 * is missing.
 */
export type EndingMisplaced = 'alone' | 'order' | 'open' | 'gap';

export const JUMP_PROBLEMS = {
  'repeat-unclosed': error<object>({
    about: 'A repeat that begins has to end.',
    message: () => 'The repeat that begins here does not end.',
    help: () => 'End it with :|',
  }),
  'ending-misplaced': error<{ endings: readonly number[]; why: EndingMisplaced }>({
    about:
      'Endings close a repeat: the first leads up to :| and the others follow it, each for the next time that has none.',
    message: ({ endings, why }) =>
      ({
        alone: `Ending ${endings} has no repeat to belong to.`,
        order: `Ending ${endings} comes before the ending that is played first.`,
        open: `Ending ${endings} does not go back: there is no :| between it and the next ending.`,
        gap: `Ending ${endings} comes too early: there is no ending for the time before it.`,
      })[why],
    help: ({ endings, why }) =>
      why === 'gap'
        ? 'Number the endings in the order they are played: |1 … :|2 … :|3 …'
        : why !== 'alone'
          ? 'Write the endings in the order they are played, with :| between them: |1 … :|2 …'
          : endings.length === 1
            ? `For hole ${endings} after a bar line leave a space: | ${endings}`
            : 'Begin with |1 and let the others follow its :|',
  }),
  'times-with-endings': error<{ times: number }>({
    about: 'A repeat with endings is played as often as its endings say.',
    message: ({ times }) => `This repeat has endings, so it cannot be played ${times} times by its sign.`,
    help: () => 'Give its endings the numbers of the times they are for, as in |1,2 and |3.',
  }),
  'repeat-loses-pickup': warning<{ bar: number; slots: string; isFirst: boolean }>({
    about:
      'The bar before :| is shorter for the pickup where the repeat goes back to the pickup. Where it goes back to a later bar it is full.',
    message: ({ bar, slots }) =>
      `Bar ${bar} is ${slots} ${slots === '1' ? 'slot' : 'slots'} short, as before the pickup, but its repeat goes back to a later bar: that time is lost.`,
    help: ({ isFirst }) =>
      `Fill the bar with the notes that lead back, or with a rest.${isFirst ? ' To play the pickup again, move |: to the beginning.' : ''}`,
  }),
  'tempo-again': hint<object>({
    about:
      'A gradual tempo in a repeat starts again each time. To slow down at the end is usually for the last time alone.',
    message: () => 'This gradual tempo starts again each time through the repeat, from the tempo before it.',
    help: () =>
      'For the last time alone write it in the last ending. If it is for each time, say where it begins: tempo: 100 to 60',
  }),
  'ending-missing': error<{ missing: number }>({
    about: 'Each time through a repeat up to the last one has an ending.',
    message: ({ missing }) => `There is no ending for the ${ordinal(missing)} time.`,
    help: ({ missing }) => `Add ${missing} to an ending, as in |1,${missing}, or write one for it.`,
  }),

  'bar-word-unknown': error<Near & { text: string }>({
    about: 'Right behind a bar line are the words listed in the guide; a note has a space before it.',
    message: ({ text }) => `“${text}” means nothing behind a bar line.`,
    help: (facts) => didYouMean(facts) ?? 'Write segno, coda, to-coda, fine, D.C. or D.S.',
  }),
  'jump-spelled': error<{ text: string; isSign: boolean; help: string }>({
    about: 'The sign of a jump is one word right behind a bar line, as listed in the guide.',
    message: ({ text, isSign }) =>
      isSign
        ? `“${text}” is a sign of a bar line, and it is not right behind one.`
        : `“${text}” is not how this sign is written here.`,
    help: ({ help }) => help,
  }),
  'times-spelled': error<{ text: string; count: number | undefined; rest: boolean }>({
    about: 'How often a repeat is played is written right behind its sign, as in :|x3, from x2 to x9.',
    message: ({ text }) => `“${text}” does not say how often the repeat is played.`,
    help: ({ count, rest }) => {
      if (count !== undefined && (count < 2 || count > 9)) return 'A repeat is played 2 to 9 times: :|x2 to :|x9';
      const times = count ?? 3;
      const write = `For a repeat that is played ${times} times write :|x${times} without a space.`;
      return rest ? `${write} A rest of ${times} bars is .x${times}` : write;
    },
  }),
  'signs-together': error<{ signs: readonly [JumpSign, JumpSign] }>({
    about: 'At the end of a bar playing goes to one place, and a bar begins with one sign.',
    message: ({ signs: [one, other] }) => `|${one} and |${other} are at one bar line, and only one can be followed.`,
    help: () => 'Keep the one you mean.',
  }),
  'sign-twice': error<{ sign: JumpSign; before: JumpSign }>({
    about: 'A block goes back once, so it has one sign of each kind, and D.C. or D.S.',
    message: ({ sign, before }) =>
      sign === before
        ? `There is a |${sign} before this one.`
        : `The block goes back already, with |${before}: a second jump would be unclear.`,
    help: () => 'Write one of the passages out.',
  }),
  'sign-alone': error<{ sign: JumpSign; missing: JumpSign | 'back' }>({
    about: 'A sign of a jump needs its partner: segno and D.S., to-coda and coda, and to-coda or fine a jump back.',
    message: ({ sign, missing }) =>
      missing === 'back' || sign === 'D.C.'
        ? `|${sign} is for the time after a jump back, and there is none.`
        : ALONE[sign][0],
    help: ({ sign, missing }) =>
      missing === 'back' || sign === 'D.C.'
        ? 'Write |D.C. or |D.S. at the bar line where the music goes back. The end of a block is |]'
        : ALONE[sign][1],
  }),
  'jump-in-repeat': error<{ sign: JumpSign }>({
    about: 'The music goes back once all repeats before the jump have been played.',
    message: ({ sign }) => `|${sign} is inside a repeat that is not finished here.`,
    help: ({ sign }) => `Write it at the end of the repeat or of its last ending, as in :|${sign}`,
  }),
  'sign-misplaced': error<{ sign: JumpSign; why: keyof typeof MISPLACED }>({
    about: 'A sign of a jump is where the music meets it: between the place it goes back to and the jump.',
    message: ({ sign, why }) => MISPLACED[why].says(sign),
    help: ({ why }) => MISPLACED[why].help,
  }),
  'jump-against-form': error<{ sign: JumpSign; form: string; chords: string }>({
    about: 'Chords are counted as the music is played, so behind a jump back the form goes on from bar to bar.',
    message: ({ sign, form }) =>
      `Behind |${sign} ${form} goes on from bar to bar, and does not fit the bars that are played again.`,
    help: ({ chords }) =>
      `If each bar has the same chords again, list them in the order of playing, in place of the form: chords: ${chords}`,
  }),
  'bar-never-played': error<{ bar: number; back: JumpSign }>({
    about: 'Every bar is played at some time. What follows a jump back is played after it, up to its end.',
    message: ({ bar, back }) => `No playing ever reaches bar ${bar}, behind |${back}`,
    help: () => 'Is it the coda? Then write |coda before it, and |to-coda where the music leaves for it.',
  }),
  ...AGAIN_PROBLEMS,
} satisfies Catalogue;
