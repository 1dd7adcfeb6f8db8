/**
 * Blocks for the fuzzer: valid ones of every feature, loose ones that follow the grammar and not the harp, spoiled ones,
 * rubbish, and now and then one piece repeated to the length of the longest block.
 */
import fc from 'fast-check';
import { FORMS } from '../../../src/harmony/form.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { HEADER_KEYS, LONGEST_BLOCK } from '../../../src/notation/parse.ts';
import { MARK_NAMES } from '../../../src/score/mark.ts';
import { blockText, FREE_MARKS, KEYS, sound } from '../../notation/arbitrary.ts';
import { mutated } from '../mutated.ts';

const hole = fc.oneof({ weight: 9, arbitrary: fc.integer({ min: 1, max: 10 }) }, fc.constantFrom(0, 11, 12, 13, 999));
const signs = fc.constantFrom(
  '',
  '',
  '',
  "'",
  "''",
  "'''",
  "''''",
  'q',
  "'q",
  "''q",
  "q'",
  'qq',
  'oq',
  'o',
  "o'",
  '*',
  "*'",
  '’',
  '″',
  '′',
);
const sign = fc.constantFrom('', '', '-', '-', '+', '–', '−');
const mark = fc.oneof(
  fc.constantFrom('tongue', 'lips', 'shake 5', 'shake 99', 'shake', 'fermata', 'grace -3', "grace 4'", ...MARK_NAMES),
  fc.constantFrom('slpa', '', 'shake -5', 'accent accent', '5'),
);
const marks = fc.oneof(
  { weight: 6, arbitrary: fc.constant('') },
  fc
    .array(mark, { minLength: 1, maxLength: 3 })
    .chain((words) => fc.constantFrom(' ', ', ', ',').map((between) => `[${words.join(between)}]`)),
);
const glide = fc.constantFrom('', '', '', '', '>');
const holes = fc.oneof(
  { weight: 6, arbitrary: fc.tuple(hole, signs).map(([number, bend]) => `${number}${bend}`) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.array(hole, { minLength: 1, maxLength: 4 }), signs)
      .map(([all, bend]) => `(${all.join(' ')}${bend})`),
  },
);
/** A note that follows the grammar, whether or not a harp has it. */
const looseNote = fc.tuple(sign, holes, marks, glide).map((parts) => parts.join(''));
/** Neighbouring holes on one breath, or the same with the tongue between them, with marks that every note takes. */
const markedChord = fc
  .record({
    draw: fc.boolean(),
    low: fc.integer({ min: 1, max: 7 }),
    inside: fc.constantFrom([0, 1], [0, 1, 2], [0, 1, 2, 3], [0, 2], [0, 3]),
    words: fc.subarray([...FREE_MARKS, 'flutter'], { maxLength: 3 }),
  })
  .map(({ draw, low, inside, words }) => {
    const holes = inside.map((step) => low + step);
    const tongue = inside.length < Math.max(...inside) + 1 || words.includes('flutter') ? ['tongue'] : [];
    const marks = [...tongue, ...words];
    return `${draw ? '-' : ''}(${holes.join(' ')})${marks.length > 0 ? `[${marks.join(' ')}]` : ''}`;
  });
const note = fc.oneof(
  { weight: 6, arbitrary: sound },
  { weight: 1, arbitrary: markedChord },
  { weight: 3, arbitrary: looseNote },
);

