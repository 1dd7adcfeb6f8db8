import { describe, expect, test } from 'vitest';
import { plainChord } from '../../src/harmony/chord.ts';
import type { ChordChange } from '../../src/harmony/form.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { plainPitch } from '../../src/instrument/pitch.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { readBlock } from '../../src/notation/read.ts';
import { moveToHarp } from '../../src/score/harp/move.ts';
import { chordAt, chordsInTurn, endingOpenedBy, roleIn, soundsOf } from '../../src/score/queries.ts';
import type { Score } from '../../src/score/score.ts';
import { fraction } from '../../src/time/fraction.ts';
import { itemAt, present } from '../../src/values/checked.ts';

const scoreOf = (text: string): Score => present(readBlock(text).score, 'the score');

describe('a score is asked', () => {
  const score = scoreOf("position: 2\nchords: I7 IV7\n-3' = .2 -3' =3");
  const bar = itemAt(score.bars, 0);
  test('which chord sounds at a moment', () => {
    const at = (n: number, d: number): string | undefined => {
      const chord = chordAt(bar, fraction(n, d));
      return chord && plainChord(chord);
    };
    expect([at(0, 1), at(3, 8), at(1, 2), at(7, 8)]).toEqual(['G7', 'G7', 'C7', 'C7']);
    expect(chordAt(itemAt(scoreOf('4 =3 "C7" 4 =3').bars, 0), fraction(0))).toBeUndefined();
  });
  test('what a note does there: the same bend is one chord’s third and the other’s seventh', () => {
    expect(soundsOf(score).map((sound) => roleIn(bar, sound, itemAt(sound.notes, 0))?.label)).toEqual(['♭3', '♭7']);
  });
});

test('no chord sounds from “N.C.” to the next chord', () => {
  const score = scoreOf('slot: 1/4\n"C7" 4 "N.C." 4 = 5 | 4 = "F" 4 =');
  const at = (bar: number, quarter: number) => {
    const chord = chordAt(itemAt(score.bars, bar), fraction(quarter, 4));
    return chord ? plainChord(chord) : '-';
  };
  expect([0, 1, 2, 3].map((quarter) => at(0, quarter))).toEqual(['C7', '-', '-', '-']);
  expect([0, 1, 2, 3].map((quarter) => at(1, quarter))).toEqual(['-', '-', 'F', 'F']);
});

describe('the chords of a bar in turn', () => {
  const bar = itemAt(scoreOf('slot: 1/4\n"I7" 4 "IV7" 4 "V7" 4 4 | 4 =3').bars, 0);
  const names = (changes: readonly ChordChange[]) => changes.map(({ chord }) => plainChord(chord)).join(' ');
  test('are each given once, those before the moment that is asked about', () => {
    const next = chordsInTurn(bar);
    expect(names(next(fraction(0)))).toBe('');
    expect(names(next(fraction(1, 4)))).toBe('C7');
    expect(names(next(fraction(1, 4)))).toBe('');
    expect(names(next(fraction(3, 4)))).toBe('F7 G7');
    expect(names(next())).toBe('');
  });
  test('are all that are left where no moment is named', () => {
    const next = chordsInTurn(bar);
    expect(names(next(fraction(1, 8)))).toBe('C7');
    expect(names(next())).toBe('F7 G7');
    expect(names(chordsInTurn(bar)())).toBe('C7 F7 G7');
    expect(names(chordsInTurn({ chords: [] })())).toBe('');
  });
});

test('an ending is opened by its first bar', () => {
  const score = scoreOf('meter: 1/4\nslot: 1/4\n|: 4 |1 5 | 6 :|2 5 | 6 :|3 7 | 8 | 9');
  expect(score.bars.map((bar) => endingOpenedBy(score, bar))).toEqual([
    undefined,
    [1],
    undefined,
    [2],
    undefined,
    [3],
    undefined,
    undefined,
  ]);
});

describe('a score is moved', () => {
  test('to a lower harp: pitches and chords follow, the tab stays', () => {
    const harp = readHarp('low F', RICHTER);
    const moved = harp && moveToHarp(scoreOf('position: 2\n"I7" -3\' -3 -2 = "G7" -2 =3'), harp);
    expect(
      moved &&
        soundsOf(moved).map(({ notes }) =>
          plainPitch(notes[0]?.pitch ?? { letter: 'C', alter: 0, octave: 0, midi: 0 }),
        ),
    ).toEqual(['Eb4', 'E4', 'C4', 'C4']);
    expect(moved?.bars[0]?.chords.map(({ chord }) => plainChord(chord))).toEqual(['C7']);
  });
  test('spelled in the new key: the blue third of F sharp is A natural, its third A sharp', () => {
    const harp = readHarp('B', RICHTER);
    const moved = harp && moveToHarp(scoreOf('position: 2\n"I7" -3\' =3 -3 =3'), harp);
    expect(
      moved &&
        soundsOf(moved).map(({ notes }) =>
          plainPitch(notes[0]?.pitch ?? { letter: 'C', alter: 0, octave: 0, midi: 0 }),
        ),
    ).toEqual(['A4', 'A#4']);
  });
});
