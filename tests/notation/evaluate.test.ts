/** What blocks mean, example by example. */
import { describe, expect, test } from 'vitest';
import { harpName } from '../../src/instrument/harp.ts';
import { plainName } from '../../src/instrument/pitch.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';
import { readSetting } from '../../src/notation/setting-values.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import type { Score } from '../../src/score/score.ts';
import { present } from '../../src/values/checked.ts';
import { shownBars, shownChords } from './shown.ts';

const scoreOf = (text: string, context: ReadContext = ALONE): Score => {
  const { score, diagnostics } = readBlock(text, context);
  expect(diagnostics).toEqual([]);
  return present(score, 'the score');
};
const bars = (text: string, context?: ReadContext): string[] => shownBars(scoreOf(text, context));

/** A lesson's or course's settings, as its front matter would say them. */
const inherited = (settings: Readonly<Record<string, string>>): ReadContext => {
  let defaults = ALONE.defaults;
  for (const [key, text] of Object.entries(settings)) {
    const read = readSetting(key as Parameters<typeof readSetting>[0], text);
    if ('value' in read) defaults = { ...defaults, ...read.value };
  }
  return { ...ALONE, defaults };
};

describe('settings', () => {
  test('the block over the lesson over what ships', () => {
    const score = scoreOf('position: 2\n1 =7', inherited({ harp: 'low F', position: '3', tempo: '66' }));
    expect([harpName(score.harp), score.position, score.tempo, score.meter.beats]).toEqual(['low F', 2, 66, 4]);
    expect(plainName(score.key.tonic)).toBe('C');
  });
  test.each([
    ['C', 1, 'C major'],
    ['C', 2, 'G major'],
    ['C', 3, 'D minor'],
    ['A', 2, 'E major'],
    ['Bb', 12, 'Eb major'],
    ['B', 2, 'F# major'],
    ['F#', 2, 'Db major'],
    ['C', 4, 'A minor'],
  ])('a %s harp in position %i plays in %s', (harp, position, key) => {
    const score = scoreOf(`harp: ${harp}\nposition: ${position}\n1 =7`);
    expect(`${plainName(score.key.tonic)} ${score.key.mode}`).toBe(key);
  });
  test('the home chord of a progression decides between major and minor', () => {
    expect(scoreOf('position: 3\nchords: I7\n1 =7').key.mode).toBe('major');
    expect(scoreOf('position: 2\nchords: i7\n1 =7').key.mode).toBe('minor');
    // Of two chords at one moment only the later one is heard, and one behind the last note of a bar is in the next.
    const modeOf = (music: string) => scoreOf(`position: 2\nslot: 1/4\n${music}`).key.mode;
    expect(modeOf('"I7" "i7" 4 =3')).toBe('minor');
    expect(modeOf('"i7" "I7" 4 =3')).toBe('major');
    expect(modeOf('"i7" 4 "I7" =3')).toBe('minor');
    expect(modeOf('4 =3 "i7" | "I7" 4 =3')).toBe('major');
    expect(modeOf('4 =3 "i7" | 4 "I7" =3')).toBe('minor');
    expect(modeOf('4 =3 "i7" | 4 =3')).toBe('minor');
    // Bars 9 and 10 of a minor form have no chord on the tonic.
    expect(scoreOf('form: minor-twelve-bar bars 9-10\n1 =7 | 1 =7').key.mode).toBe('minor');
  });
});

