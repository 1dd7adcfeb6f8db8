/** Quotations: what comes with them, how it moves, and what is said where they lead nowhere. */
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/notation/evaluate.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { printScore } from '../../src/notation/print/print.ts';
import { MOST_EVENTS, MOST_LEVELS } from '../../src/notation/quotation/quote-chain.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';
import type { BlockTree } from '../../src/notation/tree.ts';
import { markText } from '../../src/score/mark.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import { present, valueAt } from '../../src/values/checked.ts';
import { shownBars, shownChords } from './shown.ts';

/** A lesson of blocks that may quote each other as `l/NAME`. */
function lesson(blocks: Readonly<Record<string, string>>) {
  const trees = new Map<string, BlockTree>(Object.entries(blocks).map(([id, text]) => [id, parseBlock(text)]));
  const context: ReadContext = {
    ...ALONE,
    find: (name = 'l', block) => {
      const tree = trees.get(block);
      return name !== 'l' ? { missing: 'lesson' } : tree ? { tree, context } : { missing: 'block' };
    },
    otherMeaning: (name) => (name === 'elsewhere' ? 'block:elsewhere' : undefined),
  };
  return {
    /** A block that is not of the lesson. */
    score: (text: string) => {
      const { score, diagnostics } = readBlock(text, context);
      expect(diagnostics).toEqual([]);
      return present(score, 'the score');
    },
    /** The problems of a block, each with its message. */
    problems: (text: string) => readBlock(text, context).diagnostics.map(({ code, message }) => `${code}: ${message}`),
    problemsOf: (id: string) =>
      evaluate(valueAt(trees, id), context).diagnostics.map(({ code, message }) => `${code}: ${message}`),
  };
}

