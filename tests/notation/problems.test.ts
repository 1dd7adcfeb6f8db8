/** Each thing that can be wrong with a block: its code, the very characters it points at, and its words. */
import { describe, expect, test } from 'vitest';
import type { Severity } from '../../src/diagnostics/diagnostic.ts';
import { FORMS } from '../../src/harmony/form.ts';
import { HEADER_KEYS, parseBlock } from '../../src/notation/parse.ts';
import { NOTATION_PROBLEMS } from '../../src/notation/problems.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';

interface Reported {
  readonly code: string;
  readonly at: string;
  readonly says: string;
  readonly help?: string;
  readonly severity?: Severity;
}

const reported = (text: string, context: ReadContext = ALONE): Reported[] =>
  readBlock(text, context).diagnostics.map(({ code, span, message, help }) => ({
    code,
    at: text.slice(span.from, span.to),
    says: message,
    ...(help === undefined ? {} : { help }),
  }));

/** Other blocks to quote from: `riffs/a`, `riffs/ring`, `riffs/bad`. */
const others: Readonly<Record<string, string>> = {
  a: 'id: a\nphrase turn: -2 -3 4 .\n-2 -3 4 -4 5 -4 4 -3',
  bad: 'id: bad\n-2 -3',
  ring: 'id: ring\n<riffs/gnir>',
  gnir: 'id: gnir\n<riffs/ring>',
  waltz: 'id: waltz\nmeter: 3/4\n4 =5 | 5 =5 | 6 =5',
  upbeat: 'id: upbeat\npickup: 2\n4 5 | 6 =7 | 4 =5',
};
const trees = new Map(Object.entries(others).map(([id, text]) => [id, parseBlock(text)]));
const among: ReadContext = {
  ...ALONE,
  otherMeaning: (name) => (name === 'lick' ? 'a:lick' : undefined),
  find: (lesson = 'riffs', block) => {
    if (lesson !== 'riffs') return { missing: 'lesson', nearest: 'riffs' };
    const tree = trees.get(block);
    return tree ? { tree, context: among } : { missing: 'block', nearest: 'a' };
  },
};

const EIGHT = '1 1 1 1 1 1 1 1';