describe('time', () => {
  test('slots, holds and rests', () => {
    expect(bars('4 = -4 . 5 =3')).toEqual(['C5 1/4, D5 1/8, rest 1/8, E5 1/2']);
  });
  test('a group shares its slots, holds and rests counting as shares', () => {
    expect(bars('slot: 1/4\n{4 -4 5} {4 = 5} {4 .} 4')).toEqual([
      'C5 1/12, D5 1/12, E5 1/12, C5 1/6, E5 1/12, C5 1/8, rest 1/8, C5 1/4',
    ]);
    expect(bars('slot: 1/4\n{4 -4 5}2 4 =')).toEqual(['C5 1/6, D5 1/6, E5 1/6, C5 1/2']);
  });
  test('a hold over a bar line is tied', () => {
    expect(bars('slot: 1/4\n4 5 6 7 | = = 6 5')).toEqual(['C5 1/4, E5 1/4, G5 1/4, C6 1/4', 'C6~ 1/2, G5 1/4, E5 1/4']);
  });
  test('holes in parentheses are from the lowest to the highest, in whatever order they are written', () => {
    const [event] = scoreOf('@tongue (4 1) =7').bars[0]?.events ?? [];
    expect(event && isSoundEvent(event) && event.notes.map(({ hole }) => hole)).toEqual([1, 4]);
  });
  test('rests side by side are one', () => {
    expect(bars('. .2 4 . . .2')).toEqual(['rest 3/8, C5 1/8, rest 1/2']);
  });
  test('a glide leaves from the end of a held note', () => {
    expect(bars("slot: 1/4\n-3' =3> | =2 -3 =")).toEqual(
      ['A#4 1', 'A#4~> 1/2, B4 1/2'].map((bar) => bar.replaceAll('A#', 'Bb')),
    );
  });
  test('bars are counted from the first full one, and endings count alike', () => {
    const score = scoreOf('pickup: 2\n4 5 | 1 =7 |1 2 =7 :|2 3 =7 | 4 =5');
    expect(score.bars.map(({ number, endings }) => [number, endings?.[0] ?? 0])).toEqual([
      [0, 0],
      [1, 0],
      [2, 1],
      [2, 2],
      [3, 0],
    ]);
  });
  test('a second ending continues from before the first', () => {
    expect(bars('|: 5 =7 |1 = 4 =6 :|2 = 6 =6 |]').slice(1)).toEqual(['E5~ 1/8, C5 7/8', 'E5~ 1/8, G5 7/8']);
  });
});

describe('chords and roles', () => {
  test('a note held over a change of chord has a role in each', () => {
    expect(bars('position: 2\nslot: 1/4\n"I7" -3\' = "IV7" = =')).toEqual(['Bb4=♭3 1/2, Bb4=♭7~ 1/2']);
    expect(bars("position: 2\nslot: 1/4\nchords: I7 IV7\n-3' =3")).toEqual(['Bb4=♭3 1/2, Bb4=♭7~ 1/2']);
  });
  test('a rest stays one under a change of chord', () => {
    expect(bars('chords: I7 IV7\n4 .7')).toEqual(['C5=R 1/8, rest 7/8']);
  });
  test('without a progression a chord continues until the next', () => {
    expect(shownChords(scoreOf('"C7" 4 =7 | 4 =7 | 4 =3 "F7" =4 | 4 =7'))).toEqual(['C7', 'C7', 'C7 F7@1/2', 'F7']);
  });
  test('over a progression a written chord holds to the end of its bar', () => {
    expect(shownChords(scoreOf('position: 2\nchords: I7 | IV7 | I7\n4 =7 | "ii7" 4 =7 | 4 =7'))).toEqual([
      'G7',
      'Am7',
      'G7',
    ]);
    expect(shownChords(scoreOf('position: 2\nchords: I7 IV7\n4 = "V7" =6'))).toEqual(['G7 D7@1/4']);
  });
  test('a form fills as many choruses as the music has, and repeats come round with it', () => {
    const music = `|: ${Array.from({ length: 12 }, () => '4 =7').join(' | ')} :|`;
    expect(shownChords(scoreOf(`position: 2\nform: twelve-bar\n${music}`)).join(' ')).toBe(
      'G7 G7 G7 G7 C7 C7 G7 G7 D7 C7 G7 G7',
    );
  });
  test('endings are on the bars of the form where they are played', () => {
    const score = scoreOf('position: 2\nchords: I7 | IV7 | V7 | I7\n|: 4 =7 | 4 =7 | 4 =7 |1 4 =7 :|2 4 =7 |]');
    expect(shownChords(score)).toEqual(['G7', 'C7', 'D7', 'G7', 'G7']);
  });
  test('some bars of a form', () => {
    const score = scoreOf('position: 2\nform: twelve-bar bars 9-12\n4 =7 | 4 =7 | 4 =7 | 4 =7');
    expect(shownChords(score)).toEqual(['D7', 'C7', 'G7', 'G7']);
    expect(score.progression?.range).toEqual([9, 12]);
  });
  test('a form taken over from the lesson may be left early, and then names its bars', () => {
    const score = scoreOf('position: 2\n4 =7 | 4 =7', inherited({ form: 'quick-change' }));
    expect(shownChords(score)).toEqual(['G7', 'C7']);
    expect([score.progression?.form, score.progression?.range]).toEqual(['quick-change', [1, 2]]);
    expect(shownChords(scoreOf('form: none\n4 =7', inherited({ form: 'quick-change' })))).toEqual(['']);
    const later = scoreOf('position: 2\n4 =7 | 4 =7', inherited({ form: 'twelve-bar bars 5-8' }));
    expect([shownChords(later), later.progression?.range]).toEqual([
      ['C7', 'C7'],
      [5, 6],
    ]);
  });
  test('a list of chords taken over from the lesson may be left early, and has no bars to name', () => {
    const score = scoreOf('position: 2\n4 =7 | 4 =7', inherited({ chords: 'I7 | IV7 | V7' }));
    expect(shownChords(score)).toEqual(['G7', 'C7']);
    expect(score.progression?.bars.length).toBe(2);
    expect(score.progression).not.toHaveProperty('range');
  });
  test('a pickup has no chord of the form', () => {
    expect(shownChords(scoreOf('position: 2\npickup: 1\nchords: I7\n-2 | -2 =7'))).toEqual(['', 'G7']);
  });
  test('a bar that a pickup leaves shorter is cut off, with its chords where they are in a full bar', () => {
    expect(shownChords(scoreOf('pickup: 2\nslot: 1/4\nchords: I7 V7\n4 4 | 4 4'))).toEqual(['', 'C7']);
    expect(shownChords(scoreOf('pickup: 1\nslot: 1/4\nchords: I7 V7\n4 | 4 4 4'))).toEqual(['', 'C7 G7@1/2']);
  });
  test('a chord written before a bar line is that of the next bar', () => {
    expect(shownChords(scoreOf('slot: 1/1\nchords: I7 | I7 | I7\n4 "V7" | 4 | 4'))).toEqual(['C7', 'G7', 'C7']);
    expect(shownChords(scoreOf('slot: 1/1\n"I7" 4 "V7" | 4'))).toEqual(['C7', 'G7']);
  });
  test('a note held over the first chord of its bar has a role from there on', () => {
    expect(bars('slot: 1/4\n4 = "I7" =2')).toEqual(['C5 1/2, C5=R~ 1/2']);
  });
  test('the same chord in another spelling is no change', () => {
    expect(bars('slot: 1/4\n"Caug" 4 = "C+" =2')).toEqual(['C5=R 1']);
    expect(bars('slot: 1/4\n"I+" 4 = "Iaug" =2')).toEqual(['C5=R 1']);
  });
});