describe('a quotation of a whole block', () => {
  test('goes on in the bar it is in, and divides its own bars', () => {
    const { score } = lesson({ half: 'meter: 2/4\nslot: 1/4\n4 5 | 6 7' });
    expect(shownBars(score('slot: 1/4\n8 8 <l/half> 9 9'))).toEqual([
      'E6 1/4, E6 1/4, C5 1/4, E5 1/4',
      'G5 1/4, C6 1/4, G6 1/4, G6 1/4',
    ]);
  });
  test('brings marks, embouchures, bends, holds and glides', () => {
    const { score } = lesson({ a: "slot: 1/4\n@tongue (1 4)[accent] 4[lips] -3'> -3 | = 6o .2" });
    const events = score('<l/a>').bars.flatMap((bar) => bar.events);
    expect(shownBars(score('<l/a>'))).toEqual(['C4+C5 1/4, C5 1/4, Bb4> 1/4, B4 1/4', 'B4~ 1/4, Bb5 1/4, rest 1/2']);
    expect(events.map((event) => (isSoundEvent(event) ? event.mouth : '.')).join(' ')).toBe(
      'tongue lips tongue tongue tongue tongue .',
    );
    expect(events.flatMap((event) => (isSoundEvent(event) ? event.marks : []))).toEqual([{ name: 'accent' }]);
  });
  test('leaves its parts and lyrics behind', () => {
    const { score } = lesson({ a: 'part: A\n4 =7\nwords: la\nwords: lo\nsyllables: ta' });
    const [bar] = score('<l/a>').bars;
    expect(bar?.part).toBeUndefined();
    expect(bar?.events.map((event) => isSoundEvent(event) && [event.lyrics, event.syllable])).toEqual([
      [undefined, undefined],
    ]);
  });
  test('brings the bass of its chords, also on another harp and in another position', () => {
    const { score } = lesson({ a: 'slot: 1/4\n"C/E" 4 "Am7" 4 "D/F#" 4 "V7/V" 4' });
    const chordsOn = (head: string) => shownChords(score(`${head}\nslot: 1/4\n\n<l/a>`)).join(' | ');
    expect(chordsOn('harp: C')).toBe('C/E Am7@1/4 D/F#@1/2 D7@3/4');
    expect(chordsOn('harp: A')).toBe('A/C# F#m7@1/4 B/D#@1/2 B7@3/4');
    expect(chordsOn('harp: Bb\nposition: 2')).toBe('Bb/D Gm7@1/4 C/E@1/2 C7@3/4');
  });
  test('brings that no chord sounds', () => {
    const { score } = lesson({ a: 'slot: 1/4\nphrase p: "I" 4 "N.C." 4\n"V/V" 4 "N.C." 4 <p>' });
    expect(shownChords(score('harp: D\nslot: 1/4\n<l/a>'))).toEqual(['E N.C.@1/4 D@1/2 N.C.@3/4']);
    expect(shownChords(score('harp: D\nslot: 1/4\n<l/a:p> 4 4'))).toEqual(['D N.C.@1/4']);
  });
  test('moves to a chord that counts from another step, and to one with a bass', () => {
    const { score } = lesson({ a: 'phrase p: "I" 4 5 6 .\n<p> .4' });
    expect(shownChords(score('"I" <l/a:p> <l/a:p to "V/IV">'))).toEqual(['C']);
    expect(shownChords(score('"I" <l/a:p> <l/a:p to "V7/V">'))).toEqual(['C D7@1/2']);
    expect(shownChords(score('"I" <l/a:p> <l/a:p to "G/B">'))).toEqual(['C G/B@1/2']);
  });
  test('of a phrase brings the bass of its chords', () => {
    const { score } = lesson({ a: 'slot: 1/4\nphrase p: "C/E" 4 4 "V7/ii" 4 4\n<p>' });
    expect(shownChords(score('slot: 1/4\n<l/a:p>'))).toEqual(['C/E A7@1/2']);
    expect(shownChords(score('harp: D\nslot: 1/4\n<l/a:p>'))).toEqual(['D/F# B7@1/2']);
  });
  test('leaves its chords behind where the block has a progression', () => {
    const { score } = lesson({ a: '"IV7" 4 = . "V7" .5' });
    expect(shownChords(score('<l/a>'))).toEqual(['F7 G7@3/8']);
    expect(shownChords(score('chords: I7\n<l/a>'))).toEqual(['C7']);
    expect(shownBars(score('chords: I7\n<l/a>'))).toEqual(['C5=R 1/4, rest 3/4']);
  });
});

