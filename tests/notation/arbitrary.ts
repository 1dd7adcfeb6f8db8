/** Blocks written at random: every feature of the notation, each text valid, formatted as carelessly as people do. */
import fc from 'fast-check';
import { bendsOfHole, deepestQuarterStep } from '../../src/instrument/bend.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { MARK_NAMES, rowOf, takesHole, takesNote } from '../../src/score/mark.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { randomChanges } from './arbitrary-changes.ts';
import { attacksIn, linesUnder, under } from './under.ts';

export const KEYS = [
  'C',
  'Db',
  'D',
  'Eb',
  'E',
  'F',
  'F#',
  'G',
  'Ab',
  'A',
  'Bb',
  'B',
  'low F',
  'low C',
  'high G',
] as const;
export const harpText = fc.constantFrom(...KEYS);
const C_HARP = present(readHarp('C', RICHTER), 'the harp');

/** One playable note, as text; any harp of the tuning plays it. */
const note = fc.integer({ min: 1, max: 10 }).chain((hole) => {
  const range = bendsOfHole(C_HARP, hole);
  const bends = Array.from(
    { length: range.deepest },
    (_, i) => `${range.bends === 'draw' ? '-' : ''}${hole}${"'".repeat(i + 1)}`,
  );
  const quarters = Array.from(
    { length: Math.ceil(deepestQuarterStep(range)) },
    (_, i) => `${range.bends === 'draw' ? '-' : ''}${hole}${"'".repeat(i)}q`,
  );
  const overbend = range.overbends ? [`${range.overbends === 'draw' ? '-' : ''}${hole}o`] : [];
  return fc.constantFrom(`${hole}`, `+${hole}`, `-${hole}`, ...bends, ...quarters, ...overbend);
});

const chordOfHoles = fc
  .tuple(fc.boolean(), fc.integer({ min: 1, max: 8 }), fc.integer({ min: 2, max: 3 }))
  .map(
    ([draw, low, count]) =>
      `${draw ? '-' : ''}(${Array.from({ length: Math.min(count, 11 - low) }, (_, i) => low + i).join(' ')})`,
  );

const split = fc
  .tuple(fc.boolean(), fc.integer({ min: 1, max: 7 }))
  .map(([draw, low]) => `${draw ? '-' : ''}(${low} ${low + 3})[tongue]`);

/** Marks that every note takes, with the lips or the tongue. */
export const FREE_MARKS = MARK_NAMES.filter((name) => !takesHole(name) && !takesNote(name) && !rowOf(name).needsTongue);

const marked = fc
  .tuple(note, fc.subarray(FREE_MARKS, { minLength: 1, maxLength: 2 }))
  .map(([text, marks]) => `${text}[${marks.join(', ')}]`);

const shaken = fc.integer({ min: 2, max: 8 }).map((hole) => `-${hole}[shake ${hole + 1}]`);
const graced = fc.tuple(note, note).map(([text, small]) => `${text}[grace ${small}]`);
const slapped = fc.integer({ min: 3, max: 9 }).map((hole) => `${hole}[tongue slap]`);

export const sound = fc.oneof(
  { weight: 8, arbitrary: note },
  { weight: 1, arbitrary: chordOfHoles },
  { weight: 1, arbitrary: split },
  { weight: 1, arbitrary: marked },
  { weight: 1, arbitrary: shaken },
  { weight: 1, arbitrary: graced },
  { weight: 1, arbitrary: slapped },
);

const CHORDS = [
  'I7',
  'IV7',
  'V7',
  'ii7',
  'bVI7',
  'vi',
  'A7',
  'Bbm7',
  'F#7',
  'Cmaj7',
  'viio7',
  'V7/V',
  'viidim7/ii',
  'V7/bVI',
  'N.C.',
  'C/E',
  'Am7/G',
  'D6/9/F#',
];