describe('comments', () => {
  test('begin with a # at the start of a line or between spaces', () => {
    expect(bars('# a comment\n#another\nslot: 1/1 # and one more\n4 | 5 # up\n')).toEqual(['C5 1', 'E5 1']);
  });
  test('are not in titles, parts and lyrics', () => {
    const score = scoreOf('title: Etude # 3\nslot: 1/2\npart: Verse # 2\n4 5\nwords: one #');
    expect([score.title, score.bars[0]?.part]).toEqual(['Etude # 3', 'Verse # 2']);
    expect(score.bars[0]?.events.map((event) => isSoundEvent(event) && event.lyrics?.[0]?.text)).toEqual(['one', '#']);
    expect(readBlock('harp: F #\n4 =7').diagnostics.map(({ help }) => help)).toEqual(['Did you mean “F#”?']);
  });
  test('do not begin at a sharp or a number', () => {
    const score = scoreOf('title: Take #2\nchords: I7 | #IVdim7 | #iv°7\nslot: 1/1\n4 | 4 | 4');
    expect(score.title).toBe('Take #2');
    expect(shownChords(score)).toEqual(['C7', 'F#dim7', 'F#dim7']);
  });
});

describe('mouth, marks, words', () => {
  test('an embouchure holds until the next, and one in brackets for its note', () => {
    const score = scoreOf('@tongue 4 5[lips] 6 @lips 4 =4');
    expect(score.bars[0]?.events.map((event) => isSoundEvent(event) && event.mouth)).toEqual([
      'tongue',
      'lips',
      'tongue',
      'lips',
    ]);
  });
  test('marks come in words', () => {
    const score = scoreOf('-4[shake 5, vibrato] =3 @tongue 4[slap accent] =3');
    expect(score.bars[0]?.events.map((event) => isSoundEvent(event) && event.marks)).toEqual([
      [{ name: 'shake', hole: 5 }, { name: 'vibrato' }],
      [{ name: 'slap' }, { name: 'accent' }],
    ]);
  });
  test('syllables go to the notes that are struck on the line above', () => {
    const score = scoreOf('4 = 5 -4 4 =3 |\nwords: A-ma-_ *\n5 =7');
    const lyrics = score.bars.flatMap(({ events }) =>
      events.map((event) => (isSoundEvent(event) && event.lyrics?.[0]?.text) ?? null),
    );
    expect(lyrics).toEqual(['A', 'ma', '', null, null]);
  });
});

