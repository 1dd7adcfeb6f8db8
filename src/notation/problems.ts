/** Everything that can be wrong with a block's text, by code. Codes are permanent; the words are for a teacher. */
import {
  type Catalogue,
  didYouMean,
  error,
  hint,
  type Near,
  plural,
  reporter,
  warning,
} from '../diagnostics/catalogue.ts';
import { CHORD_EXAMPLES, chordHelp } from '../harmony/symbol-help.ts';
import { MARK_NAMES } from '../score/mark.ts';

import { JUMP_PROBLEMS } from './jumps/jump-problems.ts';
import { type BreathFacts, breathHelp } from './mistakes/breath-words.ts';
import { MISTAKE_PROBLEMS } from './mistakes/problems.ts';
import { UNDER_PROBLEMS } from './under/problems.ts';

/** What to do about things that are often written where a slot is read. */
const NOT_SLOTS: readonly (readonly [RegExp, string])[] = [
  [/^#/, 'A comment has a space after its # .'],
  [
    /^\p{L}+\P{L}+\p{L}/u,
    'Is it a comment? Then begin it with # and a space. Words to the player are on a line text:, lyrics on a line words:',
  ],
  [/^\[/, 'Write a mark right behind its note, before what holds the note: 4[breath] =3'],
  [/^\}/, 'No brace is open here: a group begins with { and ends with }.'],
  [/^[^(]*\)/, 'No parenthesis is open here: holes that are played together are between ( and ).'],
  [/^[-+]?\d+['o]*\(\p{L}/u, 'Marks are in brackets right behind the note: 4[slap]'],
  [/^q$/, 'A q is right behind its hole and bend: -3q'],
  [/^(?:position|key|meter|tempo|feel|slot|part|text|words|syllables):/, 'Write it on a line of its own.'],
];

export const NOTATION_PROBLEMS = {
  'block-too-long': error<{ limit: string }>({
    about: 'A block is one exercise or tune. One of this size is a mistake, such as a file pasted into a fence.',
    message: ({ limit }) => `This block is longer than a block can be (${limit}).`,
    help: () => 'Close its fence, or divide it into several blocks.',
  }),
  'block-empty': error<object>({
    about: 'A block without any slots has nothing to publish.',
    message: () => 'This block has no music.',
    help: () => 'Write at least one bar, or remove the block.',
  }),

  // header
  'header-unknown': error<Near & { key: string; known: readonly string[]; isPart: boolean }>({
    about: 'The header of a block takes only the documented keys.',
    message: ({ key }) => `A block has no setting “${key}”.`,
    help: (facts) =>
      facts.isPart
        ? `Is it a part of the music? Write part: ${facts.key}`
        : (didYouMean(facts) ?? `There are ${facts.known.join(', ')}.`),
  }),
  'header-twice': error<{ key: string }>({
    about: 'A setting may appear only once in a block.',
    message: ({ key }) => `The setting “${key}” appears twice.`,
    help: () => 'Keep the one you mean.',
  }),
  'header-late': error<{ key: string }>({
    about: 'What does not change within a block is set before its music.',
    message: ({ key }) => `The setting “${key}” comes after music has begun.`,
    help: ({ key }) =>
      key === 'mouth'
        ? 'Write @lips or @tongue where the embouchure changes.'
        : key === 'form' || key === 'chords'
          ? 'Move it to the top of the block, and write other chords over the music: "IV7"'
          : 'Move it to the top of the block; for another harp begin another block.',
  }),
  'nothing-follows': warning<{ key: string }>({
    about: 'A line about the bar after it needs a bar after it.',
    message: ({ key }) => `No bar follows this “${key}” line, so it changes nothing.`,
    help: () => 'Write it before the bar it is for, or remove it.',
  }),
  'header-value': error<{ message: string; help: string | undefined }>({
    about: 'A setting has a value it cannot take.',
    message: ({ message }) => message,
    help: ({ help }) => help,
  }),
  'header-conflict': error<object>({
    about: 'A block takes its chords from a named form or from a list of its own, not from both.',
    message: () => 'This block names a form and lists chords as well.',
    help: () => 'Keep either form: or chords: .',
  }),
  'key-differs': error<{ written: string; key: string; harp: string; position: string }>({
    about: 'The key of a song follows from the harp and the position, and a key that is named has to be that one.',
    message: ({ written, key, harp, position }) =>
      `${harp} in ${position} plays in the key of ${key}, and the key named here is ${written}.`,
    help: () => 'Change the harp, the position or the key; or name the mode alone, such as minor.',
  }),
  'pickup-too-long': error<{ bar: string }>({
    about: 'A pickup is shorter than a bar.',
    message: ({ bar }) => `A pickup is shorter than a full bar (${bar}).`,
  }),

  // slots
  'not-a-slot': error<{ text: string }>({
    about: 'Something in the music is not a note, a rest or another element of the notation.',
    message: ({ text }) =>
      `“${text}” is not a slot. A slot is a hole (4 blow, -4 draw, -4' bent), a hold (=), a rest (.), or a group in braces.`,
    help: ({ text }) => NOT_SLOTS.find(([pattern]) => pattern.test(text))?.[1],
  }),
  ...MISTAKE_PROBLEMS,
  'bracket-unclosed': error<{ bracket: string; closing: string; meant?: string }>({
    about: 'A bracket, brace or quotation mark is opened and not closed on its line.',
    message: ({ bracket, closing }) => `The ${bracket} opened here is not closed with ${closing} on this line.`,
    help: ({ closing, meant }) => (meant === undefined ? BRACKETS_CLOSED[closing] : `Write ${meant}`),
  }),
  'two-breaths': error<BreathFacts>({
    about: 'Holes played together are on one breath, so they share one sign, before the parenthesis.',
    message: ({ twice }) =>
      twice === undefined
        ? 'Several holes at once are one breath: one sign, before the parenthesis.'
        : `Hole ${twice} cannot be blown and drawn at once.`,
    help: breathHelp,
  }),
  'bend-and-overbend': error<object>({
    about: 'A note is bent or overblown, not both.',
    message: () => 'One note cannot be bent and overblown at once.',
  }),
  'hold-without-note': error<{ slots: number; after: 'rest' | 'nothing' }>({
    about: 'A hold extends the note before it, so a note has to come first.',
    message: ({ after }) =>
      after === 'rest' ? 'There is no note here to hold: a rest is before it.' : 'There is no note here to hold.',
    help: ({ slots, after }) => (after === 'rest' ? `Write a longer rest as one: .${slots + 1}` : undefined),
  }),
  'count-zero': error<{ sign: string }>({
    about: 'A hold, a rest or a group takes at least one slot, and not more than a block can hold.',
    message: ({ sign }) => `“${sign}” needs a count from 1 to 999.`,
  }),
  'group-empty': error<object>({
    about: 'A group needs something to share its slots.',
    message: () => 'This group is empty.',
  }),
  'group-nested': error<object>({
    about: 'Groups cannot be nested.',
    message: () => 'A group cannot be inside a group.',
    help: () => 'Hold with = inside one group instead: {4 = 5 6} is an eighth and two sixteenths of a quarter.',
  }),
  'group-crossed': error<{ what: string }>({
    about: 'A group stays inside its bar, and holds notes, holds, rests, chord symbols and embouchures.',
    message: ({ what }) => `A ${what} cannot be inside a group.`,
  }),
  'group-too-many': error<{ limit: number }>({
    about: 'A group shares its slots among at most sixteen events, which is finer than music is written.',
    message: ({ limit }) => `A group shares its slots among at most ${limit} events.`,
    help: () => 'Write smaller slots (slot: 1/16) or several groups.',
  }),
  'glide-without-note': error<object>({
    about: 'A glide leads from one note into the next.',
    message: () => 'There is no note before this > to glide from.',
  }),
  'glide-nowhere': error<object>({
    about: 'A glide leads into the note that follows immediately.',
    message: () => 'This glide has no note to go to: a note has to follow immediately.',
  }),
  'glide-after-stop': error<{ mark: string }>({
    about: 'A glide leads on without a break, so nothing that stops the sound can be between its notes.',
    message: ({ mark }) => `The sound stops after a note with ${mark}, so no glide can lead on from it.`,
    help: ({ mark }) => `Leave out the > or [${mark}].`,
  }),
  'glide-turns': error<object>({
    about: 'A glide is one breath without a new attack, so both notes are on the same breath.',
    message: () => 'A glide stays on one breath, and the next note is on the other.',
  }),
  'chord-unknown': error<{ text: string }>({
    about: 'A chord symbol is a roman numeral in the song’s key or a chord name.',
    message: ({ text }) => `“${text}” is not a chord symbol.`,
    help: ({ text }) => chordHelp(text) ?? CHORD_EXAMPLES,
  }),
  'numeral-over-note': error<{ text: string; nearest: string }>({
    about:
      'Behind the slash of a numeral is another numeral, “of” which it is. A bass note is written behind a chord name.',
    message: ({ text }) => `“${text}” puts a bass note behind a numeral, where the slash means “of”.`,
    help: ({ nearest }) => `Write the chord by its name: ${nearest}`,
  }),
  'numeral-in-minor': warning<{ text: string; lowered: string; mode: string }>({
    about:
      'Numerals count from the major scale in a minor song as well, where the third, sixth and seventh steps are lowered.',
    message: ({ text, lowered, mode }) => `The song is in ${mode}, where “${text}” is a half step above ${lowered}.`,
    help: ({ lowered }) => `Did you mean ${lowered}? Otherwise write the chord by its name.`,
  }),
  'mouth-unknown': error<Near & { text: string }>({
    about: 'There are two embouchures to switch between.',
    message: ({ text }) => `“@${text}” is not an embouchure: write @lips or @tongue.`,
    help: didYouMean,
  }),
  'mark-unknown': error<Near & { text: string }>({
    about: 'Marks are the words listed in the guide.',
    message: ({ text }) => `“${text}” is not a mark of a note.`,
    help: ({ text, nearest }) => markHelp(text) ?? didYouMean({ nearest }) ?? `The marks are ${MARK_LIST}.`,
  }),
  'mark-shake': error<{ written: string | undefined }>({
    about: 'A shake names the hole it shakes against.',
    message: ({ written }) =>
      written === undefined
        ? 'A shake needs its other hole, as in 4[shake 5].'
        : `A shake is between its note and one other hole, as in 4[shake 5]; “${written}” is not one hole.`,
    help: ({ written }) =>
      written === undefined ? undefined : 'Name one hole, without a sign: it is on the breath of the note.',
  }),
  'mark-grace': error<{ written: string | undefined }>({
    about: 'A grace note is one note, named beside its mark.',
    message: ({ written }) =>
      written === undefined
        ? 'A grace note needs its note, as in -4[grace -3].'
        : `A grace note is one note, as in -4[grace -3]; “${written}” is not one note.`,
    help: ({ written }) =>
      written === undefined
        ? 'Name one hole with its bend: chords, and several grace notes before one note, cannot be written.'
        : 'Name one hole with its bend. Several short notes before another one are a group: {5 6 4}',
  }),
  'mark-twice': error<{ text: string }>({
    about: 'A mark may appear only once on a note.',
    message: ({ text }) => `The mark “${text}” appears twice on this note.`,
  }),

  // names and lines
  'part-without-name': error<object>({
    about: 'A part needs a name.',
    message: () => 'This part has no name.',
    help: () => 'Write one after the colon, as in part: Chorus',
  }),
  'text-empty': error<object>({
    about: 'A line of text says something to the player over the bar that follows.',
    message: () => 'There is no text here.',
    help: () => 'Write it after the colon, as in text: like a train',
  }),
  'phrase-without-name': error<{ meant?: string }>({
    about: 'A phrase needs a name, so that it can be quoted: letters, digits and hyphens.',
    message: () => 'A phrase needs a name of letters, digits and hyphens.',
    help: ({ meant }) =>
      meant === undefined ? 'Write phrase answer: 2 -2 -1 =' : `Write phrase ${meant}: and quote it as <${meant}>`,
  }),
  'phrase-twice': error<{ name: string }>({
    about: 'A phrase’s name means one thing in a block.',
    message: ({ name }) => `There are two phrases named “${name}” in this block.`,
    help: () => 'Give one of them another name.',
  }),
  'phrase-empty': error<{ name: string }>({
    about: 'A phrase names a run of slots.',
    message: ({ name }) => `The phrase “${name}” has no slots.`,
  }),
  'phrase-repeats': error<object>({
    about: 'A phrase may cross plain bar lines, but holds no repeats, endings, jumps or closing lines.',
    message: () => 'A phrase cannot contain a repeat, ending, jump or closing bar line.',
    help: () => 'Write the repeat in the music, around the phrase.',
  }),
  'quote-unreadable': error<{ text: string }>({
    about:
      'A quotation names a phrase of this block, or a block of this lesson or another one and perhaps a phrase of it.',
    message: ({ text }) => `“<${text}>” is not a quotation.`,
    help: () =>
      'Write <answer>, <block:answer>, <:block>, <lesson/block> or <lesson/block:answer>, perhaps with a chord: <answer to "IV7">.',
  }),
  'quote-unknown': error<
    Near & { what: 'phrase' | 'lesson' | 'block'; name: string; elsewhere?: string; own?: string }
  >({
    about: 'What is quoted does not exist.',
    message: ({ what, name }) => `There is no ${what} “${name}” to quote.`,
    help: (facts) =>
      facts.elsewhere === undefined
        ? (didYouMean(facts) ?? facts.own)
        : `The lesson “${facts.elsewhere}” has the only block of this name: write ${facts.nearest}`,
  }),
  'moved-two-chords': error<{ name: string; chords: readonly [string, string] }>({
    about:
      'A quotation that is moved to another chord is over one chord: notes over several would have to move in several ways.',
    message: ({ name, chords }) => `“${name}” is over ${chords.join(' and ')}, so it cannot be moved to one chord.`,
    help: () => 'Write a phrase for each chord, and move them one by one.',
  }),
  'moved-unplayable': error<{ name: string; to: string; why: string }>({
    about: 'A quotation was moved to a chord over which this harp has not all of its notes.',
    message: ({ name, to, why }) => `“${name}” cannot be played over ${to} on this harp: ${why}.`,
    help: () => 'Write the notes out with a change that the harp allows, or quote the phrase as it is.',
  }),
  'moved-jumps': hint<{ name: string; to: string; tabs: readonly [string, string] }>({
    about:
      'Notes that keep their roles over another kind of chord may be further apart there. A jump of an octave or more is worth a look.',
    message: ({ name, to, tabs: [from, next] }) =>
      `Moved to ${to}, “${name}” jumps by an octave or more from ${from} to ${next}, and the phrase as it is written does not.`,
    help: () => 'Listen whether it sounds as you mean it. If not, write the notes out.',
  }),
  'moved-elsewhere': warning<{ to: string; here: string }>({
    about: 'A quotation is moved to one chord and is over another one, where its notes have other roles.',
    message: ({ to, here }) => `This quotation is moved to ${to}, and the chord here is ${here}.`,
    help: () => 'Move it to the chord that is here, or quote it without “to”.',
  }),
  'quote-cycle': error<{ cycle: readonly string[] }>({
    about: 'Quotations form a cycle, so they never end.',
    message: ({ cycle }) => `This quotation is part of a cycle: ${cycle.join(' → ')}.`,
    help: () => 'Write out the notes that are meant at one of these places.',
  }),
  'quote-too-deep': error<{ levels: number }>({
    about: 'Quotations of quotations go through more blocks and phrases than anybody can follow.',
    message: ({ levels }) => `This quotation leads through more than ${levels} others.`,
    help: () => 'Quote the block or phrase that has the music itself.',
  }),
  'quote-broken': error<{ name: string }>({
    about: 'What is quoted has problems of its own.',
    message: ({ name }) => `“${name}” has problems of its own, so it cannot be quoted yet.`,
    help: () => 'Fix it first; this quotation follows.',
  }),
  'quoted-meter': error<{ name: string; meter: string; here: string }>({
    about: 'A quotation of a whole block brings its bars, and not the meter that they are in.',
    message: ({ name, meter, here }) => `The block <${name}> is in ${meter}, and the bars here are in ${here}.`,
    help: ({ meter, here }) =>
      `Write meter: ${meter} on a line of its own above the quotation, and meter: ${here} again above what follows it.`,
  }),
  'quoted-pickup': error<{ name: string; slots: string; isStart: boolean }>({
    about: 'A quotation of a whole block brings its pickup and its last bar, which is shorter for the pickup.',
    message: ({ name, slots, isStart }) =>
      isStart
        ? `The block <${name}> begins with a pickup of ${slotsOf(slots)}, which is no full bar.`
        : `The block <${name}> has a pickup of ${slotsOf(slots)}, so its last bar is no full bar.`,
    help: ({ slots, isStart }) =>
      isStart
        ? `Leave out the bar line before it, and let the bar there be ${slotsOf(slots)} shorter; or begin the block with it, with pickup: ${slots}`
        : `Leave out the bar line behind it, and fill the bar with ${slotsOf(slots)} more.`,
  }),
  ...UNDER_PROBLEMS,

  // bars
  'bar-empty': error<{ slots: string; slot: string }>({
    about: 'Two bar lines with nothing between them usually mean a forgotten bar.',
    message: () => 'There is nothing between these bar lines.',
    help: ({ slots, slot }) =>
      /\D/.test(slots)
        ? 'Fill the bar, or remove one line.'
        : `Rest for a whole bar with .${slots} (in slots of ${slot}), or remove one line.`,
  }),
  'bar-too-short': error<BarFacts>({
    about: 'The slots of a bar fill its meter exactly.',
    message: ({ bar, has, wants, meter, slot }) =>
      `Bar ${bar} holds ${has} of its ${wants} slots (${meter} in slots of ${slot}).`,
    help: ({ pickup, count }) =>
      count !== undefined
        ? `Did you mean “${count}”? A count is right behind its sign.`
        : pickup
          ? `If these are pickup notes, say so in the header: pickup: ${pickup}`
          : undefined,
  }),
  'bar-too-long': error<BarFacts>({
    about: 'The slots of a bar fill its meter exactly.',
    message: ({ bar, has, wants, meter, slot }) =>
      `Bar ${bar} holds ${has} slots, and its meter has room for ${wants} (${meter} in slots of ${slot}).`,
    help: ({ lines }) =>
      lines === undefined
        ? 'Is a bar line missing?'
        : lines.atLineEnds
          ? 'The end of a line is no bar line: write | there as well.'
          : `Is a bar line missing? Write | before “${lines.before}” where the bar is full.`,
  }),
  'bars-in-another-meter': error<{ bars: number; has: string; fits: string; meter: string; slot: string }>({
    about: 'Bars that agree with each other and not with the meter are probably written in another meter.',
    message: ({ bars, has, meter, slot }) =>
      `All ${bars} full bars hold ${has} slots of ${slot}, which is not a bar of ${meter}.`,
    help: ({ fits }) => `Is the music in ${fits}? Then write meter: ${fits}`,
  }),
  'form-unfilled': error<{ bars: number; form: string; length: number; asPlayed: boolean }>({
    about: 'Music over a form fills the whole form.',
    message: ({ bars, form, length, asPlayed }) =>
      `The music has ${plural(bars, 'bar')}${asPlayed ? ' as it is played' : ''}, and ${form} has ${length}.`,
    help: ({ bars, length, form, asPlayed }) =>
      bars < length && !form.includes(' ')
        ? `For a piece of the form name its bars: form: ${form} bars 1-${bars}`
        : `Fill the form, or choose other chords.${asPlayed ? ' Repeats and what is played after a jump count each time.' : ''}`,
  }),
  'repeat-against-form': error<{ bar: number }>({
    about: 'If the second time of a repeat has other chords of the form, one written bar would need two harmonies.',
    message: ({ bar }) => `Bar ${bar} has another chord of the form when it is repeated.`,
    help: () => 'Write the repeat out.',
  }),
  ...JUMP_PROBLEMS,

  // instrument
  'no-hole': error<Near & { hole: number; holes: number; sign: string }>({
    about: 'The harp does not have this hole.',
    message: ({ hole, holes }) => `There is no hole ${hole} on a harp of ${holes} holes.`,
    help: ({ hole, holes, sign, nearest }) => {
      const [one = 0, other = 0] = hole > 10 && hole < 100 ? [Math.floor(hole / 10), hole % 10] : [];
      if (hole < 20 || other === 0 || Math.max(one, other) > holes) return didYouMean({ nearest });
      const inTurn = `${sign}${one} ${sign}${other}`;
      return one === other
        ? `Hole ${one} twice is ${inTurn}`
        : `Holes ${one} and ${other} together are ${sign}(${one} ${other}); one after the other they are ${inTurn}`;
    },
  }),
  'no-bend': error<Near & { hole: number; breath: string; why: string }>({
    about: 'Only the higher reed of a hole bends, and only if a half step or more lies between the two.',
    message: ({ hole, breath, why }) => `Hole ${hole} does not bend on the ${breath}: ${why}.`,
    help: didYouMean,
  }),
  'bend-too-deep': error<{
    hole: number;
    breath: string;
    most: string;
    harp: string;
    reed: string;
    lowest: string;
    other: string;
    nearest: string;
  }>({
    about: 'A bend goes down to a half step above the hole’s other reed, and no further.',
    message: ({ hole, breath, most, harp, reed, lowest, other }) =>
      `Hole ${hole} ${breath} bends at most ${most} on ${harp} (from ${reed} down to ${lowest}, just above its ${other}).`,
    help: didYouMean,
  }),
  'quarter-too-deep': error<{ hole: number; breath: string; lowest: string; other: string; nearest: string }>({
    about: 'A quarter step lies between two notes of a hole, so none is below its deepest bend.',
    message: ({ hole, breath, lowest, other }) =>
      `Hole ${hole} ${breath} gives no quarter step below ${lowest}: that is its deepest bend, just above its ${other}.`,
    help: didYouMean,
  }),
  'no-overbend': error<Near & { hole: number; name: string; why: string }>({
    about: 'The higher reed of a hole overbends, on the breath of the lower one.',
    message: ({ hole, name, why }) => `Hole ${hole} does not ${name}: ${why}.`,
    help: didYouMean,
  }),
  'no-slide': error<object>({
    about: 'The sign * presses a slide, which only some harps have.',
    message: () => 'This harp has no slide to press.',
  }),
  'hole-twice': error<{ hole: number }>({
    about: 'A chord names each of its holes once.',
    message: ({ hole }) => `Hole ${hole} appears twice in this chord.`,
  }),
  'holes-too-far': error<{ low: number; high: number; reach: number }>({
    about: 'A mouth covers five holes, common practice.',
    message: ({ low, high, reach }) =>
      `Holes ${low} and ${high} are further apart than a mouth covers (${reach} holes).`,
  }),
  'split-with-lips': error<{ between: string; quoted: string | undefined; nearest: string }>({
    about: 'Holes with others silent between them need the tongue to cover those.',
    message: ({ between, quoted }) =>
      quoted === undefined
        ? `Lips alone cannot silence ${between}: a split needs the tongue.`
        : `What is quoted has ${quoted}, and here it is played with the lips, which cannot silence ${between}: a split needs the tongue.`,
    help: ({ nearest }) => `Write ${nearest} or switch with @tongue before it.`,
  }),
  'tongue-mark-with-lips': error<{ mark: string; isQuoted: boolean; nearest: string }>({
    about: 'Slap, pull and flutter are made by the tongue on the holes beside the note.',
    message: ({ mark, isQuoted }) =>
      `A ${mark} is made with the tongue on the comb, and this ${isQuoted ? 'quotation' : 'note'} is played with the lips.`,
    help: ({ nearest }) => `Write ${nearest} or switch with @tongue before it.`,
  }),
  'nothing-under-tongue': error<{ mark: string }>({
    about: 'A tongue-blocked chord needs a hole beside the note for the tongue to cover and let go.',
    message: ({ mark }) =>
      `A ${mark} has no hole left to sound here: the tongue needs one to the left of the note, or inside the split.`,
  }),
  'shake-impossible': error<{ hole: number; with: number; why: string }>({
    about: 'A shake alternates one note with a hole next to it or next but one.',
    message: ({ hole, with: other, why }) => `Hole ${hole} cannot shake with ${other}: ${why}.`,
  }),
} satisfies Catalogue;

/** How brackets are closed, where it cannot be seen what is in them. */
const BRACKETS_CLOSED: Readonly<Record<string, string>> = {
  ']': 'Write the marks of a note in brackets right behind it, as in 4[slap], or remove the bracket.',
  ')': 'Write ) behind the last hole that is played together with these, as in (4 5).',
  '}': 'Write } behind the last slot of the group, and how many slots it takes if that is not one: {4 5 6}2',
  '"': 'Write a chord symbol between two quotation marks: "C7"',
  '>': 'Write > behind the name of what is quoted: <answer>',
};

/** What is meant by words and signs that are no marks, and are written elsewhere. */
function markHelp(text: string): string | undefined {
  if (/^bend|^bent$/i.test(text)) return "A bend is a sign behind the hole, one for each half step: -4'";
  if (/^over|^ob$|^od$/i.test(text)) return 'An overblow or an overdraw is an o behind the hole: 6o';
  if (/^[-+]?\d/.test(text)) return 'A number alone says nothing here: a shake names its other hole, as in 4[shake 5].';
  return undefined;
}

const MARK_LIST = [...MARK_NAMES, 'lips', 'tongue'].join(', ');

const slotsOf = (slots: string): string => `${slots} ${slots === '1' ? 'slot' : 'slots'}`;

/** What messages about the length of a bar say. */
export interface BarFacts {
  readonly bar: number;
  readonly has: string;
  readonly wants: string;
  readonly meter: string;
  readonly slot: string;
  /** Slots, where this could be a pickup that was not declared. */
  readonly pickup?: string | undefined;
  /** The bar lines that are missing, where it holds several full bars. */
  readonly lines?: { readonly atLineEnds: boolean; readonly before: string } | undefined;
  /** A count that is not right behind its sign, as it would be. */
  readonly count?: string | undefined;
}

/** Makes a problem of this catalogue. */
export const report = reporter(NOTATION_PROBLEMS);