/** [the block, what is reported]; every code of the catalogue occurs. */
const CASES: readonly (readonly [string, readonly Reported[]])[] = [
  [
    'tempo: 90',
    [
      {
        code: 'block-empty',
        at: 'tempo: 90',
        says: 'This block has no music.',
        help: 'Write at least one bar, or remove the block.',
      },
    ],
  ],
  [
    `temp: 90\n${EIGHT}`,
    [{ code: 'header-unknown', at: 'temp', says: 'A block has no setting “temp”.', help: 'Did you mean “tempo:”?' }],
  ],
  [
    `zzz: 90\n${EIGHT}`,
    [
      {
        code: 'header-unknown',
        at: 'zzz',
        says: 'A block has no setting “zzz”.',
        help: `There are ${[...HEADER_KEYS, 'part', 'text', 'words', 'syllables', 'phrase'].join(', ')}.`,
      },
    ],
  ],
  [
    `harp: A\nharp: C\n${EIGHT}`,
    [{ code: 'header-twice', at: 'harp', says: 'The setting “harp” appears twice.', help: 'Keep the one you mean.' }],
  ],
  [
    `${EIGHT}\nharp: A`,
    [
      {
        code: 'header-late',
        at: 'harp',
        says: 'The setting “harp” comes after music has begun.',
        help: 'Move it to the top of the block; for another harp begin another block.',
      },
    ],
  ],
  [
    `${EIGHT}\nform: twelve-bar`,
    [
      {
        code: 'header-late',
        at: 'form',
        says: 'The setting “form” comes after music has begun.',
        help: 'Move it to the top of the block, and write other chords over the music: "IV7"',
      },
    ],
  ],
  [
    `${EIGHT}\nmouth: tongue`,
    [
      {
        code: 'header-late',
        at: 'mouth',
        says: 'The setting “mouth” comes after music has begun.',
        help: 'Write @lips or @tongue where the embouchure changes.',
      },
    ],
  ],
  [
    `${EIGHT} |\ntempo: to 1000\n${EIGHT}`,
    [
      {
        code: 'header-value',
        at: 'to 1000',
        says: '“1000” is no tempo.',
        help: 'Write beats a minute, such as 100, or to 60 for a tempo that is reached by the next change or by the end.',
      },
    ],
  ],
  [
    `${EIGHT} |\nmeter: 3/4\nmeter: 2/4\n1 1 1 1`,
    [{ code: 'header-twice', at: 'meter', says: 'The setting “meter” appears twice.', help: 'Keep the one you mean.' }],
  ],
  [`${EIGHT} |\nposition: 2\nkey: C minor\n${EIGHT}`, [{ code: 'key-differs', at: 'C minor', says: '', help: '' }]],
  [
    `${EIGHT} |\nmeter: 3/4`,
    [
      {
        code: 'nothing-follows',
        at: 'meter',
        says: 'No bar follows this “meter” line, so it changes nothing.',
        help: 'Write it before the bar it is for, or remove it.',
      },
    ],
  ],
  [
    `${EIGHT} |\npart: End`,
    [
      {
        code: 'nothing-follows',
        at: 'End',
        says: 'No bar follows this “part” line, so it changes nothing.',
        help: 'Write it before the bar it is for, or remove it.',
      },
    ],
  ],
  [
    `harp: H\n${EIGHT}`,
    [
      {
        code: 'header-value',
        at: 'H',
        says: '“H” is no harp.',
        help: 'Write its key, and low or high where it is: A, Bb, low F, high G.',
      },
    ],
  ],
  [
    `form: twelvebar\n${EIGHT}`,
    [
      {
        code: 'header-value',
        at: 'twelvebar',
        says: 'There is no form “twelvebar”.',
        help: 'Did you mean “twelve-bar”?',
      },
    ],
  ],
  [
    `chords: I7 | X7\n${EIGHT}`,
    [
      {
        code: 'header-value',
        at: 'X7',
        says: '“X7” is not a chord symbol.',
        help: 'Write a numeral (IV7, bVI7, ii7) or a name (A7, F#m7b5).',
      },
    ],
  ],
  [
    `harp: a${' '.repeat(300)}b\n${EIGHT}`,
    [
      {
        code: 'header-value',
        at: `a${' '.repeat(300)}b`,
        says: 'The value of “harp” is too long to be one.',
        help: 'Write its key, and low or high where it is: A, Bb, low F, high G.',
      },
    ],
  ],
  [
    `form: one\nchords: I7\n${EIGHT}`,
    [
      {
        code: 'header-value',
        at: 'one',
        says: 'There is no form “one”.',
        help: `There are ${FORMS.map(({ id }) => id).join(', ')}.`,
      },
      {
        code: 'header-conflict',
        at: 'chords',
        says: 'This block names a form and lists chords as well.',
        help: 'Keep either form: or chords: .',
      },
    ],
  ],
  [
    `pickup: 8\n${EIGHT} | ${EIGHT}`,
    [{ code: 'pickup-too-long', at: '8', says: 'A pickup is shorter than a full bar (8 slots).' }],
  ],
  [
    `-2 x9 ${EIGHT}`,
    [
      {
        code: 'not-a-slot',
        at: 'x9',
        says: "“x9” is not a slot. A slot is a hole (4 blow, -4 draw, -4' bent), a hold (=), a rest (.), or a group in braces.",
      },
    ],
  ],
  [
    `${EIGHT} |segno ${EIGHT} |D.S. al Fine`,
    [
      {
        code: 'jump-spelled',
        at: 'D.S. al Fine',
        says: '“D.S. al Fine” is not how this sign is written here.',
        help: 'Write |D.S. where the music goes back, and |fine where it ends after that. “al Fine” then appears by itself.',
      },
    ],
  ],
  [
    `${EIGHT} |to-coda ${EIGHT} |D.C. al  coda |coda ${EIGHT}`,
    [
      {
        code: 'jump-spelled',
        at: 'D.C. al  coda',
        says: '“D.C. al  coda” is not how this sign is written here.',
        help: 'Write |D.C. where the music goes back, |to-coda where it leaves for the coda, and |coda where that begins. “al Coda” then appears by itself.',
      },
    ],
  ],
  [
    `${EIGHT} |to coda ${EIGHT} |D.C.,coda ${EIGHT}`,
    [
      {
        code: 'jump-spelled',
        at: 'to coda',
        says: '“to coda” is not how this sign is written here.',
        help: 'Write |to-coda with no space behind the bar line.',
      },
    ],
  ],
  [
    `${EIGHT} | segno ${EIGHT} |D.S.`,
    [
      {
        code: 'jump-spelled',
        at: 'segno',
        says: '“segno” is a sign of a bar line, and it is not right behind one.',
        help: 'Write |segno with no space behind the bar line.',
      },
    ],
  ],
  [
    `|: ${EIGHT} :| x3 ${EIGHT} :|x10`,
    [
      {
        code: 'times-spelled',
        at: 'x3',
        says: '“x3” does not say how often the repeat is played.',
        help: 'For a repeat that is played 3 times write :|x3 without a space.',
      },
      {
        code: 'times-spelled',
        at: 'x10',
        says: '“x10” does not say how often the repeat is played.',
        help: 'A repeat is played 2 to 9 times: :|x2 to :|x9',
      },
    ],
  ],
  [
    `|: ${EIGHT} :| x4 | ${EIGHT} | x 4 | ${EIGHT} | .x |`,
    [
      {
        code: 'times-spelled',
        at: 'x4',
        says: '“x4” does not say how often the repeat is played.',
        help: 'For a repeat that is played 4 times write :|x4 without a space. A rest of 4 bars is .x4',
      },
      {
        code: 'rest-bars',
        at: 'x 4',
        says: 'A rest of several bars is written with a period, an x and the number of bars.',
        help: 'For a rest of 4 bars write | .x4 |',
      },
      {
        code: 'rest-bars',
        at: '.x',
        says: 'A rest of several bars is written with a period, an x and the number of bars.',
        help: 'For a rest of 4 bars write | .x4 |',
      },
    ],
  ],
  [
    '-3 q =6',
    [
      {
        code: 'not-a-slot',
        at: 'q',
        says: "“q” is not a slot. A slot is a hole (4 blow, -4 draw, -4' bent), a hold (=), a rest (.), or a group in braces.",
        help: 'A q is right behind its hole and bend: -3q',
      },
    ],
  ],
  [
    `${EIGHT} | slot: ${EIGHT}`,
    [
      {
        code: 'not-a-slot',
        at: 'slot:',
        says: "“slot:” is not a slot. A slot is a hole (4 blow, -4 draw, -4' bent), a hold (=), a rest (.), or a group in braces.",
        help: 'Write it on a line of its own.',
      },
    ],
  ],
  [
    `${EIGHT}\nverse 2: one`,
    [
      {
        code: 'header-unknown',
        at: 'verse 2',
        says: 'A block has no setting “verse 2”.',
        help: 'Did you mean “words 2:”?',
      },
    ],
  ],
  [
    `${EIGHT} #up`,
    [
      {
        code: 'not-a-slot',
        at: '#up',
        says: "“#up” is not a slot. A slot is a hole (4 blow, -4 draw, -4' bent), a hold (=), a rest (.), or a group in braces.",
        help: 'A comment has a space after its # .',
      },
    ],
  ],
  [
    '4d . . . . . . .',
    [
      {
        code: 'other-spelling',
        at: '4d',
        says: '“4d” is not a slot: a blow note is a number alone, and a draw note has a minus before it.',
        help: 'Did you mean “-4”?',
      },
    ],
  ],
  [
    '4 r r 5 r =3',
    [
      {
        code: 'other-spelling',
        at: 'r',
        says: '“r” is not a slot: a rest is a period. The block has 3 places of this kind.',
        help: 'Write .',
      },
    ],
  ],
  [
    `harp A\n${EIGHT}`,
    [
      {
        code: 'setting-unmarked',
        at: 'harp A',
        says: '“harp A” reads as a setting, and is not written as one.',
        help: 'Write harp: A',
      },
    ],
  ],
  [
    `harp: A, tempo: 90\n${EIGHT}`,
    [
      {
        code: 'settings-together',
        at: 'tempo',
        says: 'The setting “tempo” is on the line of “harp”.',
        help: 'Write each setting on a line of its own.',
      },
    ],
  ],
  [
    `${EIGHT} // up`,
    [
      {
        code: 'comment-unmarked',
        at: '//',
        says: 'Slashes do not begin a comment here.',
        help: 'Write # and a space before it.',
      },
    ],
  ],
  [
    `C7  F7\n4 = 5 =5`,
    [
      {
        code: 'chords-above',
        at: 'C7  F7',
        says: 'Chord symbols are in the line of music, in quotation marks.',
        help: 'Write "C7" 4 = "F7" 5 =5',
      },
    ],
  ],
  [
    '4. 5 =6',
    [
      {
        code: 'dotted-note',
        at: '4.',
        says: '“4.” is a note and a rest of one slot, so the bar is of a wrong length.',
        help: 'Hold a note with = for each further slot: 4 =2 is three slots long.',
      },
    ],
  ],
  [
    `${EIGHT} | 4 =3 | 5 =3 | ${EIGHT}`,
    [
      {
        code: 'bar-line-extra',
        at: '|',
        says: 'Bars 2 and 3 are one bar together: they hold 4 and 4 of 8 slots.',
        help: 'Is this bar line one too many?',
      },
    ],
  ],
  [
    '{4 5 . . .',
    [
      {
        code: 'bracket-unclosed',
        at: '{',
        says: 'The brace opened here is not closed with } on this line.',
        help: 'Write } behind the last slot of the group, and how many slots it takes if that is not one: {4 5 6}2',
      },
    ],
  ],
  [
    '4[dip 5 .6',
    [
      {
        code: 'bracket-unclosed',
        at: '[',
        says: 'The bracket opened here is not closed with ] on this line.',
        help: 'Write [dip]',
      },
    ],
  ],
  [
    '-(1 -2) =7',
    [
      {
        code: 'two-breaths',
        at: '-(1 -2)',
        says: 'Several holes at once are one breath: one sign, before the parenthesis.',
        help: 'Did you mean “-(1 2)”?',
      },
    ],
  ],
  ["6'o =7", [{ code: 'bend-and-overbend', at: "6'o", says: 'One note cannot be bent and overblown at once.' }]],
  ['= 4 =6', [{ code: 'hold-without-note', at: '=', says: 'There is no note here to hold.' }]],
  [
    '4 .2 =5',
    [
      {
        code: 'hold-without-note',
        at: '=5',
        says: 'There is no note here to hold: a rest is before it.',
        help: 'Write a longer rest as one: .6',
      },
    ],
  ],
  ['4 =0 =6', [{ code: 'count-zero', at: '=0', says: '“=” needs a count from 1 to 999.' }]],
  ['{} .7', [{ code: 'group-empty', at: '{}', says: 'This group is empty.' }]],
  [
    '{4 {5 6}} .7',
    [
      {
        code: 'group-nested',
        at: '{5 6}',
        says: 'A group cannot be inside a group.',
        help: 'Hold with = inside one group instead: {4 = 5 6} is an eighth and two sixteenths of a quarter.',
      },
    ],
  ],
  ['{4 | 5} .7', [{ code: 'group-crossed', at: '|', says: 'A bar line cannot be inside a group.' }]],
  [
    `{${'4 '.repeat(17)}}8`,
    [
      {
        code: 'group-too-many',
        at: `{${'4 '.repeat(17)}}8`,
        says: 'A group shares its slots among at most 16 events.',
        help: 'Write smaller slots (slot: 1/16) or several groups.',
      },
    ],
  ],
  [`> ${EIGHT}`, [{ code: 'glide-without-note', at: '>', says: 'There is no note before this > to glide from.' }]],
  [
    "-3'> .7",
    [{ code: 'glide-nowhere', at: '>', says: 'This glide has no note to go to: a note has to follow immediately.' }],
  ],
  [
    "-3'[breath]> -3 .6",
    [
      {
        code: 'glide-after-stop',
        at: '>',
        says: 'The sound stops after a note with breath, so no glide can lead on from it.',
        help: 'Leave out the > or [breath].',
      },
    ],
  ],
  [
    "-3'> 3 .6",
    [{ code: 'glide-turns', at: '>', says: 'A glide stays on one breath, and the next note is on the other.' }],
  ],
  [
    `"H7" ${EIGHT}`,
    [
      {
        code: 'chord-unknown',
        at: '"H7"',
        says: '“H7” is not a chord symbol.',
        help: 'Did you mean B7?',
      },
    ],
  ],
  [
    `"X7" ${EIGHT}`,
    [
      {
        code: 'chord-unknown',
        at: '"X7"',
        says: '“X7” is not a chord symbol.',
        help: 'Write a numeral ("IV7", "bVI7", "ii7") or a name ("A7", "F#m7b5").',
      },
    ],
  ],
  [
    `"V7/X" ${EIGHT}`,
    [
      {
        code: 'chord-unknown',
        at: '"V7/X"',
        says: '“V7/X” is not a chord symbol.',
        help: 'Behind the slash of a numeral is one other numeral, the step it counts from: V7/V, viidim7/ii, V7/bVI.',
      },
    ],
  ],
  [
    `"V7/V7" ${EIGHT}`,
    [
      {
        code: 'chord-unknown',
        at: '"V7/V7"',
        says: '“V7/V7” is not a chord symbol.',
        help: 'Behind the slash is a numeral alone. Did you mean V7/V?',
      },
    ],
  ],
  [
    `position: 2\n"I/E" ${EIGHT}`,
    [
      {
        code: 'numeral-over-note',
        at: '"I/E"',
        says: '“I/E” puts a bass note behind a numeral, where the slash means “of”.',
        help: 'Write the chord by its name: "G/E"',
      },
    ],
  ],
  [
    `position: 2\nphrase a: {"bVII7/F#" 4 5}\n<a> .7`,
    [
      {
        code: 'numeral-over-note',
        at: '"bVII7/F#"',
        says: '“bVII7/F#” puts a bass note behind a numeral, where the slash means “of”.',
        help: 'Write the chord by its name: "F7/F#"',
      },
    ],
  ],
  [
    `chords: IV/A\n${EIGHT}`,
    [
      {
        code: 'header-value',
        at: 'IV/A',
        says: '“IV/A” is not a chord symbol.',
        help: 'A numeral has no bass note. Write the chord by its name: in C it is F/A.',
      },
    ],
  ],
  ...['NC', 'n.c.', 'N.C', 'no chord'].map((text): readonly [string, readonly Reported[]] => [
    `"${text}" ${EIGHT}`,
    [
      {
        code: 'chord-unknown',
        at: `"${text}"`,
        says: `“${text}” is not a chord symbol.`,
        help: 'Did you mean N.C., for no chord?',
      },
    ],
  ]),
  [
    'phrase a: 4 5\n<a to "N.C."> .6',
    [
      {
        code: 'chord-unknown',
        at: '"N.C."',
        says: '“N.C.” is not a chord symbol.',
        help: 'A quotation moves to a chord, and where no chord sounds there is none.',
      },
    ],
  ],
  [
    'phrase a: 4 5\n<a to "IV/A"> .6',
    [
      {
        code: 'numeral-over-note',
        at: '"IV/A"',
        says: '“IV/A” puts a bass note behind a numeral, where the slash means “of”.',
        help: 'Write the chord by its name: "F/A"',
      },
    ],
  ],
  [
    `"C/H" ${EIGHT}`,
    [
      {
        code: 'chord-unknown',
        at: '"C/H"',
        says: '“C/H” is not a chord symbol.',
        help: 'Behind the slash of a name is the note of the bass, A to G with b or # where it has one. Did you mean C/B?',
      },
    ],
  ],
  [
    `"Am7/bass" ${EIGHT}`,
    [
      {
        code: 'chord-unknown',
        at: '"Am7/bass"',
        says: '“Am7/bass” is not a chord symbol.',
        help: 'Behind the slash of a name is the note of the bass, A to G with b or # where it has one.',
      },
    ],
  ],
  [
    `@tounge ${EIGHT}`,
    [
      {
        code: 'mouth-unknown',
        at: '@tounge',
        says: '“@tounge” is not an embouchure: write @lips or @tongue.',
        help: 'Did you mean “@tongue”?',
      },
    ],
  ],
  [
    '-2[slapp] =7',
    [{ code: 'mark-unknown', at: 'slapp', says: '“slapp” is not a mark of a note.', help: 'Did you mean “slap”?' }],
  ],
  ['-4[shake] =7', [{ code: 'mark-shake', at: 'shake', says: 'A shake needs its other hole, as in 4[shake 5].' }]],
  ['-4[dip dip] =7', [{ code: 'mark-twice', at: 'dip', says: 'The mark “dip” appears twice on this note.' }]],
  [
    `part:\n${EIGHT}`,
    [
      {
        code: 'part-without-name',
        at: 'part',
        says: 'This part has no name.',
        help: 'Write one after the colon, as in part: Chorus',
      },
    ],
  ],
  [
    `phrase: 1 2\n${EIGHT}`,
    [
      {
        code: 'phrase-without-name',
        at: 'phrase',
        says: 'A phrase needs a name of letters, digits and hyphens.',
        help: 'Write phrase answer: 2 -2 -1 =',
      },
    ],
  ],
  [
    `phrase a: 1\nphrase a: 2\n${EIGHT}`,
    [
      {
        code: 'phrase-twice',
        at: 'a',
        says: 'There are two phrases named “a” in this block.',
        help: 'Give one of them another name.',
      },
    ],
  ],
  [`phrase a:\n${EIGHT}`, [{ code: 'phrase-empty', at: 'a', says: 'The phrase “a” has no slots.' }]],
  [
    `phrase a: 1 :|\n${EIGHT}`,
    [
      {
        code: 'phrase-repeats',
        at: ':|',
        says: 'A phrase cannot contain a repeat, ending, jump or closing bar line.',
        help: 'Write the repeat in the music, around the phrase.',
      },
    ],
  ],
  [
    `<a b> ${EIGHT}`,
    [
      {
        code: 'quote-unreadable',
        at: '<a b>',
        says: '“<a b>” is not a quotation.',
        help: 'Write <answer>, <block:answer>, <:block>, <lesson/block> or <lesson/block:answer>, perhaps with a chord: <answer to "IV7">.',
      },
    ],
  ],
  [
    'phrase answer: 4 5\n<anser> .6',
    [
      {
        code: 'quote-unknown',
        at: '<anser>',
        says: 'There is no phrase “anser” to quote.',
        help: 'Did you mean “<answer>”?',
      },
    ],
  ],
  [
    '<rifs/a>',
    [
      {
        code: 'quote-unknown',
        at: '<rifs/a>',
        says: 'There is no lesson “rifs” to quote.',
        help: 'Did you mean “riffs”?',
      },
    ],
  ],
  [
    '<riffs/b>',
    [
      {
        code: 'quote-unknown',
        at: '<riffs/b>',
        says: 'There is no block “riffs/b” to quote.',
        help: 'Did you mean “<riffs/a>”?',
      },
    ],
  ],
  [
    'text:\n4 =7',
    [
      {
        code: 'text-empty',
        at: 'text',
        says: 'There is no text here.',
        help: 'Write it after the colon, as in text: like a train',
      },
    ],
  ],
  [
    '4 =7\nwords: one\nwords 2: two\nwords 1: three',
    [
      {
        code: 'words-twice',
        at: ' three',
        says: 'The line of music above has words for verse 1 already.',
        help: 'Without a number, words: is the verse after that of the line before.',
      },
    ],
  ],
  ['4 =7\nwords 2: two\nwords: three\nwords 3: three', [{ code: 'words-twice', at: ' three', says: '' }]],
  ...['0', '10', '1000', 'two'].map((number): readonly [string, readonly Reported[]] => [
    `4 =7\nwords ${number}: la`,
    [
      {
        code: 'verse-number',
        at: `words ${number}`,
        says: `Verses are numbered 1 to 9, not ${number}.`,
        help: 'Write the number before the colon: words 2: … .',
      },
    ],
  ]),
  ['4 =7\nwords 9: la\nwords: lo', [{ code: 'verse-number', at: ' lo', says: '' }]],
  [
    'slot: 1/4\n|: 4 5 6 7 |1 6 =3 :|2 7 =3 |]\nwords: one two three four five six\nwords: one two three four * seven',
    [
      {
        code: 'verse-against-ending',
        at: 'seven',
        says: 'Two lines have words here for the second time.',
        help: 'An ending has words for the times it is played. For a note without a syllable in a verse write *.',
      },
    ],
  ],
  [
    `syllables: ta\n${EIGHT}`,
    [
      {
        code: 'syllables-misplaced',
        at: ' ta',
        says: 'There is no line of music above these syllables.',
        help: 'Write syllables: under the line of music that is played with them.',
      },
    ],
  ],
  [
    '4 =7\nsyllables: ta\nwords: one\nsyllables: ka',
    [
      {
        code: 'syllables-twice',
        at: ' ka',
        says: 'The line of music above has syllables already.',
        help: 'Keep one line, which is for each time the music is played. Words that are sung are written with words: .',
      },
    ],
  ],
  [
    '1 =3 -1 =3\nwords: one two\nwords: three\nsyllables: ta ka doo',
    [
      { code: 'words-too-few', at: ' three', says: '' },
      { code: 'words-too-many', at: 'doo', says: '' },
    ],
  ],
  [
    '4 =7[breath]',
    [
      {
        code: 'not-a-slot',
        at: '[breath]',
        says: "“[breath]” is not a slot. A slot is a hole (4 blow, -4 draw, -4' bent), a hold (=), a rest (.), or a group in braces.",
        help: 'Write a mark right behind its note, before what holds the note: 4[breath] =3',
      },
    ],
  ],
  [
    '4[crescendo] =7',
    [
      {
        code: 'mark-unknown',
        at: 'crescendo',
        says: '“crescendo” is not a mark of a note.',
        help: 'Did you mean “cresc”?',
      },
    ],
  ],
  [
    '<:b> <lick> .8',
    [
      { code: 'quote-unknown', at: '<:b>', says: 'There is no block “b” to quote.', help: 'Did you mean “<:a>”?' },
      {
        code: 'quote-unknown',
        at: '<lick>',
        says: 'There is no phrase “lick” to quote.',
        help: 'Did you mean “<a:lick>”?',
      },
    ],
  ],
  [
    'position: 2\nphrase two: "I7" -2 "V7" -4\n<two to "IV7"> .6',
    [
      {
        code: 'moved-two-chords',
        at: '<two to "IV7">',
        says: '“two” is over G7 and D7, so it cannot be moved to one chord.',
        help: 'Write a phrase for each chord, and move them one by one.',
      },
    ],
  ],
  [
    'position: 2\nphrase push: -(1 2 3) .3\n<push to "V7">[accent] .4',
    [
      {
        code: 'moved-unplayable',
        at: '<push to "V7">',
        says: '“push” cannot be played over V7 on this harp: -(1 2 3) becomes A3 and D4 and F#4, which no breath gives together.',
        help: 'Write the notes out with a change that the harp allows, or quote the phrase as it is.',
      },
    ],
  ],
  [
    'chords: I7\nphrase a: 4 5\n<a to "IV7"> .6',
    [
      {
        code: 'moved-elsewhere',
        at: '<a to "IV7">',
        says: 'This quotation is moved to F7, and the chord here is C7.',
        help: 'Move it to the chord that is here, or quote it without “to”.',
      },
    ],
  ],
  [
    'phrase a: <b>\nphrase b: <a>\n<a> .8',
    [
      {
        code: 'quote-cycle',
        at: '<a>',
        says: 'This quotation is part of a cycle: a → b → a.',
        help: 'Write out the notes that are meant at one of these places.',
      },
    ],
  ],
  [
    `${Array.from({ length: 60 }, (_, i) => `phrase p${i}: ${i === 59 ? '4' : `<p${i + 1}>`}`).join('\n')}\n<p0> .7`,
    [
      {
        code: 'quote-too-deep',
        at: '<p50>',
        says: 'This quotation leads through more than 50 others.',
        help: 'Quote the block or phrase that has the music itself.',
      },
    ],
  ],
  [
    '<riffs/bad>',
    [
      {
        code: 'quote-broken',
        at: '<riffs/bad>',
        says: '“riffs/bad” has problems of its own, so it cannot be quoted yet.',
        help: 'Fix it first; this quotation follows.',
      },
    ],
  ],
  [
    `words: la\n${EIGHT}`,
    [
      {
        code: 'words-misplaced',
        at: ' la',
        says: 'There is no line of music above these words.',
        help: 'Write words: under the line of music that they are sung to.',
      },
    ],
  ],
  [
    '1 =7\nwords: one two three',
    [
      {
        code: 'words-too-many',
        at: 'two three',
        says: '3 syllables for 1 sounding note above.',
        help: 'A held (=) note takes no syllable of its own; a hyphen divides a word.',
      },
    ],
  ],
  [
    'position: 3\nkey: C minor\n-4 =7',
    [
      {
        code: 'key-differs',
        at: 'C minor',
        says: 'A C harp in third position plays in the key of D, and the key named here is C.',
        help: 'Change the harp, the position or the key; or name the mode alone, such as minor.',
      },
    ],
  ],
  ['harp: low F\nposition: 2\nkey: C mixolydian\n-4 =7', []],
  ['harp: Db\nposition: 1\nkey: C# major\n4 =7', []],
  ['key: Dm\n-4 =7', [{ code: 'header-value', at: 'Dm', says: '“Dm” is no key.', help: 'Did you mean “D minor”?' }]],
  [
    'position: 3\nkey: dorian\nslot: 1/1\nchords: i | VI | VII\n\n-4 | -5 | -4',
    [
      {
        code: 'numeral-in-minor',
        at: 'VII',
        says: 'The song is in dorian, where “VII” is a half step above bVII.',
        help: 'Did you mean bVII? Otherwise write the chord by its name.',
      },
    ],
  ],
  [
    '1 =3 -1 =3\nwords: one',
    [
      {
        code: 'words-too-few',
        at: ' one',
        says: '1 syllable for 2 sounding notes above.',
        help: 'For a note without a syllable write *, for one that holds the syllable before it _ .',
      },
    ],
  ],
  ['1 =3 -1 =3\nwords: one *', []],
  ['1 =3 -1 =3\nwords: one _', []],
  [
    'slot: 1/4\n\n1 2 3 | 4 5 6 | 4 5 6 | 4 . .',
    [
      {
        code: 'bars-in-another-meter',
        at: '1 2 3',
        says: 'All 4 full bars hold 3 slots of 1/4, which is not a bar of 4/4.',
        help: 'Is the music in 3/4? Then write meter: 3/4',
      },
    ],
  ],
  [
    'slot: 1/8\nmeter: 3/4\n\n-4 | 4 =6 | 5 =6 | 6 =6 | 4 =4',
    [
      {
        code: 'bars-in-another-meter',
        at: '-4',
        says: 'All 3 full bars hold 7 slots of 1/8, which is not a bar of 3/4.',
        help: 'Is the music in 7/8? Then write meter: 7/8',
      },
    ],
  ],
  [
    'position: 3\nslot: 1/1\n\n"i" -4 | "III" -5 | "VI7" 6 | "viio" -3',
    [
      {
        code: 'numeral-in-minor',
        at: '"III"',
        says: 'The song is in minor, where “III” is a half step above bIII.',
        help: 'Did you mean bIII? Otherwise write the chord by its name.',
      },
      {
        code: 'numeral-in-minor',
        at: '"VI7"',
        says: 'The song is in minor, where “VI7” is a half step above bVI7.',
        help: 'Did you mean bVI7? Otherwise write the chord by its name.',
      },
    ],
  ],
  [
    'position: 3\nslot: 1/1\nchords: i | VII\n\n-4 | -5',
    [
      {
        code: 'numeral-in-minor',
        at: 'VII',
        says: 'The song is in minor, where “VII” is a half step above bVII.',
        help: 'Did you mean bVII? Otherwise write the chord by its name.',
      },
    ],
  ],
  [
    'position: 3\nslot: 1/1\nchords: i | V7/VI | VI/V | V7/vi\n\n-4 | -5 | -4 | -4',
    [
      {
        code: 'numeral-in-minor',
        at: 'V7/VI',
        says: 'The song is in minor, where “V7/VI” is a half step above V7/bVI.',
        help: 'Did you mean V7/bVI? Otherwise write the chord by its name.',
      },
    ],
  ],
  ['position: 3\nslot: 1/1\nchords: i | bVII | iv | V7\n\n-4 | -5 | -4 | -4', []],
  ['position: 2\nslot: 1/1\nchords: I | VI7\n\n-4 | -5', []],
  [
    `${EIGHT} | | ${EIGHT}`,
    [
      {
        code: 'bar-empty',
        at: '|',
        says: 'There is nothing between these bar lines.',
        help: 'Rest for a whole bar with .8 (in slots of 1/8), or remove one line.',
      },
    ],
  ],
  [
    `1 1 1 | ${EIGHT}`,
    [
      {
        code: 'bar-too-short',
        at: '1 1 1',
        says: 'Bar 1 holds 3 of its 8 slots (4/4 in slots of 1/8).',
        help: 'If these are pickup notes, say so in the header: pickup: 3',
      },
    ],
  ],
  [
    `${EIGHT} | ${EIGHT} {1 1 1}`,
    [
      {
        code: 'bar-too-long',
        at: `${EIGHT} {1 1 1}`,
        says: 'Bar 2 holds 9 slots, and its meter has room for 8 (4/4 in slots of 1/8).',
        help: 'Is a bar line missing?',
      },
    ],
  ],
  [
    `form: twelve-bar\n${EIGHT} | ${EIGHT}`,
    [
      {
        code: 'form-unfilled',
        at: EIGHT,
        says: 'The music has 2 bars, and twelve-bar has 12.',
        help: 'For a piece of the form name its bars: form: twelve-bar bars 1-2',
      },
    ],
  ],
  [
    `chords: I7 | IV7 | I7 | I7 | I7\n${EIGHT} |fine ${EIGHT} | ${EIGHT} |D.C.`,
    [
      {
        code: 'form-unfilled',
        at: EIGHT,
        says: 'The music has 4 bars as it is played, and the list of chords has 5.',
        help: 'Fill the form, or choose other chords. Repeats and what is played after a jump count each time.',
      },
    ],
  ],
  [
    `chords: I7 | IV7 | V7\n|: ${EIGHT} | ${EIGHT} :| ${EIGHT} | ${EIGHT}`,
    [
      {
        code: 'repeat-against-form',
        at: EIGHT,
        says: 'Bar 1 has another chord of the form when it is repeated.',
        help: 'Write the repeat out.',
      },
      {
        code: 'repeat-against-form',
        at: EIGHT,
        says: 'Bar 2 has another chord of the form when it is repeated.',
        help: 'Write the repeat out.',
      },
    ],
  ],
  [
    `|: ${EIGHT} | ${EIGHT}`,
    [{ code: 'repeat-unclosed', at: EIGHT, says: 'The repeat that begins here does not end.', help: 'End it with :|' }],
  ],
  [
    `${EIGHT} |2 -2 1 1 1 1 1 1 1`,
    [
      {
        code: 'ending-misplaced',
        at: '-2 1 1 1 1 1 1 1',
        says: 'Ending 2 has no repeat to belong to.',
        help: 'For hole 2 after a bar line leave a space: | 2',
      },
    ],
  ],
  [
    '|: 4 =7 :|2 5 =7 |1 6 =7 |]',
    [
      {
        code: 'ending-misplaced',
        at: '5 =7',
        says: 'Ending 2 comes before the ending that is played first.',
        help: 'Write the endings in the order they are played, with :| between them: |1 … :|2 …',
      },
    ],
  ],
  [
    '|: 4 =7 |1 5 =7 |2 6 =7 :|',
    [
      {
        code: 'ending-misplaced',
        at: '5 =7',
        says: 'Ending 1 does not go back: there is no :| between it and the next ending.',
        help: 'Write the endings in the order they are played, with :| between them: |1 … :|2 …',
      },
    ],
  ],
  [
    '|: 4 =7 |1 5 =7 :|3 6 =7 |]',
    [
      {
        code: 'ending-misplaced',
        at: '6 =7',
        says: 'Ending 3 comes too early: there is no ending for the time before it.',
        help: 'Number the endings in the order they are played: |1 … :|2 … :|3 …',
      },
    ],
  ],
  [
    '4 =7 |1,2 5 =7 :|2,3 6 =7 |]',
    [
      {
        code: 'ending-misplaced',
        at: '6 =7',
        says: 'Ending 2,3 has no repeat to belong to.',
        help: 'Begin with |1 and let the others follow its :|',
      },
    ],
  ],
  [
    '4 =7 |1 5 =7 :|x3 |2 6 =7 |]',
    [
      {
        code: 'times-with-endings',
        at: '5 =7',
        says: 'This repeat has endings, so it cannot be played 3 times by its sign.',
        help: 'Give its endings the numbers of the times they are for, as in |1,2 and |3.',
      },
    ],
  ],
  [
    '4 =7 |1,3 5 =7 :|',
    [
      {
        code: 'ending-missing',
        at: '5 =7',
        says: 'There is no ending for the second time.',
        help: 'Add 2 to an ending, as in |1,2, or write one for it.',
      },
    ],
  ],
  [
    '4 =7 |finn 5 =7 |dc',
    [
      {
        code: 'bar-word-unknown',
        at: 'finn',
        says: '“finn” means nothing behind a bar line.',
        help: 'Did you mean “fine”?',
      },
    ],
  ],
  [
    '4 =7 |D.C.,fine,x 5 =7 |]',
    [
      {
        code: 'signs-together',
        at: 'fine',
        says: '|D.C. and |fine are at one bar line, and only one can be followed.',
        help: 'Keep the one you mean.',
      },
      {
        code: 'bar-word-unknown',
        at: 'x',
        says: '“x” means nothing behind a bar line.',
        help: 'Write segno, coda, to-coda, fine, D.C. or D.S.',
      },
    ],
  ],
  [
    '|segno,coda 4 =7 |D.S.',
    [
      {
        code: 'signs-together',
        at: 'coda',
        says: '|segno and |coda are at one bar line, and only one can be followed.',
        help: 'Keep the one you mean.',
      },
    ],
  ],
  [
    '|segno 4 =7 |segno 4 =7 |D.S. 4 =7 |D.C.',
    [
      {
        code: 'sign-twice',
        at: 'segno',
        says: 'There is a |segno before this one.',
        help: 'Write one of the passages out.',
      },
      {
        code: 'sign-twice',
        at: 'D.C.',
        says: 'The block goes back already, with |D.S.: a second jump would be unclear.',
        help: 'Write one of the passages out.',
      },
    ],
  ],
  [
    '4 =7 |D.S.',
    [
      {
        code: 'sign-alone',
        at: 'D.S.',
        says: 'There is no |segno to go back to.',
        help: 'Write |segno at the bar line where it begins, or |D.C. for the beginning.',
      },
    ],
  ],
  [
    '|segno 4 =7 |fine 4 =7',
    [
      {
        code: 'sign-alone',
        at: 'segno',
        says: 'Nothing goes back to this |segno.',
        help: 'Write |D.S. at the bar line from which it is played again.',
      },
      {
        code: 'sign-alone',
        at: 'fine',
        says: '|fine is for the time after a jump back, and there is none.',
        help: 'Write |D.C. or |D.S. at the bar line where the music goes back. The end of a block is |]',
      },
    ],
  ],
  [
    '4 =7 |to-coda 4 =7 |D.C.',
    [
      {
        code: 'sign-alone',
        at: 'to-coda',
        says: 'There is no |coda to go to.',
        help: 'Write |coda at the bar line where it begins.',
      },
    ],
  ],
  [
    '4 =7 | 4 =7 |D.C.,coda 4 =7 |]',
    [
      {
        code: 'sign-alone',
        at: 'coda',
        says: 'Nothing leads to this |coda.',
        help: 'Write |to-coda at the bar line from which the coda is played.',
      },
    ],
  ],
  [
    '|: 4 =7 |D.C. 4 =7 :|',
    [
      {
        code: 'jump-in-repeat',
        at: 'D.C.',
        says: '|D.C. is inside a repeat that is not finished here.',
        help: 'Write it at the end of the repeat or of its last ending, as in :|D.C.',
      },
    ],
  ],
  [
    '|fine 4 =7 |coda',
    [
      {
        code: 'sign-misplaced',
        at: 'fine',
        says: 'There is no bar before |fine that could end here.',
        help: 'Write it at the bar line behind the bar it ends.',
      },
      {
        code: 'sign-misplaced',
        at: 'coda',
        says: 'There is no bar behind |coda that could begin here.',
        help: 'Write it at the bar line before the bar it begins.',
      },
    ],
  ],
  [
    '|: 4 =7 |1 4 =7 |fine 4 =7 :|2 4 =7 |D.C.',
    [
      {
        code: 'sign-misplaced',
        at: 'fine',
        says: 'After the jump back only last endings are played, and |fine is in another one.',
        help: 'Move it to the last ending, or before the first one.',
      },
    ],
  ],
  [
    '4 =7 |D.S.,segno 4 =7 |]',
    [
      {
        code: 'sign-misplaced',
        at: 'segno',
        says: 'The segno is behind the |D.S. that goes back to it.',
        help: 'Move |segno to the bar line where the music begins again.',
      },
    ],
  ],
  [
    '4 =7 |coda 4 =7 |to-coda 4 =7 |D.C.',
    [
      {
        code: 'sign-misplaced',
        at: 'coda',
        says: 'The coda is before the jump back, so it would be played the first time too.',
        help: 'Write the coda behind |D.C. or |D.S.',
      },
    ],
  ],
  [
    '4 =7 |fine 4 =7 |segno 4 =7 |D.S.',
    [
      {
        code: 'sign-misplaced',
        at: 'fine',
        says: 'After the jump back the music does not come to this |fine.',
        help: 'Move it between the place that the jump goes back to and the jump.',
      },
    ],
  ],
  [
    '4 =7 |fine 4 =7 |to-coda 4 =7 |D.C.,coda 4 =7',
    [
      {
        code: 'sign-misplaced',
        at: 'to-coda',
        says: 'After the jump back the music does not come to this |to-coda.',
        help: 'Move it between the place that the jump goes back to and the jump.',
      },
    ],
  ],
  [
    '4 =7 |fine 4 =7 |D.C. 5 =7',
    [
      {
        code: 'bar-never-played',
        at: '5 =7',
        says: 'No playing ever reaches bar 3, behind |D.C.',
        help: 'Is it the coda? Then write |coda before it, and |to-coda where the music leaves for it.',
      },
    ],
  ],
  [
    '% | 4 =7',
    [
      {
        code: 'again-unclear',
        at: '%',
        says: 'There is no bar before % to be played again.',
        help: 'Write the notes of the first bar.',
      },
    ],
  ],
  [
    '4 =7 | % 4',
    [
      {
        code: 'again-unclear',
        at: '4',
        says: 'A bar with % has no notes, holds or rests of its own.',
        help: 'Leave % alone between its bar lines, or write the bar out.',
      },
    ],
  ],
  [
    '4 =7 | =8 | %',
    [
      {
        code: 'again-unclear',
        at: '%',
        says: 'The bar before % begins with a note that is held on from the bar before it, which cannot be played again.',
        help: 'Write the bar out.',
      },
    ],
  ],
  [
    '4 =7 |: % :|',
    [
      {
        code: 'again-unclear',
        at: '%',
        says: 'Playing comes to this bar from more than one other, so % does not say which is played again.',
        help: 'Write the bar out.',
      },
    ],
  ],
  [
    'pickup: 2\n4 = | % | 4 =7',
    [
      {
        code: 'again-unclear',
        at: '%',
        says: 'The bar before % is of another length.',
        help: 'Write the bar out.',
      },
    ],
  ],
  [
    'phrase a: % |\n4 =7',
    [
      {
        code: 'again-unclear',
        at: '%',
        says: 'A phrase is quoted at several places, so % does not say which bar is played again.',
        help: 'Write the bar out.',
      },
    ],
  ],
  [
    '4 =7 | .x1 | 4 =7',
    [
      {
        code: 'rest-bars',
        at: '.x1',
        says: 'A rest of several bars is of 2 to 99 bars.',
        help: 'Rest for a whole bar with .8 (in slots of 1/8), or for four with | .x4 |',
      },
    ],
  ],
  [
    '4 =7 | .x2 4 | 4 =7',
    [
      {
        code: 'rest-bars',
        at: '4',
        says: 'A rest of several bars is alone between its bar lines.',
        help: 'Rest for a whole bar with .8 (in slots of 1/8), or for four with | .x4 |',
      },
    ],
  ],
  [
    '4 =7 | .x2 | %',
    [
      {
        code: 'again-unclear',
        at: '%',
        says: 'The bar before % is one of a rest of several bars.',
        help: 'Count this bar in that rest, as in .x5 for .x4 and one more.',
      },
    ],
  ],
  [
    '11 =7',
    [{ code: 'no-hole', at: '11', says: 'There is no hole 11 on a harp of 10 holes.', help: 'Did you mean “10”?' }],
  ],
  [
    "3' =7",
    [
      {
        code: 'no-bend',
        at: "3'",
        says: 'Hole 3 does not bend on the blow: its blow reed G4 is the lower one.',
        help: "Did you mean “-3'”?",
      },
    ],
  ],
  [
    "-5' =7",
    [
      {
        code: 'no-bend',
        at: "-5'",
        says: 'Hole 5 does not bend on the draw: its two reeds, F5 and E5, are too close together.',
        help: 'Did you mean “5”?',
      },
    ],
  ],
  [
    "-2 -2''' =6",
    [
      {
        code: 'bend-too-deep',
        at: "-2'''",
        says: 'Hole 2 draw bends at most two half steps on a C harp (from G4 down to F4, just above its blow reed E4).',
        help: "Did you mean “-2''”?",
      },
    ],
  ],
  [
    "harp: A\n8''' =7",
    [
      {
        code: 'bend-too-deep',
        at: "8'''",
        says: 'Hole 8 blow bends at most one half step on an A harp (from C#6 down to C6, just above its draw reed B5).',
        help: "Did you mean “8'”?",
      },
    ],
  ],
  [
    "-2''q =7",
    [
      {
        code: 'quarter-too-deep',
        at: "-2''q",
        says: 'Hole 2 draw gives no quarter step below F4: that is its deepest bend, just above its blow reed E4.',
        help: "Did you mean “-2'q”?",
      },
    ],
  ],
  [
    "7'q =7",
    [
      {
        code: 'no-bend',
        at: "7'q",
        says: 'Hole 7 does not bend on the blow: its two reeds, C6 and B5, are too close together for half steps.',
        help: 'Did you mean “7q”?',
      },
    ],
  ],
  [
    '3q =7',
    [
      {
        code: 'no-bend',
        at: '3q',
        says: 'Hole 3 does not bend on the blow: its blow reed G4 is the lower one.',
        help: 'Did you mean “-3q”?',
      },
    ],
  ],
  ['6oq =7', [{ code: 'bend-and-overbend', at: '6oq', says: 'One note cannot be bent and overblown at once.' }]],
  [
    '-6o =7',
    [
      {
        code: 'no-overbend',
        at: '-6o',
        says: 'Hole 6 does not overdraw: its draw reed A5 is the higher one.',
        help: 'Did you mean “6o”?',
      },
    ],
  ],
  ['4* =7', [{ code: 'no-slide', at: '4*', says: 'This harp has no slide to press.' }]],
  ['(2 2) =7', [{ code: 'hole-twice', at: '(2 2)', says: 'Hole 2 appears twice in this chord.' }]],
  [
    '(1 7)[tongue] =7',
    [{ code: 'holes-too-far', at: '(1 7)', says: 'Holes 1 and 7 are further apart than a mouth covers (5 holes).' }],
  ],
  [
    '-(3 7) =7',
    [
      {
        code: 'split-with-lips',
        at: '-(3 7)',
        says: 'Lips alone cannot silence holes 4 and 5 and 6: a split needs the tongue.',
        help: 'Write -(3 7)[tongue] or switch with @tongue before it.',
      },
    ],
  ],
  [
    '-2[slap] =7',
    [
      {
        code: 'tongue-mark-with-lips',
        at: 'slap',
        says: 'A slap is made with the tongue on the comb, and this note is played with the lips.',
        help: 'Write -2[tongue slap] or switch with @tongue before it.',
      },
    ],
  ],
  [
    '1[tongue slap] =7',
    [
      {
        code: 'nothing-under-tongue',
        at: 'slap',
        says: 'A slap has no hole left to sound here: the tongue needs one to the left of the note, or inside the split.',
      },
    ],
  ],
  [
    '-4[grace (1 2)] =7',
    [
      {
        code: 'mark-grace',
        at: '(1 2)',
        says: 'A grace note is one note, as in -4[grace -3]; “(1 2)” is not one note.',
        help: 'Name one hole with its bend. Several short notes before another one are a group: {5 6 4}',
      },
    ],
  ],
  [
    '-4[grace] = -4[slap grace 5 6 dip] =5',
    [
      {
        code: 'mark-grace',
        at: 'grace',
        says: 'A grace note needs its note, as in -4[grace -3].',
        help: 'Name one hole with its bend: chords, and several grace notes before one note, cannot be written.',
      },
      { code: 'tongue-mark-with-lips', at: 'slap', says: '', help: '' },
      {
        code: 'mark-grace',
        at: '5 6',
        says: 'A grace note is one note, as in -4[grace -3]; “5 6” is not one note.',
        help: 'Name one hole with its bend. Several short notes before another one are a group: {5 6 4}',
      },
    ],
  ],
  [
    '4[shake -5] =7',
    [
      {
        code: 'mark-shake',
        at: '-5',
        says: 'A shake is between its note and one other hole, as in 4[shake 5]; “-5” is not one hole.',
        help: 'Name one hole, without a sign: it is on the breath of the note.',
      },
    ],
  ],
  ['-4[grace 7o] =7', [{ code: 'no-overbend', at: 'grace', says: '', help: '' }]],
  [
    `${EIGHT} | <riffs/waltz> | ${EIGHT}`,
    [
      {
        code: 'quoted-meter',
        at: '<riffs/waltz>',
        says: 'The block <riffs/waltz> is in 3/4, and the bars here are in 4/4.',
        help: 'Write meter: 3/4 on a line of its own above the quotation, and meter: 4/4 again above what follows it.',
      },
    ],
  ],
  [
    '<riffs/waltz> | <riffs/waltz> | 4 =6 |]',
    [
      { code: 'quoted-meter', at: '<riffs/waltz>', says: '', help: '' },
      { code: 'quoted-meter', at: '<riffs/waltz>', says: '', help: '' },
      { code: 'bar-too-short', at: '4 =6', says: '', help: '' },
    ],
  ],
  [
    `${EIGHT} | <riffs/upbeat> | ${EIGHT}`,
    [
      {
        code: 'quoted-pickup',
        at: '<riffs/upbeat>',
        says: 'The block <riffs/upbeat> begins with a pickup of 2 slots, which is no full bar.',
        help: 'Leave out the bar line before it, and let the bar there be 2 slots shorter; or begin the block with it, with pickup: 2',
      },
    ],
  ],
  [
    `pickup: 2\n<riffs/upbeat> | ${EIGHT}`,
    [
      {
        code: 'quoted-pickup',
        at: '<riffs/upbeat>',
        says: 'The block <riffs/upbeat> has a pickup of 2 slots, so its last bar is no full bar.',
        help: 'Leave out the bar line behind it, and fill the bar with 2 slots more.',
      },
    ],
  ],
  [
    `form: eight-bar\n${`${EIGHT} | `.repeat(3)}${EIGHT} |to-coda ${`${EIGHT} | `.repeat(3)}${EIGHT} |D.C.,coda ${EIGHT} |]`,
    [
      {
        code: 'jump-against-form',
        at: 'D.C.',
        says: 'Behind |D.C. eight-bar goes on from bar to bar, and does not fit the bars that are played again.',
        help: 'If each bar has the same chords again, list them in the order of playing, in place of the form: chords: I7 | V7 | IV7 | IV7 | I7 | V7 IV7 | I7 | V7 | I7 | V7 | IV7 | IV7 | I7',
      },
    ],
  ],
  [
    'pickup: 2\n4 5 |: 4 =7 | 6 =5 :| 4 =5 :|',
    [
      {
        code: 'repeat-loses-pickup',
        at: '6 =5',
        says: 'Bar 2 is 2 slots short, as before the pickup, but its repeat goes back to a later bar: that time is lost.',
        help: 'Fill the bar with the notes that lead back, or with a rest. To play the pickup again, move |: to the beginning.',
      },
      {
        code: 'repeat-loses-pickup',
        at: '4 =5',
        says: 'Bar 3 is 2 slots short, as before the pickup, but its repeat goes back to a later bar: that time is lost.',
        help: 'Fill the bar with the notes that lead back, or with a rest.',
      },
    ],
  ],
  [
    `|: ${EIGHT} |\ntempo: to 60\n${EIGHT} :|`,
    [
      {
        code: 'tempo-again',
        at: 'tempo',
        says: 'This gradual tempo starts again each time through the repeat, from the tempo before it.',
        help: 'For the last time alone write it in the last ending. If it is for each time, say where it begins: tempo: 100 to 60',
      },
    ],
  ],
  [
    '|: 4 =7 :|x3 |: 4 =7 |1 5 =7 :|2 6 =7 |]\nwords: a b c\nwords: d e * f\nwords: g h\nwords: i j',
    [
      { code: 'words-too-few', at: ' a b c', says: '', help: '' },
      { code: 'words-too-few', at: ' g h', says: '', help: '' },
      { code: 'words-too-few', at: ' i j', says: '', help: '' },
      {
        code: 'verse-unsung',
        at: ' i j',
        says: 'Verse 4 is not sung: the repeat above it is played 3 times.',
        help: 'To play the repeat 4 times write :|x4',
      },
    ],
  ],
  [
    '|: 4 =7 |1 5 =7 :|2 6 =7 |]\nwords: a b *\nwords: c * d\nwords: e * *',
    [
      {
        code: 'verse-unsung',
        at: ' e * *',
        says: 'Verse 3 is not sung: the repeat above it is played twice.',
        help: 'For another time add its number to an ending, as in |1,2 … :|3',
      },
    ],
  ],
  [
    'phrase s: (1 4) = = =\n<s> 4 =3 | @tongue <s> <s>[lips accent] |]',
    [
      {
        code: 'split-with-lips',
        at: '<s>',
        says: 'What is quoted has (1 4), and here it is played with the lips, which cannot silence holes 2 and 3: a split needs the tongue.',
        help: 'Write <s>[tongue] or switch with @tongue before it.',
      },
      {
        code: 'split-with-lips',
        at: '<s>',
        says: 'What is quoted has (1 4), and here it is played with the lips, which cannot silence holes 2 and 3: a split needs the tongue.',
        help: 'Write <s>[tongue accent] or switch with @tongue before it.',
      },
    ],
  ],
  ['phrase s: (1 4)[lips] = = =\n@tongue <s> 4 =3 |]', [{ code: 'split-with-lips', at: '(1 4)', says: '', help: '' }]],
  [
    'phrase s: 4[slap] = = =\n<s> 4 =3 | @tongue <s> 4 =3 |]',
    [
      {
        code: 'tongue-mark-with-lips',
        at: '<s>',
        says: 'A slap is made with the tongue on the comb, and this quotation is played with the lips.',
        help: 'Write <s>[tongue] or switch with @tongue before it.',
      },
    ],
  ],
  [
    `position: 2\nphrase x: -2' -5 -2' =\nphrase y: -2 4 5 =\n"I7" <x> <x to "IVmaj7"> | "I7" <y> <y to "IVmaj7"> |]`,
    [
      {
        code: 'moved-jumps',
        at: '<x to "IVmaj7">',
        says: 'Moved to IVmaj7, “x” jumps by an octave or more from -3 to -7, and the phrase as it is written does not.',
        help: 'Listen whether it sounds as you mean it. If not, write the notes out.',
      },
    ],
  ],
  [
    '-4[shake 8] =7',
    [
      {
        code: 'shake-impossible',
        at: 'shake',
        says: 'Hole 4 cannot shake with 8: they are further apart than the head moves in a shake.',
      },
    ],
  ],
];