const CHORDS = [
  'I7', 'IV7', 'V7', 'ii7', 'bVI7', '#IVdim7', 'vi', 'viio7', 'i(maj7)', 'A7', 'Bbm7', 'F#7', 'Cmaj7', 'E#m7b5', 'Cb6/9',
  'G13#11', 'F7(b9,#11)', 'Dø', 'C°', 'B+', 'IΔ', 'H7', 'I', 'bbVII', '', 'A/C#', 'N.C.', 'V7/V', 'vii°7/ii', '#IV7b9/#vi', 'V7/X', 'V7/V7', 'I/E', 'Bb/D', 'F#m7b5/A', 'Cb6/9/Gb', 'D7/D', 'C/H', 'NC', 'n.c.',
] as const; // biome-ignore format: a list to read across
const chord = fc.constantFrom(...CHORDS).map((text) => `"${text}"`);
const progression = fc
  .array(fc.array(fc.constantFrom(...CHORDS, '='), { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 12 })
  .map((bars) => bars.map((bar) => bar.join(' ')).join(' | '));

const name = fc.constantFrom('a', 'b', 'lick', 'a-1');
const quotation = fc.constantFrom(
  '<a to "IV7">', '<b to "V7">[accent]', '<lick to "i">', '<lick to "H">', '<a>[slap]', '<b>[tongue]', '<:one>', '<one:a>', '<:none>',
  '<other/two to "vi">', '<other/one:a to "bVII7">', '<a to>', '<a to IV7>', '<a>[', '<a>', '<b>', '<lick>', '<other/one>', '<other/two>', '<other/one:a>', '<other/two:b>', '<other/none>', '<no/one>', '<a/b/c:d>', '<>', '<other/two:lick>',
); // biome-ignore format: a list to read across

const group = fc
  .tuple(
    fc.array(fc.oneof({ weight: 5, arbitrary: note }, fc.constantFrom('=', '.', '=2', '"IV7"', '@tongue', '{', '|')), {
      minLength: 0,
      maxLength: 6,
    }),
    fc.constantFrom('', '', '2', '3', '0', '17'),
  )
  .map(([inside, count]) => `{${inside.join(' ')}}${count}`);

interface Word {
  readonly text: string;
  readonly slots: number;
}
const plain = (text: string): Word => ({ text, slots: 1 });
const counted = fc
  .tuple(fc.constantFrom('=', '.'), fc.integer({ min: 1, max: 9 }))
  .map(([what, slots]): Word => ({ text: slots === 1 ? what : `${what}${slots}`, slots }));
const word: fc.Arbitrary<Word> = fc.oneof(
  { weight: 12, arbitrary: note.map(plain) },
  { weight: 4, arbitrary: counted },
  { weight: 2, arbitrary: group.map((text) => ({ text, slots: Number(/\d+$/.exec(text)?.[0] ?? 1) })) },
  { weight: 2, arbitrary: chord.map((text) => ({ text, slots: 0 })) },
  { weight: 1, arbitrary: quotation.map(plain) },
  { weight: 1, arbitrary: fc.constantFrom('@lips', '@tongue', '@tounge').map((text) => ({ text, slots: 0 })) },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom(
        '\npart: Head\n',
        '\npart:\n',
        '\ntext: like a train, far away and coming nearer from behind the hills\n',
        '\ntext:\n',
        '\nwords: one two-three _ * four\n',
        '\nwords:\n',
        '\nwords: one two\nwords 3: three _\nsyllables: ta ka-doo\n',
        '\nmeter: 3/4\n',
        '\nmeter: 6/8\nslot: 1/8\n',
        '\ntempo: 100\n',
        '\ntempo: to 60\n',
        '\ntempo: 400 to 20\n',
        '\nfeel: shuffle\n',
        '\nposition: 3\n',
        '\nkey: dorian\n',
        '\nslot: 1/16\n',
        ' # remark\n',
        '\r\n',
        '\n# x\n',
      )
      .map((text) => ({ text, slots: 0 })),
  },
);

const barLine = fc.constantFrom(
  '|',
  '|',
  '|',
  '|',
  '|',
  '|:',
  ':|x3 ',
  '|segno ',
  '|fine ',
  '|to-coda ',
  ':|D.C. ',
  '|ds,coda ',
  '|]dc,x ',
  ':|x1 ',
  '|1,2',
  ':|3',
  '|1,3',
  ':|2,4',
  ':|',
  ':|:',
  '||',
  '|]',
  '|1',
  '|2',
  ':|2',
  '|3',
  '| 1',
  '│',
);