describe('a quotation of a phrase', () => {
  const { score } = lesson({
    g: 'harp: G\nposition: 1\nslot: 1/4\nphrase turn: "IV7" 4 "D7" 4\n4 =3',
    c: 'harp: C\nposition: 2\nslot: 1/4\nphrase turn: "IV7" 4 "D7" 4\n"I7" 4 =3',
    minor: 'position: 2\nchords: i7\nslot: 1/4\nphrase turn: "bIII7" 4 4\n4 =3',
  });
  test('takes its chords along with its notes, from harp to harp and from key to key', () => {
    // In one key on one harp nothing moves, and names stay names.
    const same = score('harp: C\nposition: 2\nslot: 1/4\n<l/c:turn> 4 4');
    expect(shownChords(same)).toEqual(['C7 D7@1/4']);
    expect(same.bars[0]?.chords.map(({ chord }) => chord !== 'none' && chord.numeral)).toEqual(['IV7', undefined]);
    // G is the key on a G harp in first position and on a C harp in second: the notes move from one harp to the other.
    expect(shownChords(score('harp: C\nposition: 2\nslot: 1/4\n<l/g:turn> 4 4'))).toEqual(['F7 G7@1/4']);
    expect(shownChords(score('harp: G\nposition: 1\nslot: 1/4\n<l/c:turn> 4 4'))).toEqual(['G7 A7@1/4']);
    // On one harp in another position notes and chords stay where they are.
    expect(shownChords(score('harp: C\nposition: 1\nslot: 1/4\n<l/c:turn> 4 4'))).toEqual(['C7 D7@1/4']);
    // In one position on another harp a chord keeps its numeral.
    const moved = score('harp: A\nposition: 2\nslot: 1/4\n<l/c:turn> 4 4');
    expect(moved.bars[0]?.chords.map(({ chord }) => chord !== 'none' && chord.numeral)).toEqual(['IV7', 'V7']);
    expect(shownChords(moved)).toEqual(['A7 B7@1/4']);
  });
  test('reads its numerals in the key that its own block is in', () => {
    expect(shownChords(score('position: 1\nslot: 1/4\n<l/minor:turn> 4 4'))).toEqual(['Bb7']);
  });
  test('has the lengths of its own block, also where that says nothing of them', () => {
    const blocks = lesson({ plain: 'phrase a: 4 5\n4 =7' });
    expect(shownBars(blocks.score('slot: 1/4\n<l/plain:a> 6 6 {6 .2}'))).toEqual([
      'C5 1/8, E5 1/8, G5 1/4, G5 1/4, G5 1/12, rest 1/6',
    ]);
  });
  test('of this block keeps its name, inside a phrase of another block the name of the outer one', () => {
    const blocks = lesson({ a: 'phrase in: 4 4\nphrase out: <in> 5 5\n4 =7' });
    const quotes = (text: string) =>
      blocks
        .score(text)
        .bars.flatMap(({ events }) => events.map(({ source: { quote } }) => quote?.phrase ?? '-'))
        .join(' ');
    expect(quotes('<l/a:out> 6 6 6 6')).toBe('out out out out - - - -');
    expect(quotes('phrase in: 4 4\nphrase out: <in> 5 5\n<out> 6 6 6 6')).toBe('out out out out - - - -');
    expect(quotes('phrase own: 4 <l/a:in> 5\n<own> 6 6 6 6')).toBe('own in in own - - - -');
  });
});

describe('a quotation of the same lesson', () => {
  const { score, problems, problemsOf } = lesson({
    a: 'phrase in: 4 5\nphrase out: <b:turn> <in>\n4 5 6 7 .4',
    b: 'slot: 1/4\nphrase turn: -4 -5\n-4 -5 -6 -7',
    self: '<:self>',
  });
  test('names no lesson', () => {
    expect(shownBars(score('slot: 1/4\n<a:in> . <b:turn> | <:b>'))).toEqual([
      'C5 1/8, E5 1/8, rest 1/4, D5 1/4, F5 1/4',
      'D5 1/4, F5 1/4, A5 1/4, B5 1/4',
    ]);
  });
  test('is of the lesson of its own block, wherever that is quoted', () => {
    expect(score('<a:out> .2').bars.flatMap(({ events }) => events.map(({ source }) => source.quote))).toEqual([
      { block: 'b', phrase: 'turn' },
      { block: 'b', phrase: 'turn' },
      { block: 'a', phrase: 'out' },
      { block: 'a', phrase: 'out' },
      undefined,
    ]);
  });
  test('can be a cycle', () => {
    expect(problemsOf('self')).toEqual(['quote-cycle: This quotation is part of a cycle: :self → :self.']);
  });
  test('that is not there is looked for in the blocks of the lesson', () => {
    expect(problems('<:c>')).toEqual(['quote-unknown: There is no block “c” to quote.']);
    expect(problems('<b:trun> .8')).toEqual(['quote-unknown: There is no phrase “b:trun” to quote.']);
    const helps = (text: string) => readBlock(text, { ...ALONE, otherMeaning: () => 'b:turn' }).diagnostics[0]?.help;
    expect(helps('phrase torn: 4\n<turn> .7')).toBe('Did you mean “<b:turn>”?');
  });
});