/** What is in a group behind its first sound; a hold never follows a rest. */
const groupInside = fc
  .array(fc.oneof({ weight: 4, arbitrary: sound }, fc.constantFrom('=', '.')), { minLength: 2, maxLength: 5 })
  .map((words) =>
    words.map((word, i) => (word === '=' && words.slice(0, i).findLast((w) => w !== '=') === '.' ? '.' : word)),
  );

/** What fills `slots` slots of a bar, as words. */
const filling = (slots: number): fc.Arbitrary<string[]> =>
  fc
    .array(
      fc.record({
        size: fc.integer({ min: 1, max: 5 }),
        kind: fc.constantFrom('note', 'note', 'note', 'rest', 'group', 'hold', 'glide', 'mouth', 'chord'),
        sound,
        inside: groupInside,

        chord: fc.constantFrom(...CHORDS),
        mouth: fc.constantFrom('@lips', '@tongue'),
      }),
      { minLength: slots, maxLength: slots },
    )
    .map((choices) => {
      const words: string[] = [];
      let left = slots;
      for (const { size, kind, sound: text, inside, chord, mouth } of choices) {
        if (left === 0) break;
        const take = Math.min(left, size);
        if (kind === 'chord') words.push(`"${chord}"`);
        if (kind === 'mouth') words.push(mouth, `${text}`);
        else if (kind === 'rest') words.push(take === 1 ? '.' : `.${take}`);
        else if (kind === 'group')
          words.push(`{${[text, ...inside].join(' ')}}${Math.min(take, 2) === 1 ? '' : Math.min(take, 2)}`);
        else if (kind === 'glide' && take > 1) words.push("-3'>", '-3');
        else if (kind === 'hold' && sounding(words)) {
          words.push(take === 1 ? '=' : `=${take}`);
        } else words.push(text, ...(take > 1 ? [take === 2 ? '=' : `=${take - 1}`] : []));
        left -= kind === 'group' ? Math.min(take, 2) : kind === 'glide' && take > 1 ? 2 : kind === 'mouth' ? 1 : take;
      }
      if (left > 0) words.push(`.${left}`);
      return words;
    });