/** Words in bars of a length: a bar is filled with a rest where the next word has no room. */
function inBars(words: readonly Word[], lines: readonly string[], full: number): string {
  const out: string[] = [];
  let left = full;
  let line = 0;
  const close = (): void => {
    if (left > 0 && left < full) out.push(left === 1 ? '.' : `.${left}`);
    out.push(lines[line++ % lines.length] ?? '|');
    left = full;
  };
  for (const { text, slots } of words) {
    if (slots > left) close();
    out.push(text);
    left -= slots;
    if (left <= 0) close();
  }
  if (left < full) close();
  return out.join(' ');
}

const value = {
  harp: fc.constantFrom(...KEYS, 'H', 'low', 'A minor', 'high high G'),
  tuning: fc.constantFrom(...TUNINGS.map(({ id }) => id), 'rihcter'),
  position: fc.oneof(fc.integer({ min: 1, max: 12 }).map(String), fc.constantFrom('0', '13', 'second', '2.5')),
  key: fc.constantFrom(
    'major',
    'minor',
    'dorian',
    'lydian',
    'locrian',
    'C major',
    'Eb minor',
    'Am',
    'H minor',
    'major C',
  ),
  meter: fc.constantFrom('4/4', '3/4', '2/4', '5/4', '6/8', '9/8', '12/8', '7/8', '2/2', '0/4', '4/3', 'common'),
  tempo: fc.constantFrom('20', '400', '80', '132.5', '19.9', '401', '1e2', '1e999', '-80', 'fast'),
  feel: fc.constantFrom('straight', 'shuffle', '60:40', '50:50', '0:100', '99:1', 'swing', '1e400:1'),
  slot: fc.constantFrom('1/4', '1/8', '1/16', '1/32', '3/8', '3/16', '1/3', '1/0', '1/2', '1/1', '7/8'),
  form: fc
    .tuple(
      fc.constantFrom(...FORMS.map(({ id }) => id), 'none', 'twelf-bar'),
      fc.constantFrom('', '', ' bars 1-4', ' bars 9-12', ' bars 4-1', ' bars 0-99'),
    )
    .map((parts) => parts.join('')),
  chords: progression,
  pickup: fc.constantFrom('1', '2', '3', '0', '99', '1.5', '-1'),
  mouth: fc.constantFrom('lips', 'tongue', 'nose'),
  formerly: fc.constantFrom('lick', 'lick, riff-2', 'riff', 'Riff', ',', ''),
  id: fc.constantFrom('riff', '0', 'Riff', 'a b', '__proto__', 'constructor'),
  title: fc.oneof(fc.constantFrom('A title', '“Quoted” # no remark', ''), fc.string({ unit: 'binary', maxLength: 12 })),
} satisfies Record<(typeof HEADER_KEYS)[number], fc.Arbitrary<string>>;

const headerLine = fc.constantFrom(...HEADER_KEYS).chain((key) => value[key].map((text) => `${key}: ${text}`));
const header = fc.oneof(
  {
    weight: 3,
    arbitrary: fc
      .array(headerLine, { maxLength: 6 })
      .map((lines) => [...new Map(lines.map((line) => [line.split(':')[0], line])).values()]),
  },
  { weight: 1, arbitrary: fc.array(headerLine, { maxLength: 8 }) },
);

/** A block of the grammar: its bars are full for meters of four quarters and its notes may be missing on its harp. */
export const looseBlock = fc
  .record({
    header,
    phrases: fc.array(fc.tuple(name, fc.array(word, { minLength: 0, maxLength: 5 })), { maxLength: 2 }),
    words: fc.array(word, { minLength: 1, maxLength: 30 }),
    lines: fc.array(barLine, { minLength: 1, maxLength: 6 }),
    full: fc.constantFrom(8, 4, 16, 3, 6, 12),
    end: fc.constantFrom('', '\n', ' |]', '\nwords: a b-c _ d', '\nsyllables: ta *\nwords: a b-c _ d\nwords: e f'),
  })
  .map(({ header, phrases, words, lines, full, end }) =>
    [
      ...header,
      '',
      ...phrases.map(([label, inside]) => `phrase ${label}: ${inside.map(({ text }) => text).join(' ')}`),
      inBars(words, lines, full) + end,
    ].join('\n'),
  );

