/** What of a score is where in ABC. Other readers, and the oracle, are asked in tests/outside/exchange. */
import { describe, expect, test } from 'vitest';
import { abcOf } from '../../src/interchange/abc/document.ts';
import { scoreOf } from '../engrave/pictures.ts';

const abc = (text: string): string => abcOf(scoreOf(text), { title: 'A block' });
/** The lines of music, and below each the lines under it. */
const music = (text: string): string[] =>
  abc(text)
    .split('\n')
    .filter((line) => !/^[A-Z%]:|^%/.test(line) && line !== '');

test('the head says what the tune is, and ends with its key', () => {
  const file = abcOf(scoreOf('harp: A\nposition: 2\nmeter: 12/8\ntempo: 60\nslot: 3/8\n4 4 4 4'), {
    title: '50 % & more',
    lesson: 'First',
    licence: 'Free',
  });
  expect(file.split('\n').slice(0, -3)).toEqual([
    '%abc-2.1',
    'X:1',
    'T:50 \\% \\& more',
    'S:First',
    'N:A harp, second position',
    'Z:Free',
    'M:12/8',
    'L:1/8',
    'Q:3/8=60',
    'K:E clef=treble',
  ]);
});

test.each([
  ['minor', 'K:Dm'],
  ['dorian', 'K:Ddor'],
  ['mixolydian', 'K:Dmix'],
  ['major', 'K:D'],
])('the key of a song in D %s is %s', (mode, field) => {
  expect(abc(`position: 3\nkey: ${mode}\n-4 =7`)).toContain(`\n${field} clef=treble\n`);
});

test('lengths, tuplets, ties, glides and chords of holes are as they are written', () => {
  expect(music("slot: 1/8\nharp: C\nposition: 1\n4 4 {4 -4 5} = -3'> -3 (1 2) = |]")[0]).toBe(
    'cc (3:2:3c1/2d1/2 e2 (_B=B) [CE]2 |]',
  );
});

test('an accidental is written again on later notes of its letter in the bar', () => {
  expect(music("slot: 1/4\nharp: C\nposition: 1\n-3' -3' -3 7 | -3 4 4 4 |]")[0]).toBe(
    "_B2 _B2 =B2 c'2 | B2 c2 c2 c2 |]".replace("c\\'2", "c'2"),
  );
});

test('a quarter step has the sign that readers know, beside the next letter where it has none', () => {
  expect(music("slot: 1/4\nharp: C\nposition: 1\n-3q -3 -3'q -3' | -5q 7q -2q -2'q |]")[0]).toBe(
    "_/B2 =B2 ^/A2 _B2 | _/f2 _/c'2 _/G2 ^/F2 |]",
  );
});

test('bar lines, repeats and endings are between bars', () => {
  const [line] = music('slot: 1/4\nharp: C\n|: 4 4 4 4 |1 5 5 5 5 :|2 6 6 6 6 || 4 4 4 4 |]');
  expect(line).toBe('|:c2 c2 c2 c2 | [1 e2 e2 e2 e2 :| [2 g2 g2 g2 g2 || c2 c2 c2 c2 |]');
});

test('the tempo is said again where it counts another note, and where a reader goes back', () => {
  expect(music('slot: 1/4\ntempo: 100\n4 4 4 4 |\nmeter: 6/8\n4 4 4 |]')[0]).toMatch(/\[M:6\/8\]\[Q:3\/8=100\]/);
  expect(music('slot: 1/4\ntempo: 100\n|: 4 4 4 4 |\ntempo: 80\n4 4 4 4 :|')[0]).toMatch(
    /^\|:\[Q:1\/4=100\].*\[Q:1\/4=80\]/,
  );
  expect(music('slot: 1/4\ntempo: 100\n|: 4 4 4 4 :|')[0]).not.toMatch(/Q:/);
});