/** Whether a hold may follow: what is before, holds apart, is a sound. */
const sounding = (words: readonly string[]): boolean => {
  const before = words.findLast((word) => !/^[="]/.test(word));
  return before !== undefined && !/^\.|^@/.test(before) && !/\.[ =]*\}\d*$/.test(before);
};

const METERS = [
  { meter: '4/4', slots: { '1/8': 8, '1/16': 16, '1/4': 4 } },
  { meter: '3/4', slots: { '1/8': 6, '1/4': 3 } },
  { meter: '12/8', slots: { '1/8': 12, '3/8': 4 } },
  { meter: '6/8', slots: { '1/8': 6 } },
] as const;

const lineBreak = fc.constantFrom(' ', ' ', '\n', '   ', ' # a remark\n', '\r\n');

/** How the bars of a block hang together. */
const structure = fc.constantFrom('plain', 'repeated', 'endings', 'jumps', 'parts', 'phrases', 'form');
type Structure = 'plain' | 'repeated' | 'endings' | 'jumps' | 'parts' | 'phrases' | 'form';

/** Whole forms to fill, by their bars. */
const FILLED = { 'twelve-bar': 12, 'eight-bar-halves': 8, 'minor-twelve-bar bars 9-12': 4 } as const;

/** A block with the same settings in all bars. */
const evenBlock: fc.Arbitrary<string> = fc
  .record({
    meter: fc.constantFrom(...METERS),
    pick: fc.nat(2),
    count: fc.integer({ min: 1, max: 9 }),
    pickup: fc.boolean(),
    structure,
    form: fc.constantFrom(...(Object.keys(FILLED) as (keyof typeof FILLED)[])),
  })
  .chain(({ meter, pick, count, pickup, structure: shape, form }) => {
    const entries = Object.entries(meter.slots);
    const [slot, slots] = itemAt(entries, pick % entries.length);
    const bars =
      shape === 'form' ? FILLED[form] : shape === 'endings' || shape === 'jumps' ? Math.max(4, count) : count;
    const each = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
      fc.array(arbitrary, { minLength: bars, maxLength: bars });
    return fc
      .record({
        harp: harpText,
        position: fc.integer({ min: 1, max: 12 }),
        feel: fc.constantFrom('straight', 'shuffle', '60:40'),
        tempo: fc.constantFrom('60', '92', '132.5'),
        mouth: fc.constantFrom('lips', 'tongue', undefined),
        formerly: fc.constantFrom(undefined, undefined, 'lick', 'lick, turn-2'),
        key: fc.constantFrom(undefined, undefined, 'major', 'minor', 'dorian', 'lydian'),
        music: each(filling(slots)),
        harmony: fc.constantFrom('none', 'vamp', 'mixed'),
        breaks: each(lineBreak),
        ties: each(fc.boolean()),
        below: fc.oneof(fc.constant(undefined), under),
        again: fc.constantFrom(':|', ':|', ':|x3'),
        /** Whether phrases are played twice. */
        layers: fc.boolean(),
        onPhrases: fc.constantFrom('', '', '[accent]', '[fall staccato]', '[tongue]'),
        close: fc.constantFrom('', '|]', '||'),
      })
      .map((block) => {
        const pickupSlots = pickup && slots > 1 ? 1 : 0;
        const music = tied(block.music, shape === 'plain' ? block.ties : []);
        const own = block.layers ? music.slice(0, Math.ceil(music.length / 2)) : music;
        const phrases = shape === 'phrases' ? own.map((words, i) => `phrase p${i}: ${words.join(' ')}`) : [];
        const written =
          shape === 'phrases'
            ? music.map((_, i) => `<p${i % own.length}>${block.onPhrases}`)
            : music.map((words) => words.join(' '));
        const lines =
          (pickupSlots ? '-4 | ' : '') +
          joined(written, shape, block.breaks) +
          ` ${shape === 'repeated' ? block.again : shape === 'jumps' && bars % 2 === 0 ? jumpAtEnd(bars) : block.close}`;
        // A test may take the pickup away.
        const inLine = shape === 'phrases' ? 0 : attacksIn(lines.split(/\r?\n/).at(-1) ?? '');
        const notes = inLine - pickupSlots;
        // In an ending two verses may have one time, so the later ones are before it.
        const later = shape === 'endings' ? attacksIn(written[0] ?? '') : notes;
        return [
          ...(block.formerly ? [`formerly: ${block.formerly}`] : []),
          `harp: ${block.harp}`,
          `position: ${block.position}`,
          `meter: ${meter.meter}`,
          `slot: ${slot}`,
          `feel: ${block.feel}`,
          `tempo: ${block.tempo}`,
          ...(block.mouth ? [`mouth: ${block.mouth}`] : []),
          ...(block.key ? [`key: ${block.key}`] : []),
          ...(pickupSlots ? [`pickup: ${pickupSlots}`] : []),
          ...progression(shape, block.harmony, form, bars),
          '',
          ...phrases,
          lines,
          ...(block.below && notes > 0 ? linesUnder(block.below, notes, later) : []),
          '',
        ].join('\n');
      });
  });

/** A bar that begins with an attack, and bars that play it again. */
export const againText = fc
  .record({
    bar: filling(8),
    again: fc.array(fc.constantFrom('%', '%', '"IV7" %', '"V7/V" %', '4 =7', '.x2', '"I7" .x5'), {
      minLength: 1,
      maxLength: 5,
    }),
    head: fc.constantFrom('', 'chords: I7 | V7 IV7 | I7 | I7\n', '"I7" ', '"I7" 4 = "V7" 5 =5 | '),
  })
  .map(({ bar, again, head }) => {
    // Behind a rest of several bars there is nothing to play again.
    const music = again.map((one, index) => (one.endsWith('%') && again[index - 1]?.includes('.x') ? '5 =7' : one));
    const bars = [bar.join(' '), ...music, '4 =7'];
    const length = bars.reduce((sum, one) => sum + Number(/\.x(\d)/.exec(one)?.[1] ?? 1), 0);
    for (let left = length; head.startsWith('chords') && left % 4 > 0; left++) bars.push('%');
    return `${head}${bars.join(' | ')} |]\n`;
  });

/** The jump at the end of an even number of bars: see {@link joined}. */
const jumpAtEnd = (bars: number): string => (bars % 4 === 0 ? '|]D.S.' : '|D.C.');

/** A block whose settings change, perhaps within a repeat with endings. */
const changingBlock: fc.Arbitrary<string> = fc
  .record({ harp: harpText, bars: fc.integer({ min: 4, max: 7 }), endings: fc.boolean() })
  .chain(({ harp, bars, endings }) =>
    randomChanges(bars).chain((changes) =>
      fc.tuple(...changes.map(({ slots }) => filling(slots))).map((music) => {
        const lineBehind = (index: number): string => {
          if (index === bars - 1) return '|]';
          // An ending continues from the bar before the first one, so both are in the meter that is written there.
          return endings && index === 1 ? ':|' : '|';
        };
        const [first] = changes;
        return [
          `harp: ${harp}`,
          `meter: ${first?.meter}`,
          `slot: ${first?.slot}`,
          '',
          ...music.flatMap((words, index) => [
            ...itemAt(changes, index).lines,
            `${words.join(' ')} ${lineBehind(index)}`,
          ]),
          '',
        ].join('\n');
      }),
    ),
  );

/** A whole valid block. */
export const blockText: fc.Arbitrary<string> = fc.oneof(
  { weight: 7, arbitrary: evenBlock },
  { weight: 1, arbitrary: changingBlock },
);

/** Lets some bars begin by holding the last note of the bar before. */
const tied = (music: readonly (readonly string[])[], ties: readonly boolean[]): string[][] =>
  music.map((words, i) => {
    const before = music[i - 1];
    const [first, ...rest] = words;
    const holds = ties[i] && before && sounding(before) && first !== undefined && /^[-+]?\d+['o]*$/.test(first);
    return holds ? ['=', ...rest] : [...words];
  });

function progression(shape: Structure, harmony: string, form: string, bars: number): string[] {
  if (shape === 'form') return [`form: ${form}`];
  if (harmony === 'vamp') return ['chords: I7'];
  if (harmony === 'none' || ['repeated', 'endings', 'jumps'].includes(shape)) return [];
  const list = Array.from({ length: bars }, (_, i) =>
    i % 3 === 2 ? 'V7 IV7' : i % 4 === 3 ? 'N.C. IV7' : i % 2 ? 'IV7' : 'i7',
  );
  return [`chords: ${list.join(' | ')}`];
}

function joined(bars: readonly string[], shape: Structure, breaks: readonly string[]): string {
  if (shape === 'endings') {
    const [head, one, two, ...rest] = bars;
    // An ending may be for several times.
    const [first, second] = rest.length % 2 === 0 ? ['1', '2'] : ['1,2', '3'];
    return `|: ${head} |${first} ${one} :|${second} ${two} || ${rest.join(' | ')}`;
  }
  if (shape === 'jumps') {
    const [head, one, two, ...rest] = bars;
    if (bars.length % 2 === 0)
      return `${bars.length % 4 === 0 ? '|segno ' : ''}${head} |fine |: ${one} :|x3 ${[two, ...rest].join(' | ')}`;
    return `${head} |segno ${one} |to-coda ${two} |d.s.,coda ${rest.join(' | ')}`;
  }
  if (shape === 'parts') {
    const above = (i: number): string =>
      (i % 3 === 0 ? `\npart: P${i}\n` : '') + (i % 4 === 0 ? `\ntext: softly # ${i}\n` : '');
    return bars.map((bar, i) => `${above(i)}${bar} |`).join('\n');
  }
  return bars.map((bar, i) => bar + (i < bars.length - 1 ? ` |${breaks[i]}` : '')).join('');
}
