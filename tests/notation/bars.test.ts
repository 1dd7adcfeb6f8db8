/** How music is laid into bars: repeats, endings, holds, lyrics, and what is said where they do not fit. */
import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import type { Score } from '../../src/score/score.ts';
import { present } from '../../src/values/checked.ts';
import { shownBars } from './shown.ts';

/** A letter is a bar. */
const written = (music: string): string => `meter: 1/4\nslot: 1/8\n${music.replace(/[a-z]/g, '4 5')}`;
const scoreOf = (text: string) => {
  const { score, diagnostics } = readBlock(text);
  expect(diagnostics).toEqual([]);
  return score;
};
const lyricsOf = (score: Score | undefined) =>
  score?.bars.flatMap(({ events }) =>
    events
      .filter(isSoundEvent)
      .map(({ lyrics }) => lyrics?.[0])
      .map((lyric) => lyric && (lyric.extends ? '_' : lyric.text + (lyric.hyphen ? '-' : ''))),
  );
const soundsIn = (score: Score | undefined) => (score?.bars ?? []).flatMap(({ events }) => events.filter(isSoundEvent));
/** Every problem as its code and where it is in the text. */
const problems = (text: string): string[] =>
  readBlock(text).diagnostics.map(({ code, span }) => `${code} ${span.from}-${span.to}`);

describe('the bars of an ending', () => {
  /** For each bar its ending, or a hyphen. */
  const endings = (music: string): string =>
    scoreOf(written(music))
      ?.bars.map(({ endings: own }) => own?.join('/') ?? '-')
      .join('') ?? '';
  test.each([
    ['|: a |1 b :|2 c |]', '-12'],
    ['|: a |1 b | c :|2 d | e :|3 f | g |]', '-112233'],
    // The last one leads to a repeat sign, to a closing line, or is as long as the first.
    ['|: a |1 b | c :|2 d || e', '-112-'],
    ['|: a |1 b | c :|2 d |] e', '-112-'],
    ['|: a |1 b :|2 c | d | e', '-12--'],
    ['|: a |1 b | c :|2 d | e | f', '-1122-'],
    ['|: a |1 b :|2 c | d ||', '-12-'],
    ['|: a |1 b :|2 c | d :|', '-12-'],
    ['|: a |1 b :|2 c | d :|3 e |]', '-1223'],
    // Another repeat, or the music, ends before it is as long as the first.
    ['|: a |1 b | c :|2 d |: e :|', '-112-'],
    ['|: a |1 b | c :|2 d', '-112'],
    ['|: a |1 b :|2 c |: d |1 e :|2 f | g', '-12-12-'],
    ['|: a |1 b :|2 c | d |1 e :|2 f |]', '-12-12'],
    ['|: a |1,3 b :|2,4 c :|', '-1/32/4'],
  ])('%s: %s', (music, expected) => {
    expect(endings(music)).toBe(expected);
  });
  test('are counted alike in every ending', () => {
    const numbers = (music: string) => scoreOf(written(music))?.bars.map(({ number }) => number);
    expect(numbers('|: a |1 b | c :|2 d | e :|3 f | g | h')).toEqual([1, 2, 3, 2, 3, 2, 3, 4]);
    expect(numbers('|: a |1 b :|2 c |: d |1 e :|2 f | g')).toEqual([1, 2, 2, 3, 4, 4, 5]);
  });
});

describe('an ending that belongs to no repeat', () => {
  const misplaced = (music: string) =>
    readBlock(written(music))
      .diagnostics.filter(({ code }) => code === 'ending-misplaced')
      .map(({ message }) => /\d/.exec(message)?.[0])
      .join('');
  test.each([
    ['|: a |1 b |2 c :|', '1'],
    ['|: a :|2 b |1 c |]', '2'],
    ['|: a |2 b :|1 c |]', '2'],
    ['|: a |2 b |1 c :|', '2'],
    ['|: a :|2 b | c |1 d :|2 e |]', '2'],
    ['|: a |1 b |: c :|', '1'],
    ['|: a |1 b | c', '1'],
    ['|: a |1 b :| c |2 d |]', '2'],
    ['|: a |1 b :|3 c |]', '3'],
    ['|: a :|2 b |]', '2'],
    ['|: a |1 b :|2 c |3 d |]', '3'],
  ])('%s: %s', (music, expected) => {
    expect(misplaced(music)).toBe(expected);
  });
});

describe('a repeat', () => {
  test('that begins has to end before another begins', () => {
    const unclosed = (music: string) =>
      readBlock(written(music)).diagnostics.filter(({ code }) => code === 'repeat-unclosed').length;
    expect(['|: a', '|: a | b', '|: a |: b :|', '|: a |: b'].map(unclosed)).toEqual([1, 1, 1, 2]);
    expect(['|: a :|', '|: a | b :|', '|: a :|: b :|', 'a :| b'].map(unclosed)).toEqual([0, 0, 0, 0]);
  });
  test('and a closing line are kept with their bars, wherever these end', () => {
    const lines = (music: string) =>
      scoreOf(written(music))
        ?.bars.map(
          ({ repeatStart, repeatEnd, close }) => (repeatStart ? '|:' : '') + (repeatEnd ? ':|' : '') + (close ?? ''),
        )
        .join(' ');
    expect(lines('|: a | b :|: c :|| d || e |]')).toBe('|: :| |::|double double final');
    expect(lines('a\n|: b :|\nc |]')).toBe(' |::| final');
  });
});