describe('what is reported of a block', () => {
  test.each(CASES.map(([text, expected]) => ({ text, expected })))('$expected.0.code: $text', ({ text, expected }) => {
    const said = reported(text, among);
    expect(said.map(({ code }) => code)).toEqual(expected.map(({ code }) => code));
    expected.forEach((one, index) => {
      if (one.says !== '') expect(said[index]).toEqual(one);
      else expect(said[index]?.at).toBe(one.at);
    });
  });

  test('a block as long as a book is refused without being read', () => {
    const text = `${'4 '.repeat(40_000)}`;
    expect(reported(text).map(({ code }) => code)).toEqual(['block-too-long']);
  });

  test('quotations of quotations that grow out of hand are refused', () => {
    const phrases = Array.from({ length: 20 }, (_, i) => `phrase p${i + 1}: <p${i}> <p${i}>`).join('\n');
    expect(reported(`phrase p0: 4\n${phrases}\n<p20>`).map(({ code }) => code)).toEqual(['block-too-long']);
  });

  test('every code of the catalogue is met here', () => {
    const met = new Set([...CASES.flatMap(([, expected]) => expected.map(({ code }) => code)), 'block-too-long']);
    expect([...met].sort()).toEqual(Object.keys(NOTATION_PROBLEMS).sort());
  });

  test.each([
    ['|segno', '', '|to-coda', '', '|D.S.,coda'],
    ['|', '|segno', '', '|to-coda', '|D.S.,coda'],
    ['|', '', '|fine', '', '|D.C.'],
    ['|: ', ':|', '|segno', '|fine', '|D.S.'],
  ])('the chords named for a jump over a form are right: %s %s %s %s %s', (one, two, three, four, five) => {
    const music = `${one} ${EIGHT} ${two || '|'} ${EIGHT} ${three || '|'} ${EIGHT} ${four || '|'} ${EIGHT} ${five}`;
    const end = five.includes('coda') ? ` ${EIGHT} |]` : '';
    const bars = one === '|: ' ? 'IV7 | IV7 | I7 | V7 IV7 | bVI7' : 'IV7 | V7 IV7 | I7 | bVI7';
    const [first] = reported(`chords: ${bars}\n${music}${end}`);
    expect(first?.code).toBe('jump-against-form');
    const chords = /chords: (.*)$/.exec(first?.help ?? '')?.[1];
    expect(reported(`chords: ${chords}\n${music}${end}`)).toEqual([]);
  });

  test.each([
    `${EIGHT} |\nmeter: 3/4\n<riffs/waltz> |\nmeter: 4/4\n${EIGHT}`,
    `1 =5 <riffs/upbeat> 1 1 | ${EIGHT}`,
    `pickup: 2\n<riffs/upbeat> 1 1 | ${EIGHT}`,
  ])('what is said of a quoted block helps: %s', (text) => {
    expect(reported(text, among)).toEqual([]);
  });

  test.each([
    // The pickup is played again.
    'pickup: 2\n4 5 | 4 =7 | 6 =5 :| 4 =7 | 4 =5',
    'pickup: 2\n|: 4 5 | 4 =7 | 6 =5 :| 4 =7 | 4 =5',
    'pickup: 2\n4 5 | 4 =7 |1 6 =5 :|2 4 =7 | 4 =5',
    // The bar is full.
    'pickup: 2\n4 5 |: 4 =7 | 6 =5 4 5 :| 4 =7 | 4 =5',
    // The tempo is that of the last time, or begins where it says.
    '|: 4 =7 |1 4 =7 :|2\ntempo: to 60\n4 =7 | 5 =7 |]',
    '|: 4 =7 :|\ntempo: to 60\n4 =7 | 5 =7 |]',
    '|: 4 =7 |\ntempo: 80 to 60\n4 =7 :|',
    '|:\ntempo: 80\n4 =7 |\ntempo: to 60\n4 =7 :|',
    '4 =7 |\ntempo: to 60\n4 =7 |D.C.',
    // Stanzas of a tune, and of a repeat that does not say how often it is played.
    '4 =7 |]\nwords: a\nwords: b\nwords: c',
    '|: 4 =7 :|\nwords: a\nwords: b\nwords: c',
    // Verse 3 is sung behind the repeat.
    '|: 4 =7 :|x3 4 =7 |]\nwords: a b\nwords: c d\nwords: e f\nwords: g h',
    '|: 4 =7 |1,2 4 =7 :|3 5 =7 |]\nwords: a b *\nwords: c d *\nwords: e * f',
  ])('how often a bar is played is no mistake: %s', (text) => {
    expect(reported(text)).toEqual([]);
  });

  test('one mistake does not hide the next', () => {
    expect(reported("-2 x 4 y | -2''' z =6").map(({ at }) => at)).toEqual(['x', 'y', "-2'''", 'z']);
  });
});