test('jumps are decorations at their bar lines', () => {
  expect(music('slot: 1/4\nharp: C\n|segno 4 = = = |to-coda 5 = = = |D.S.,coda 6 = = = |]')[0]).toBe(
    '!segno!c8 !dacoda!| e8 !D.S.!| !coda!g8 |]',
  );
  expect(music('slot: 1/4\nharp: C\n4 = = = |fine 5 = = = |D.C.')[0]).toBe('c8 !fine!| e8 !D.C.!|');
  // Behind a jump no repeat is taken, so what is written out for want of a sign would be played too often.
  expect(music('slot: 1/4\nharp: C\n4 = = = :|x3,fine 5 = = = |D.C.')[0]).toBe('c8 | c8 | c8 | e8 |');
});

test('a rest of several bars is one where no chord changes in it', () => {
  expect(music('slot: 1/4\nharp: C\n4 = = = | .x3 |fine 4 = = = |D.C.')[0]).toBe('c8 | Z3 !fine!| c8 !D.C.!|');
  expect(music('slot: 1/4\nharp: C\nchords: C | F\n.x2 |]')).toEqual(['"C"z8 | "F"z8 |]']);
});

describe('under the notes', () => {
  test('is a line for each verse, down to the last that the line has', () => {
    expect(music('slot: 1/2\n4 4 | 4 4 | 4 4 | 4 4 |\nwords: a b-c\nwords 3: d _\n5 5 |]\nwords: e').slice(1)).toEqual([
      'w: 4 4|4 4|4 4|4 4',
      'w: a b-|c *|* *|* *',
      'w: d _|* *|* *|* *',
      'e4 e4 |]',
      'w: 5 5',
      'w: e *',
    ]);
  });
  test('are syllables to articulate with, as annotations', () => {
    expect(music('slot: 1/4\n"C" 4 4[accent] 4 4 |]\nsyllables: ta- ka _')[0]).toBe(
      '"C""_ta-"c2 "_ka"!accent!c2 c2 c2 |]',
    );
  });
  test('a repeat of three times has its third verse under what is written out', () => {
    expect(
      music('slot: 1/2\n|: 4 4 :|x3\nwords: a b\nwords: c d\nwords: e f').filter((line) => line.startsWith('w:')),
    ).toEqual(['w: 4 4|4 4', 'w: a b|e f', 'w: c d|* *']);
  });
  test('are the tab, and below it the words', () => {
    expect(music('slot: 1/4\nharp: C\n-4 4 -(1 2) 4 |]\nwords: A- ma- zing_ grace').slice(1)).toEqual([
      'w: \\-4 4 \\-(1~2) 4',
      'w: A-ma-zing\\u2017 grace'.replace('\\u2017', '\u2017'),
    ]);
  });
  test('is nothing in a line of rests', () => {
    expect(music('slot: 1/4\n. . . . |]')).toEqual(['z8 |]']);
  });
});

test('a slash is that of a bass alone', () => {
  expect(music('slot: 1/4\nchords: C/E F6/9 | D6/9/F#\n. . . . | . . . . |]')).toEqual([
    '"C/E"z4"F69"z4 | "D69/F#"z8 |]',
  ]);
});

test('no chord is text above the staff', () => {
  expect(music('slot: 1/4\n"C7" 4 4 "N.C." . 4 |]')[0]).toMatch(/^"C7".*"\^N\.C\."z2/);
});

test('a chord that comes in during a rest cuts it', () => {
  expect(music('slot: 1/4\nchords: C7 F7\n. . . . |]')).toEqual(['"C7"z4"F7"z4 |]']);
});

test('marks and labels are above their note', () => {
  expect(
    music(
      'slot: 1/4\nharp: C\npart: Head\ntext: soft\n4[staccato] 4[accent] 4[dip] 4[shake 5] | 4[tenuto] 4[ghost] 4[breath accent] = | = 4 . . |]',
    )[0],
  ).toBe(
    '"^Head""^soft".c2 !accent!c2 !slide!c2 "^shake 5"c2 | !tenuto!c2 "^ghost"c2 !accent!c4- | !breath!c2 c2 z4 |]',
  );
});