describe('marks of a quotation', () => {
  const { score } = lesson({ a: 'phrase turn: 4[fall] -4\n4[lips] -4 @tongue (1 4) =5' });
  const shown = (text: string) =>
    score(text).bars.flatMap(({ events }) =>
      events.flatMap((event) => (isSoundEvent(event) ? [`${event.mouth} ${event.marks.map(markText).join(' ')}`] : [])),
    );
  test('are for each of its notes, besides those it has', () => {
    expect(shown('phrase own: 4 {-4[fall] 5}\n<own>[accent fall] 4 .5')).toEqual([
      'lips accent fall',
      'lips fall accent',
      'lips accent fall',
      'lips ',
    ]);
    expect(shown('<l/a:turn>[accent] .6')).toEqual(['lips fall accent', 'lips accent']);
    expect(shown('phrase in: 4 -4\nphrase out: <in>[fall] 5\n<out>[accent] .5')).toEqual([
      'lips fall accent',
      'lips fall accent',
      'lips accent',
    ]);
  });
  test('that are for all that follows are its first note’s, and a breath is after its last one', () => {
    expect(shown('phrase own: 4 5 6\n<own>[p breath fall] 4 .4')).toEqual([
      'lips p fall',
      'lips fall',
      'lips breath fall',
      'lips ',
    ]);
  });
  test('and its embouchure are for all of it, and no longer', () => {
    expect(shown('<l/a>[tongue accent] | 4 =7')).toEqual(['tongue accent', 'tongue accent', 'tongue accent', 'lips ']);
  });
});