describe('quotations', () => {
  const riffs: Readonly<Record<string, string>> = {
    a: 'id: a\nslot: 1/4\nposition: 2\nphrase turn: "V7" {-2 -3 4} -4\n|: "I7" -2 =3 |1 -3 =3 :|2 4 =3 |]',
    b: 'id: b\n<riffs/a:turn> .4',
    c: 'id: c\nharp: A\nposition: 2\nphrase answer: "A7" 4 -4 "B7" 4 =\n"E7" 4 =3 <answer>',
    d: 'id: d\nslot: 1/4\n"I7" 4 . "V7" . "IV7" . | 4 = =2',
    e: 'id: e\nharp: A\nposition: 2\nslot: 1/4\n"C#min7" 4 = "F#m(maj7)" =2',
  };
  const trees = new Map(Object.entries(riffs).map(([id, text]) => [id, parseBlock(text)]));
  const among = (settings: Readonly<Record<string, string>> = {}): ReadContext => ({
    ...inherited(settings),
    find: (_, block) => {
      const tree = trees.get(block);
      return tree ? { tree, context: among() } : { missing: 'block' };
    },
  });
  test('a phrase keeps its own lengths, whatever the slot here', () => {
    expect(bars('position: 2\n<riffs/a:turn> 4 =3', among())).toEqual([
      'G4=4 1/12, B4=6 1/12, C5=♭7 1/12, D5=R 1/4, C5=♭7 1/2',
    ]);
  });
  test('its chords stay behind where this block has its own', () => {
    expect(bars('chords: Cmaj7\n<riffs/a:turn> 4 =3', among())).toEqual([
      'G4=5 1/12, B4=7 1/12, C5=R 1/12, D5=2 1/4, C5=R 1/2',
    ]);
  });
  test('a whole block comes as it is played', () => {
    const score = scoreOf('position: 2\n<riffs/a> |]', among());
    expect(shownBars(score)).toEqual(['G4=R 1', 'B4=3 1', 'G4=R 1', 'C5=4 1']);
    expect(score.bars.every(({ repeatStart, repeatEnd }) => !repeatStart && !repeatEnd)).toBe(true);
  });
  test('a whole block comes with its jumps played out', () => {
    const tree = parseBlock('id: j\n4 =7 |fine 5 =7 |D.C.');
    const context: ReadContext = { ...ALONE, find: () => ({ tree, context: ALONE }) };
    const score = scoreOf('<riffs/j> |]', context);
    expect(shownBars(score)).toEqual(shownBars(scoreOf('4 =7 | 5 =7 | 4 =7')));
    expect(score.bars.every(({ jump }) => jump === undefined)).toBe(true);
  });
  test('every event says whose it is, and points at the quotation', () => {
    const text = 'phrase own: 4 5\n<own> <riffs/a:turn> .2';
    const [first, , third] = scoreOf(text, among()).bars[0]?.events ?? [];
    expect(first?.source.quote).toEqual({ phrase: 'own' });
    expect(text.slice(first?.source.span.from, first?.source.span.to)).toBe('4');
    expect(third?.source.quote).toEqual({ lesson: 'riffs', block: 'a', phrase: 'turn' });
    expect(text.slice(third?.source.span.from, third?.source.span.to)).toBe('<riffs/a:turn>');
  });
  test('the chords of a phrase follow its notes to another harp, by name or numeral', () => {
    const score = scoreOf('harp: C\nposition: 2\n"I7" 4 =3 <riffs/c:answer>', among());
    expect(shownChords(score)).toEqual(['G7 C7@1/2 D7@3/4']);
    expect(shownChords(scoreOf('harp: A\nposition: 2\n"I7" 4 =3 <riffs/c:answer>', among()))).toEqual([
      'E7 A7@1/2 B7@3/4',
    ]);
  });
  test('a whole block brings every chord change, in a rest as well', () => {
    expect(shownChords(scoreOf('<riffs/d> |]', among()))).toEqual(['C7 G7@1/2 F7@3/4', 'F7']);
  });
  test('a whole block brings its chords whatever they are called', () => {
    expect(shownChords(scoreOf('harp: C\nposition: 2\n<riffs/e> |]', among()))).toEqual(['Em7 Am(maj7)@1/2']);
  });
  test('the chords of a quotation into another position move with the notes, which keep their roles', () => {
    // Position 2 on an A harp is E; position 1 on a C harp is C, where the notes lie a minor third higher.
    const score = scoreOf('harp: C\nposition: 1\n<riffs/c> |]', among());
    expect(shownChords(score)).toEqual(['G7 C7@1/2 D7@3/4']);
    expect(score.bars[0]?.chords.map(({ chord }) => chord !== 'none' && chord.numeral)).toEqual(['V7', 'I7', 'II7']);
    expect(shownChords(scoreOf('harp: A\nposition: 1\n"I7" 4 =3 <riffs/c:answer>', among()))).toEqual(['A7 B7@3/4']);
  });
  test('a quotation may quote in turn', () => {
    expect(bars('position: 2\n<riffs/b> |]', among())).toEqual([
      'G4=4 1/12, B4=6 1/12, C5=♭7 1/12, D5=R 1/4, rest 1/2',
    ]);
  });
});