describe('bar lines', () => {
  test('with nothing between them are a mistake on one line, and at a line’s end and start are one', () => {
    expect(problems('1 =7 | | 1 =7')).toEqual(['bar-empty 7-8']);
    expect(problems('1 =7 |\n| 1 =7')).toEqual([]);
    expect(problems('1 =7 ||\n|: 1 =7 :|')).toEqual([]);
    expect(problems('1 =7 | |: 1 =7 :|')).toEqual([]);
    expect(problems('| 1 =7 |')).toEqual([]);
  });
  test('leave no bar that has a chord and no time', () => {
    expect(problems('1 =7 | "C7" | 1 =7')).toEqual(['bar-empty 12-13']);
  });
});

describe('a hold', () => {
  test('is of a note: not of a rest, of nothing, or of what cannot be read', () => {
    expect(problems('= 4 =6')).toEqual(['hold-without-note 0-1']);
    expect(problems('4 . = 4 =4')).toEqual(['hold-without-note 4-5']);
    expect(problems('x =7')).toEqual(['not-a-slot 0-1']);
    expect(problems('x . =6')).toEqual(['not-a-slot 0-1', 'hold-without-note 4-6']);
  });
  test('over a bar line takes the glide with it, and leaves the syllable where the note begins', () => {
    const score = scoreOf('slot: 1/4\n4 =3> | =2 5 =\nwords: One two');
    expect(shownBars(score)).toEqual(['C5 1', 'C5~> 1/2, E5 1/2']);
    expect(lyricsOf(score)).toEqual(['One', undefined, 'two']);
  });
});

describe('a bar with a mistake in it', () => {
  test('is not measured, and a glide in it is not missed', () => {
    expect(problems('x 1 1')).toEqual(['not-a-slot 0-1']);
    expect(problems('{x} 1 1')).toEqual(['not-a-slot 1-2']);
    expect(problems('x > 1 =6')).toEqual(['not-a-slot 0-1']);
    expect(problems('> 1 =7')).toEqual(['glide-without-note 0-1']);
    expect(problems('. > 1 =6')).toEqual(['glide-without-note 2-3']);
  });
});

describe('the bar before once more', () => {
  const bars = (text: string) => shownBars(present(scoreOf(text), text));
  test('has its notes over its own chords', () => {
    expect(bars('chords: I7 | I7 | IV7\n4 =3 5 =3 | % | %')).toEqual(
      bars('chords: I7 | I7 | IV7\n4 =3 5 =3 | 4 =3 5 =3 | 4 =3 5 =3'),
    );
  });
  test('has the chords that are written in it, but for one of its own', () => {
    expect(bars('"I" 4 =3 "V" 5 =3 | % | "IV" % | 4 =7')).toEqual(
      bars('"I" 4 =3 "V" 5 =3 | "I" 4 =3 "V" 5 =3 | "IV" 4 =3 5 =3 | 4 =7'),
    );
  });
  test('may be held on, and is sung without words', () => {
    const score = present(scoreOf('slot: 1/4\n4 5 6 7 | % | = 5 = . \nwords: a b c d e'), 'a score');
    expect(lyricsOf(score)).toEqual(['a', 'b', 'c', 'd', undefined, undefined, undefined, undefined, undefined, 'e']);
    expect(score.bars[2]?.events[0]).toMatchObject({ tied: true, notes: [{ hole: 7 }] });
  });
  test('says each of its problems once', () => {
    expect(problems("3' =7 | % | %")).toEqual(['no-bend 0-2']);
    expect(problems('4 =3 | % | %')).toEqual(['bar-too-short 0-4']);
    expect(problems('4 x =6 | %')).toEqual(['not-a-slot 2-3']);
  });
  test('is not multiplied without end', () => {
    const text = `slot: 1/32\n${'4 '.repeat(32)}| ${'% | '.repeat(1000)}`;
    expect(readBlock(text).diagnostics.map(({ message }) => message)).toContain(
      'Bars that are played again make this block too long.',
    );
  });
});