describe('a quotation that is moved to a chord', () => {
  const blocks = lesson({
    a: 'harp: C\nposition: 2\nchords: I7\nphrase lick: -2 -3 -4 -5\nphrase four: "IV7" 4 5 6 .\n-2 =7',
    minor: 'position: 4\nchords: i\nphrase lick: 5 -5\n5 =7',
    long: 'position: 2\n"I7" -2 -3 -4 . "V7" -4 . . .',
  });
  const { score, problems } = blocks;
  const HEAD = 'position: 2\nphrase lick: -2 -3 -4 -5\n';
  test('keeps its roles, where a plain one keeps its notes', () => {
    expect(shownBars(score(`chords: I7 | IV7 | IV7\n${HEAD}<lick> .4 | <lick> .4 | <lick to "IV7"> .4`))).toEqual([
      'G4=R 1/8, B4=3 1/8, D5=5 1/8, F5=♭7 1/8, rest 1/2',
      'G4=5 1/8, B4=7 1/8, D5=2 1/8, F5=4 1/8, rest 1/2',
      'C4=R 1/8, E4=3 1/8, G4=5 1/8, Bb4=♭7 1/8, rest 1/2',
    ]);
  });
  test('takes the third and the seventh of the chord it is moved to', () => {
    const moved = (to: string) => shownBars(score(`${HEAD}"I7" <lick to "${to}"> .4`))[0];
    expect(moved('i7')).toMatch('G4=R 1/8, Bb4=♭3 1/8, D5=5 1/8, F5=♭7');
    expect(moved('IVmaj7')).toMatch('C4=R 1/8, E4=3 1/8, G4=5 1/8, B4=7');
  });
  test('brings its chord into a block without a progression', () => {
    expect(shownChords(score(`${HEAD}"I7" <lick> <lick to "IV7">`))).toEqual(['G7 C7@1/2']);
  });
  test('is written over the home chord unless it names another one', () => {
    const four = 'C4=R 1/8, E4=3 1/8, G4=5 1/8';
    expect(shownBars(score('position: 2\n<l/a:lick to "IV7"> .4'))[0]).toMatch(four);
    expect(shownBars(score('position: 2\n<l/a:four to "IV7"> .4'))[0]).toMatch('C5=R 1/8, E5=3 1/8, G5=5 1/8');
    expect(shownBars(score('position: 2\n<l/a:four to "I7"> .4'))[0]).toMatch('G4=R 1/8, B4=3 1/8, D5=5 1/8');
    // E and F over A minor: the fifth and the minor sixth.
    expect(shownBars(score('position: 4\n<l/minor:lick to "iv"> .6'))[0]).toMatch('A4=5 1/8, Bb4=♭6 1/8');
  });
  test('can be moved again', () => {
    const text = `${HEAD}phrase second: <lick to "IV7">\n"I7" <second> <second to "I7">`;
    expect(shownBars(score(text))).toEqual([
      'C4=R 1/8, E4=3 1/8, G4=5 1/8, Bb4=♭7 1/8, G4=R 1/8, B4=3 1/8, D5=5 1/8, F5=♭7 1/8',
    ]);
  });
  test('keeps rhythm, marks, splits and glides, and shakes with the hole as far away', () => {
    const text = 'position: 2\nphrase a: -(2 3) = {4 -4[fall]} -3[shake 4] -3\'> -3 .2\n<a to "IV7"> |]';
    expect(printScore(score(text)).split('\n\n')[1]).toBe('"IV7" (7 8) = {-9 9[fall]} 8[shake 9] 8\'> 8 .2 |]\n');
  });
  test('says what it is moved to where the progression has another chord', () => {
    expect(problems(`chords: I7 | V7\n${HEAD}<lick to "IV7"> .4 | <lick to "V"> .4`)).toEqual([
      'moved-elsewhere: This quotation is moved to C7, and the chord here is G7.',
    ]);
  });
  test('cannot be over two chords', () => {
    const said = (name: string) => `moved-two-chords: “${name}” is over G7 and D7, so it cannot be moved to one chord.`;
    expect(problems('position: 2\n<l/long to "IV7">')).toEqual([said('l/long')]);
    expect(problems('position: 2\nphrase two: "I7" -2 "V7" -4\n<two to "IV7"> .6')).toEqual([said('two')]);
    // It begins over the home chord.
    expect(problems('position: 2\nphrase two: -2 "V7" -4\n"I7" <two to "IV7"> .6')).toEqual([said('two')]);
  });
  test('says which note the harp does not have', () => {
    const said = (why: string) => [`moved-unplayable: “a” cannot be played over V7 on this harp: ${why}.`];
    expect(problems('position: 2\nphrase a: -(2 3 4) 4\n<a to "V7"> .6')).toEqual(
      said('-(2 3 4) becomes D4 and F#4 and A4, which no breath gives together'),
    );
    expect(problems('position: 2\nphrase a: 1 10\n<a to "V7"> .6')).toEqual(said('1 becomes G3, which no hole gives'));
    expect(problems('position: 2\nphrase a: -3\'> -3 .\n<a to "V7"> .5')).toEqual([]);
  });
  test('keeps the role of a quarter step where a hole has it, and says where none does', () => {
    const moved = (to: string) => `position: 2\nslot: 1/4\nphrase a: -3q -2 . .\n"I7" . . . . | <a to "${to}"> |]`;
    expect(printScore(score(moved('V7'))).split('\n\n')[1]).toBe(`"I7" .4 | "V7" -2'q -1 .2 |]\n`);
    expect(problems(moved('ii'))).toEqual([
      'moved-unplayable: “a” cannot be played over ii on this harp: -3q becomes a quarter step below C#5, which no hole gives.',
    ]);
  });
  test('of what is not there, or cannot be read, is reported once', () => {
    expect(problems('<none to "IV7"> .8')).toEqual(['quote-unknown: There is no phrase “none” to quote.']);
    expect(problems('position: 2\nphrase a: 4\' 4\n<a to "IV7"> .6').map((one) => one.slice(0, 8))).toEqual([
      'no-bend:',
    ]);
  });
});