describe('endings', () => {
  test('each continues from where the first one branches off, in chord and embouchure', () => {
    const score = scoreOf('slot: 1/1\n|: "I7" 4 |1 "IV7" @tongue 5 :|2 6 | 4 |]');
    expect(shownChords(score)).toEqual(['C7', 'F7', 'C7', 'C7']);
    expect(score.bars.flatMap(({ events }) => events.map((event) => isSoundEvent(event) && event.mouth))).toEqual([
      'lips',
      'tongue',
      'lips',
      'lips',
    ]);
  });
});

describe('what is forgiven', () => {
  test.each(['–3’ =7', '—3′ =7', '−3´ =7', '－3＇ =7'])('%s is a bent draw', (text) => {
    expect(bars(text)).toEqual(['Bb4 1']);
  });
  test('double primes, curly quotation marks, odd spaces and bars', () => {
    expect(bars('“I7”\u00a0-3″ =7 │ -3‴\t=7')).toEqual(['A4=6 1', 'Ab4=♭6 1']);
  });
  test.each(['\n', '\r\n', '\r'])('any line break (%j)', (end) => {
    expect(bars(['slot: 1/4', '', '4 5 # up', '6 7 |', '4 =3'].join(end))).toEqual([
      'C5 1/4, E5 1/4, G5 1/4, C6 1/4',
      'C5 1',
    ]);
  });
});

test.each(['pickup: 2\n\n1 .5 |', 'pickup: 2\n\n1 .5 :| 1 .7 |]'])(
  'a bar that is to be the pickup is not as long as what a pickup leaves of the last bar: %j',
  (text) => {
    expect(readBlock(text).diagnostics.map(({ code }) => code)).toContain('bar-too-long');
  },
);

describe('what a block accepts up to a limit', () => {
  const codes = (text: string) => readBlock(text).diagnostics.map(({ code }) => code);

  test('a shake is with a hole that the harp has, at most two away', () => {
    const shakes = (...holes: readonly string[]) => holes.map((mark) => codes(`${mark} =7`).join());
    expect(shakes('8[shake 10]', '3[shake 1]', '2[shake 1]', '9[shake 10]')).toEqual(['', '', '', '']);
    expect(shakes('10[shake 11]', '1[shake 0]', '5[shake 8]', '5[shake 5]')).toEqual(
      Array.from({ length: 4 }, () => 'shake-impossible'),
    );
  });
  test('a form is quoted from an earlier bar to a later one', () => {
    const bars = (range: string, music: string) => codes(`form: twelve-bar ${range}\n${music}`);
    expect(bars('bars 2-2', '1 =7')).toEqual([]);
    expect(bars('bar 12', '1 =7')).toEqual([]);
    for (const range of ['bars 3-2', 'bars 0-2', 'bars 12-13']) expect(bars(range, '1 =7')).toEqual(['header-value']);
  });
  test('holes in parentheses may not be on both breaths', () => {
    const helpOf = (text: string) => readBlock(text).diagnostics.map(({ code, help }) => [code, help]);
    expect(helpOf('(-2 -3) =7')).toEqual([['two-breaths', expect.stringContaining('-(2 3)')]]);
    expect(helpOf('(+2 +3) =7')).toEqual([['two-breaths', expect.stringContaining(' “(2 3)”')]]);
    expect(helpOf('-(2 -3) =7')).toEqual([['two-breaths', expect.stringContaining(' “-(2 3)”')]]);
    expect(helpOf('-(2 +3) =7')).toEqual([['two-breaths', expect.stringMatching(/^Notes one after .*: \{-2 3\}$/)]]);
    expect(helpOf('(-2 +3) =7')).toEqual([['two-breaths', expect.stringMatching(/^Notes one after .*: \{-2 3\}$/)]]);
  });
});