const PIECES = [
  ...`|:'"{}()[]<>@=.#-+>*o0123456789\n\r\t `, '|:', ':|', '|1', '|2', '|segno', '|fine', 'D.C.', ' % ', '| % |', '.x4', '| .x2 |', ',coda', '|to-coda', '||', '|]', '{4 ', '}2', '(1 ', '4[', 'shake 5]', '"I7"', '"F#',
  '@tongue', 'part: ', 'phrase a: ', 'words: ', 'words 2: ', 'syllables: ', '<a>', '<other/one', ':a>', '=9', '.999', '-3\'\'\'', '6o', '4*', '[grace -3]', '\nmeter: 3/4\n', '\ntempo: to 60\n', '\nposition: 3\n', '\nslot: 1/4\n', ' # ', '\r\n', '\u2028', '\u0000', '’', '“', '—', '\ufeff', '🎵', '\ud800', 'e\u0301', 'harp: ', 'slot: 1/16\n', 'meter: 7/8\n', '__proto__',
]; // biome-ignore format: a list to read across
const piece = fc.constantFrom(...PIECES);

const soup = fc
  .array(fc.oneof({ weight: 3, arbitrary: piece }, { weight: 2, arbitrary: word.map(({ text }) => text) }), {
    maxLength: 60,
  })
  .chain((all) => fc.constantFrom('', ' ').map((between) => all.join(between)));
const rubbish = fc.oneof(soup, fc.string({ unit: 'binary', maxLength: 300 }));

/** One piece again and again: what is not linear shows. */
const long = fc
  .tuple(
    fc.array(
      fc.oneof(
        piece,
        word.map(({ text }) => `${text} `),
      ),
      { minLength: 1, maxLength: 3 },
    ),
    fc.integer({ min: 1000, max: LONGEST_BLOCK + 10 }),
    fc.constantFrom('', '\n', '4', '"', '|]'),
  )
  .map(([pieces, length, end]) => {
    const one = pieces.join('');
    return one.repeat(Math.ceil(length / one.length)).slice(0, length) + end;
  });

const base = fc.oneof({ weight: 2, arbitrary: blockText }, { weight: 3, arbitrary: looseBlock });

/** The text of a block, of any kind. */
export const anyBlock = fc.oneof(
  { weight: 80, arbitrary: blockText },
  { weight: 100, arbitrary: looseBlock },
  { weight: 100, arbitrary: mutated(base, piece) },
  { weight: 60, arbitrary: rubbish },
  { weight: 1, arbitrary: long },
);

/** How a block is played: settings as the player's controls give them, and some that they never give. */
export const playing = fc.record({
  tempo: fc.constantFrom(20, 60, 92.5, 400),
  swing: fc.constantFrom(0.5, 0.6, 2 / 3, 0.75),
  first: fc.nat(5),
  bars: fc.nat(4),
  whole: fc.boolean(),
  loop: fc.boolean(),
  trade: fc.boolean(),
  step: fc.constantFrom(0, 4, 50),
  round: fc.nat(3),
  seed: fc.nat(1000),
});

/** What one case of the blocks is. */
export interface BlockCase {
  readonly text: string;
  /** The blocks `other/one` and `other/two`, which it can quote. */
  readonly others: readonly string[];
  /** The harp and the position it is moved to. */
  readonly harp: string;
  readonly position: number;
  readonly play: Playing;
  /** Whether it is engraved too, which takes the most time. */
  readonly engraved: boolean;
}

export interface Playing {
  readonly tempo: number;
  readonly swing: number;
  readonly first: number;
  readonly bars: number;
  readonly whole: boolean;
  readonly loop: boolean;
  readonly trade: boolean;
  readonly step: number;
  readonly round: number;
  readonly seed: number;
}

export const blockCase: fc.Arbitrary<BlockCase> = fc.record({
  text: anyBlock,
  others: fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, fc.array(base, { minLength: 1, maxLength: 2 })),
  harp: fc.constantFrom(...KEYS),
  position: fc.integer({ min: 1, max: 12 }),
  play: playing,
  engraved: fc.integer({ min: 0, max: 15 }).map((number) => number === 0),
});