describe('a quotation that leads nowhere', () => {
  const { problems, problemsOf } = lesson({
    whole: 'phrase ok: 4 5\n4 =7',
    ring: '<l/gnir>',
    gnir: '<l/ring>',
    self: '<l/self>',
    outside: '<l/ring>',
    wrong: 'phrase a: 4 x\n4 -2 -3',
    lost: '<l/none>',
    phrases: 'phrase a: <b>\nphrase b: <a>\n4 =7',
    other: 'phrase a: <l/none> 4\nphrase b: <l/wrong> 4\n4 =7',
  });
  test('says what is missing', () => {
    expect(problems('<x/whole>')).toEqual(['quote-unknown: There is no lesson “x” to quote.']);
    expect(problems('<l/none>')).toEqual(['quote-unknown: There is no block “l/none” to quote.']);
    expect(problems('<l/whole:turn>')).toEqual(['quote-unknown: There is no phrase “l/whole:turn” to quote.']);
    expect(problems('<turn>')).toEqual(['quote-unknown: There is no phrase “turn” to quote.']);
    expect(readBlock('<l/whole>').diagnostics.map(({ message }) => message)).toEqual([
      'There is no lesson “l” to quote.',
    ]);
  });
  test('is reported in every block of a cycle, with the way round it', () => {
    expect(problemsOf('self')).toEqual(['quote-cycle: This quotation is part of a cycle: l/self → l/self.']);
    expect(problemsOf('ring')).toEqual(['quote-cycle: This quotation is part of a cycle: l/ring → l/gnir → l/ring.']);
    expect(problemsOf('gnir')).toEqual(['quote-cycle: This quotation is part of a cycle: l/gnir → l/ring → l/gnir.']);
  });
  test('is broken for a block that only leads to a cycle, or to other mistakes', () => {
    const broken = (name: string) => [`quote-broken: “${name}” has problems of its own, so it cannot be quoted yet.`];
    expect(problemsOf('outside')).toEqual(broken('l/ring'));
    expect(problems('<l/wrong>')).toEqual(broken('l/wrong'));
    expect(problems('<l/lost>')).toEqual(broken('l/lost'));
    expect(problems('<l/wrong:a> 4 4')).toContain(broken('l/wrong:a')[0]);
    // A mistake before a quotation is not one in what is quoted.
    expect(problems('x <l/whole:ok> 4')).toEqual([expect.stringMatching('^not-a-slot')]);
    expect(problems('<l/other:a>')).toContain(broken('l/none')[0]);
    expect(problems('<l/phrases:a>')).toEqual(['quote-cycle: This quotation is part of a cycle: a → b → a.']);
  });
});

describe('a chain of quotations', () => {
  const chain = (levels: number) =>
    lesson(
      Object.fromEntries(
        Array.from({ length: levels }, (_, i) => [`b${i}`, i === levels - 1 ? '4 =7' : `<l/b${i + 1}>`]),
      ),
    );
  test(`may have ${MOST_LEVELS} links`, () => {
    expect(chain(MOST_LEVELS).problems('<l/b0>')).toEqual([]);
    const tooDeep = 'quote-too-deep: This quotation leads through more than 50 others.';
    expect(chain(MOST_LEVELS + 1).problems('<l/b0>')).toEqual([tooDeep]);
    expect(chain(MOST_LEVELS + 1).problems('<l/b1>')).toEqual([]);
  });
  test('that is too deep says nothing of the quotations behind it', () => {
    const { problems } = chain(MOST_LEVELS + 1);
    expect(problems('<l/b0> | <l/b1>').length).toBe(1);
  });
  test('brings a limited number of events in all', () => {
    const { problems } = lesson({ a: `${'4 4 4 4 4 4 4 4 | '.repeat(250)}` });
    const quoted = (times: number) => problems(Array.from({ length: times }, () => '<l/a>').join(' | '));
    expect(quoted(4)).toEqual([]);
    expect(quoted(12)).toEqual([expect.stringMatching(`^block-too-long: .*${MOST_EVENTS}`)]);
  });
});