describe('a rest of several bars', () => {
  test('is a bar of rest for each of them, with the chords of its place', () => {
    const written = 'chords: I | IV | V | I\n';
    const score = present(scoreOf(`${written}4 =7 | .x2 | 4 =7`), 'a score');
    expect(shownBars(score)).toEqual(shownBars(present(scoreOf(`${written}4 =7 | .8 | .8 | 4 =7`), 'a score')));
    expect(score.bars.map(({ restBars, number }) => [restBars, number])).toEqual([
      [undefined, 1],
      [2, 2],
      [undefined, 3],
      [undefined, 4],
    ]);
  });
  test('takes the signs of both of its bar lines', () => {
    const score = present(scoreOf('|segno .x2 :|fine 4 =7 |D.S.'), 'a score');
    expect(score.bars.map(({ target, jump, repeatEnd }) => [target, repeatEnd, jump])).toEqual([
      ['segno', false, undefined],
      [undefined, true, 'fine'],
      [undefined, false, 'D.S.'],
    ]);
  });
  test('is neither held on nor multiplied without end', () => {
    expect(problems('4 =7 | .x2 | = 4 =6')).toEqual(['hold-without-note 13-14']);
    expect(problems('4 =7 | . .x2 |')).toEqual(['rest-bars 9-12']);
    expect(problems('{4 .x2} =7')).toEqual(['group-crossed 3-6']);
    expect(problems(`${'.x99 | '.repeat(300)}`)[0]).toBe('block-too-long 1414-1418');
  });
});

describe('a coda', () => {
  test('continues from the bar that leaves for it, with its chord and its embouchure', () => {
    const score = scoreOf('slot: 1/4\n"I" 4 5 @tongue 6 7 |to-coda "IV" 5 @lips 5 5 5 |D.C.,coda 7 4 4 4 |]');
    const coda = score?.bars[2];
    expect(coda?.chords.map(({ chord }) => chord !== 'none' && chord.numeral)).toEqual(['I']);
    expect(coda?.events[0]).toMatchObject({ kind: 'sound', mouth: 'tongue' });
  });
  test('begins with a note of its own', () => {
    expect(problems('4 =7 |to-coda 5 =7 |D.C.,coda =8')).toEqual(['hold-without-note 30-32']);
  });
});

describe('lyrics', () => {
  const lyrics = (text: string) => lyricsOf(scoreOf(`slot: 1/4\n${text}`));
  test('go to the notes that are struck on the line of music above', () => {
    expect(lyrics('4 5 6 7 |\n4 = 5 .\nwords: A-men')).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
      'A-',
      'men',
    ]);
    expect(lyrics('4 5 6 7\nwords: one _ * two')).toEqual(['one', '_', undefined, 'two']);
  });
  test('may have a part, or a line without notes, between them and their line', () => {
    expect(lyrics('4 5 6 7\n|\nwords: one * * *')).toEqual(['one', undefined, undefined, undefined]);
    expect(lyrics('4 5 6 7\npart: B\nwords: one * * *\n4 =3')).toEqual([
      'one',
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });
  test('are one verse after the other, or numbered', () => {
    const verses = (text: string) =>
      scoreOf(`slot: 1/1\n${text}`)
        ?.bars.flatMap(({ events }) => events.filter(isSoundEvent))
        .map(({ lyrics }) => lyrics?.map(({ verse, text }) => `${verse} ${text}`));
    expect(verses('4\nwords: a\nwords: b')).toEqual([['1 a', '2 b']]);
    expect(verses('4\nwords 3: a\nwords: b\nwords 1: c')).toEqual([['1 c', '3 a', '4 b']]);
    expect(verses('4\nwords: a\nsyllables: ta\nwords: b\n| 5\nwords: c')).toEqual([['1 a', '2 b'], ['1 c']]);
    expect(verses('4\nwords: *\nwords: b')).toEqual([['2 b']]);
  });
  test('may be syllables to articulate with', () => {
    const score = scoreOf('slot: 1/4\n4 4 = 4\nsyllables: ta-ka _');
    expect(soundsIn(score).map(({ syllable }) => syllable)).toEqual([
      { text: 'ta', hyphen: true, extends: false },
      { text: 'ka', hyphen: false, extends: false },
      { text: '', hyphen: false, extends: true },
    ]);
  });
  test('are under a line of music', () => {
    expect(problems('4 =7\nwords: one\nwords: two')).toEqual([]);
    expect(problems('part: A\nwords: one\n4 =7')).toEqual(['words-misplaced 14-18']);
  });
  test('have no more syllables than the line has notes', () => {
    expect(problems('4 =7\nwords: one two three')).toEqual(['words-too-many 16-25']);
    expect(problems('4 = = 5 =4\nwords: one two')).toEqual([]);
  });
});

describe('words to the player', () => {
  const texts = (text: string) => readBlock(text).score?.bars.map(({ part, direction }) => [part, direction]);
  test('are over the bar that follows, beside the name of its part', () => {
    expect(texts('text: softly\n4 =7 | 5 =7\npart: B\ntext: like a train\n6 =7')).toEqual([
      [undefined, 'softly'],
      [undefined, undefined],
      ['B', 'like a train'],
    ]);
  });
  test('on several lines are one text', () => {
    expect(texts('text: softly\ntext: from afar\n4 =7')).toEqual([[undefined, 'softly from afar']]);
  });
});

test('a chord before the first bar line is that of the bar it opens', () => {
  const score = readBlock('"IV7" |: 4 =7 :|').score;
  expect(score?.bars.map(({ chords, repeatStart }) => [chords.length, repeatStart])).toEqual([[1, true]]);
});
