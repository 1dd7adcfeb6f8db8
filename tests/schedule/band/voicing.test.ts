/** Which tones of a chord bass and keys take, and in which octave. */
import { describe, expect, test } from 'vitest';
import { chance } from '../../../src/schedule/band/chance.ts';
import { bassRoot, octaveNear, tonesOf, voicing } from '../../../src/schedule/band/voicing.ts';
import { chordAtTick } from '../../../src/score/playback.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { playbackFrom } from '../some-block.ts';

const chord = (symbol: string) =>
  present(chordAtTick(itemAt(playbackFrom(`slot: 1/1\n"${symbol}" 4`).bars, 0), 0), symbol);

describe('the tones of a chord', () => {
  test.each([
    ['C', { third: 4, fifth: 7, sixth: 9, seventh: 12 }],
    ['C7', { third: 4, fifth: 7, sixth: 9, seventh: 10 }],
    ['Cmaj7', { third: 4, fifth: 7, sixth: 9, seventh: 11 }],
    ['C6', { third: 4, fifth: 7, sixth: 9, seventh: 9 }],
    // A sixth would be heard as a wrong tone of a minor chord: its seventh or its fifth stands in.
    ['Cm', { third: 3, fifth: 7, sixth: 7, seventh: 12 }],
    ['Cm7', { third: 3, fifth: 7, sixth: 10, seventh: 10 }],
    ['Cm7b5', { third: 3, fifth: 6, sixth: 10, seventh: 10 }],
    ['Cdim7', { third: 3, fifth: 6, sixth: 9, seventh: 9 }],
    ['Caug', { third: 4, fifth: 8, sixth: 8, seventh: 12 }],
    ['Csus4', { third: 5, fifth: 7, sixth: 7, seventh: 12 }],
  ])('of %s', (symbol, tones) => expect(tonesOf(chord(symbol))).toEqual(tones));
});

test('roots of the bass lie in the octave from G up', () => {
  expect(['G', 'Ab', 'C', 'F', 'F#'].map((symbol) => bassRoot(chord(symbol)))).toEqual([31, 32, 36, 41, 42]);
});

test('chords lie from the F below middle C up, in order, each tone once', () => {
  expect(voicing(chord('C'))).toEqual([55, 60, 64]);
  expect(voicing(chord('F7'))).toEqual([57, 60, 63]);
  expect(voicing(chord('Bbm7'))).toEqual([53, 56, 61]);
});

describe('the colour of a chord', () => {
  test.each([
    // Third, seventh and what the name asks for; the fifth is left out, and so is the root.
    ['C9', [58, 62, 64]],
    ['Cm9', [58, 62, 63]],
    ['Cmaj9', [59, 62, 64]],
    ['C7b9', [58, 61, 64]],
    ['C13', [57, 58, 64]],
    ['Cm11', [53, 58, 63]],
    ['C11', [53, 58, 62]],
    ['C6/9', [57, 62, 64]],
    ['C7#11', [54, 58, 64]],
    ['C9sus4', [53, 58, 62]],
    // Without a seventh the root stays.
    ['Cadd9', [60, 62, 64]],
    // A sharp ninth is above the third.
    ['C7#9', [58, 64, 75]],
    ['Db7#9', [53, 59, 64]],
    // Two colours, or an altered fifth beside one, are four voices.
    ['C13b9', [57, 58, 61, 64]],
    ['C9#5', [56, 58, 62, 64]],
    ['C7alt', [54, 58, 64, 75]],
  ])('%s', (symbol, midis) => expect(voicing(chord(symbol))).toEqual(midis));
});

describe('a tone near the note before', () => {
  test.each([
    ['stays where it is within an octave', 43, 40, 43],
    ['comes down from further up', 60, 40, 48],
    ['comes up from further down', 24, 40, 36],
    ['is a half step above where it can be', 53, 40, 41],
    ['is a half step below where it can be', 51, 40, 39],
    ['is the same note or its octave', 52, 40, 52],
    ['does not go below the lowest E', 27, 29, 39],
    ['does not go into the chords', 55, 50, 43],
  ])('%s', (_, midi, before, near) => expect(octaveNear(midi, before)).toBe(near));
});

describe('chance', () => {
  const some = (...keys: number[]): number[] => Array.from({ length: 200 }, chance(...keys));
  test('is the same for the same keys, and another for others', () => {
    expect(some(1, 2)).toEqual(some(1, 2));
    for (const keys of [[2, 1], [1], [1, 3], [1, 2, 0]]) expect(some(...keys)).not.toEqual(some(1, 2));
  });
  test('is spread evenly from 0 up to 1', () => {
    const numbers = Array.from({ length: 40 }, (_, key) => some(key)).flat();
    expect(numbers.every((number) => number >= 0 && number < 1)).toBe(true);
    for (let tenth = 0; tenth < 10; tenth++) {
      const share = numbers.filter((number) => Math.floor(10 * number) === tenth).length / numbers.length;
      expect(share).toBeGreaterThan(0.085);
      expect(share).toBeLessThan(0.115);
    }
  });
});
