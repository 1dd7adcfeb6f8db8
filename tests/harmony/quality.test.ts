import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CHORD_KINDS, chordInWords, kindOfChord, plainChord, printedNumeral } from '../../src/harmony/chord.ts';
import { songKey } from '../../src/harmony/key.ts';
import { numeralOf } from '../../src/harmony/numeral.ts';
import { minorQuality, QUALITIES, readQuality } from '../../src/harmony/quality.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { present } from '../../src/values/checked.ts';

const G = songKey({ letter: 'G', alter: 0 }, 'major');
const chord = (text: string) => present(readChord(text, G), text);
const tones = (text: string): string =>
  (readQuality(text)?.tones ?? []).map(({ number, semitones }) => `${number}:${semitones}`).join(' ');

describe('what follows the root of a chord', () => {
  test.each([
    ['min7', 'm7'], ['mi7', 'm7'], ['-7', 'm7'], ['m(maj7)', 'm(maj7)'], ['mM7', 'm(maj7)'], ['minmaj7', 'm(maj7)'],
    ['M9', 'maj9'], ['Maj7', 'maj7'], ['Δ', 'maj7'], ['maj6', '6'], ['69', '6/9'], ['m69', 'm6/9'], ['m6/9', 'm6/9'],
    ['+', 'aug'], ['7+', '7#5'], ['+7', '7#5'], ['°', 'dim'], ['o7', 'dim7'], ['ø', 'm7b5'], ['ø7', 'm7b5'],
    ['sus', 'sus4'], ['madd9', 'm(add9)'], ['7(b9)', '7b9'], ['7(b9,#11)', '7b9#11'], ['7#9b5', '7b5#9'], ['7-5', '7b5'],
    ['(9)', 'add9'], ['7(13)', '7add13'], ['6(9)', '6/9'], ['no3', '5'], ['(no3)', '5'], ['ø9', 'm9b5'], ['△7', 'maj7'],
    ['M', ''], ['min', 'm'], ['sus2sus4', 'sus24'], ['Mb5', '(b5)'], ['2', 'add9'], ['m2', 'm(add9)'], ['add4', 'add11'],
    ['madd4', 'm(add11)'], ['susadd9', 'sus4add9'], ['-6', 'm6'], ['°maj7', 'dim(maj7)'], ['maj7+', 'maj7#5'], ['m7+', 'm7#5'],
    ['67', '7add13'], ['7sus', '7sus4'], ['M7sus', 'maj7sus4'], ['dom9', '9'], ['-9', 'm9'], ['mM9', 'm(maj9)'], ['+9', '9#5'],
    ['9sus', '9sus4'], ['-11', 'm11'], ['ø11', 'm11b5'], ['Δ13', 'maj13'], ['-13', 'm13'], ['13sus', '13sus4'],
    ['7♯9', '7#9'], ['º7', 'dim7'], ['7b9sus4', '7sus4b9'], ['13b9sus', '13sus4b9'], ['7b9b13sus4', '7sus4b9b13'],
    ['7b9+5', '7#5b9'], ['7b9-5', '7b5b9'], ['7b6', '7b13'], ['7no5b9', '7b9no5'], ['7no3#11', '7#11no3'], ['7#9b9', '7b9#9'],
    ['7♭9', '7b9'], ['min7b5', 'm7b5'], ['7b5b9', '7b5b9'], ['7#4', '7#11'], ['9no5', '9no5'], ['7omit3', '7no3'],
  ])('%s is %s', (written, shown) => {
    expect(readQuality(written)?.suffix).toBe(shown);
  }); // biome-ignore format: a table

  test.each([
    ['7#9', '1:0 3:4 5:7 7:10 9:3'],
    ['13#11', '1:0 3:4 5:7 7:10 9:2 11:6 13:9'],
    ['dim7', '1:0 3:3 5:6 7:9'],
    ['m7add11', '1:0 3:3 5:7 7:10 11:5'],
    ['7no5', '1:0 3:4 7:10'],
    ['m7no3', '1:0 5:7 7:10'],
    ['m7b9', '1:0 3:3 5:7 7:10 9:1'],
    ['m7add13', '1:0 3:3 5:7 7:10 13:9'],
    ['m7add11add13', '1:0 3:3 5:7 7:10 11:5 13:9'],
    // The flat thirteenth is right above the fifth, which makes room for it.
    ['7b13', '1:0 3:4 7:10 13:8'],
  ])('%s has the tones %s', (written, expected) => {
    expect(tones(written)).toBe(expected);
  });

  // Only chords with a sixth or a seventh are altered.
  test.each(['b9', 'mb9', 'aug#11', 'add9b13', 'm7add13b13'])('“%s” is no alteration', (text) => {
    expect(readQuality(text)).toBeUndefined();
  });

  // “C4” has no meaning that players agree on; the others say something twice, or leave out what is not there.
  test.each(['4', '7x', '7(b9', '7b9)', '7b5#11', '9add9', '11no3', 'm7#9', 'Q', '7/E'])('“%s” is refused', (text) => {
    expect(readQuality(text)).toBeUndefined();
  });

  test('is shown in a spelling that reads as the same', () => {
    const suffix = fc.constantFrom(...QUALITIES.flatMap(({ spellings }) => spellings));
    const alteration = fc.constantFrom(
      '',
      'b5',
      '#5',
      'b9',
      '#9',
      '#11',
      'b13',
      'b9#11',
      '(b9,b13)',
      'add13',
      'no5',
      'no3',
      'sus4',
    );
    fc.assert(
      fc.property(suffix, alteration, alteration, (written, altered, more) => {
        const read = readQuality(written + altered + more);
        if (read) expect(readQuality(read.suffix)).toEqual(read);
      }),
    );
    for (const { spellings, ...quality } of QUALITIES)
      for (const written of spellings) expect(readQuality(written)).toEqual(quality);
  });

  test('is in the guide, whatever the table holds', () => {
    const guide = readFileSync(new URL('../../src/notation/guide.md', import.meta.url), 'utf8');
    const listed = [...guide.matchAll(/`([^`\n]+)`/g)].map(([, text]) => text);
    expect(QUALITIES.map(({ suffix }) => suffix).filter((text) => text !== '' && !listed.includes(text))).toEqual([]);
  });
});

describe('a small numeral', () => {
  test.each([
    ['', 'm'], ['7', 'm7'], ['maj7', 'm(maj7)'], ['ma7', 'm(maj7)'], ['M7', 'm(maj7)'], ['Δ', 'm(maj7)'], ['6', 'm6'],
    ['6/9', 'm6/9'], ['add9', 'm(add9)'], ['min7', 'm7'], ['°7', 'dim7'], ['ø', 'm7b5'], ['7b5', 'm7b5'], ['+', 'm#5'],
  ])('“%s” behind it means %s', (written, shown) => {
    expect(minorQuality(written)?.suffix).toBe(shown);
  }); // biome-ignore format: a table

  test('says nothing of a chord that has no third', () => {
    expect(minorQuality('sus4')?.suffix).toBe('sus4');
    expect(minorQuality('5')?.suffix).toBe('5');
    expect(minorQuality('Q')).toBeUndefined();
    expect(minorQuality('7alt')).toBeUndefined();
  });
});

describe('the numeral of a chord', () => {
  test.each([
    ['Amin7', 'ii7'], ['Ami7', 'ii7'], ['A-7', 'ii7'], ['Gm(maj7)', 'i(maj7)'], ['Gmaj7', 'Imaj7'], ['F#dim7', 'viidim7'],
    ['F#ø', 'vii7b5'], ['Em6/9', 'vi6/9'], ['IIm7', 'ii7'], ['VIIdim', 'viidim'], ['ii-7', 'ii7'],
  ])('%s in G is %s, and reads as the same chord', (text, numeral) => {
    expect(numeralOf(chord(text), G)).toBe(numeral);
    expect(plainChord(chord(numeral))).toBe(plainChord(chord(text)));
  }); // biome-ignore format: a table

  test('is shown with the usual signs', () => {
    expect(['viidim7', 'ii7b5', 'bVII7', '#ivdim', 'IV7b5', 'ii7b5b9', 'IV7#11'].map(printedNumeral)).toEqual([
      'vii°7', 'iiø7', '♭VII7', '♯iv°', 'IV7♭5', 'ii7♭5♭9', 'IV7♯11',
    ]); // biome-ignore format: a row
  });
});

describe('a chord read aloud', () => {
  test.each([
    ['E7', 'E7'], ['Bb7', 'B flat 7'], ['F#m7b5', 'F sharp minor 7 flat 5'], ['Cm(maj7)', 'C minor major 7'],
    ['C6/9', 'C6 9'], ['Gsus4', 'G suspended 4'], ['Caug', 'C augmented'], ['Bdim7', 'B diminished 7'],
    ['Cadd9', 'C added 9'], ['C7no5', 'C7 without 5'], ['C7#9', 'C7 sharp 9'],
  ])('%s is “%s”', (text, words) => {
    expect(chordInWords(chord(text))).toBe(words);
  }); // biome-ignore format: a table
});

describe('the kind of a chord', () => {
  test.each([
    ['major', ['C', 'C6', 'Cmaj7', 'Cadd9', 'C6b13']],
    ['minor', ['Cm', 'Cm7', 'Cm(maj7)', 'Cm#5']],
    ['dominant', ['C7', 'C9', 'C7b5', 'C7#5', 'C7#9']],
    ['diminished', ['Cdim', 'Cdim7', 'Cm7b5']],
    ['augmented', ['Caug', 'Cmaj7#5']],
    ['other', ['Csus4', 'C5', 'C(b5)', 'C7sus4', 'C7sus4#9']],
  ] as const)('%s is that of %j', (kind, chords) => {
    expect(CHORD_KINDS).toContain(kind);
    expect(chords.map((text) => kindOfChord(chord(text)))).toEqual(chords.map(() => kind));
  });
});
