import { describe, expect, test } from 'vitest';
import { chordInWords, plainChord, printedChord, printedNumeral } from '../../src/harmony/chord.ts';
import { type SongKey, songKey } from '../../src/harmony/key.ts';
import { moveChord, numeralOf, stepOfNumeral } from '../../src/harmony/numeral.ts';
import { isChordSymbol, plainNumeral, readChord, readSymbol } from '../../src/harmony/symbol.ts';
import type { PitchClass } from '../../src/instrument/pitch.ts';
import { present } from '../../src/values/checked.ts';

const key = (letter: PitchClass['letter'], alter = 0, mode: SongKey['mode'] = 'major'): SongKey =>
  songKey({ letter, alter }, mode);
const name = (text: string, of: SongKey): string | undefined => {
  const chord = readChord(text, of);
  return chord && plainChord(chord);
};

describe('a roman numeral', () => {
  test.each([
    ['I7', 'G7'],
    ['IV7', 'C7'],
    ['V7', 'D7'],
    ['bVI7', 'Eb7'],
    ['ii7', 'Am7'],
    ['vi', 'Em'],
    ['viio7', 'F#dim7'],
    ['viiø7', 'F#m7b5'],
    ['#IVdim7', 'C#dim7'],
    ['Imaj7', 'Gmaj7'],
    ['I6', 'G6'],
    ['imaj7', 'Gm(maj7)'],
    ['ima7', 'Gm(maj7)'],
    ['IIm7', 'Am7'],
    ['♭VII7', 'F7'],
    ['♯IVdim7', 'C#dim7'],
  ])('%s in G is %s', (numeral, chord) => {
    expect(name(numeral, key('G'))).toBe(chord);
  });
  test('has one plain spelling; another text stays what it is', () => {
    expect(['viio7', '♭VI7', 'ii-7', 'bass'].map(plainNumeral)).toEqual(['viidim7', 'bVI7', 'ii7', 'bass']);
  });
  test('counts from the major scale in minor too', () => {
    expect(name('bVI7', key('A', 0, 'minor'))).toBe('F7');
    expect(name('iv7', key('A', 0, 'minor'))).toBe('Dm7');
  });
});

describe('a numeral of a numeral', () => {
  test.each([
    ['V7/V', 'D7', 2],
    ['V7/ii', 'A7', 6],
    ['V7/IV', 'C7', 1],
    ['viidim7/ii', 'C#dim7', 1],
    ['V7/bVI', 'Eb7', 3],
    ['ii7/bIII', 'Fm7', 4],
    ['bII/V', 'Ab', 6],
    ['V7/#iv', 'C#7', 1],
    ['I6/9/V', 'G6/9', 5],
    ['♭VI7/♭II', 'A7', 7],
  ])('%s in C is %s', (text, plain, step) => {
    const chord = present(readChord(text, key('C')), text);
    expect([plainChord(chord), chord.step]).toEqual([plain, step]);
  });
  test('has one plain spelling and is printed with its signs', () => {
    expect(['viio7/ii', 'V7/♭VI', 'ii-7/V'].map(plainNumeral)).toEqual(['viidim7/ii', 'V7/bVI', 'ii7/V']);
    expect(['viidim7/ii', 'V7/bVI', 'ii7b5/iii', 'V7b9/#iv'].map(printedNumeral)).toEqual([
      'vii°7/ii',
      'V7/♭VI',
      'iiø7/iii',
      'V7♭9/♯iv',
    ]);
  });
  test('keeps its numeral in another key, and no name becomes one', () => {
    const chord = present(readChord('V7/V', key('C')), 'V7/V');
    const moved = moveChord(chord, key('C'), key('A'));
    expect([plainChord(moved), numeralOf(moved, key('A'))]).toEqual(['B7', 'V7/V']);
    expect(numeralOf(present(readChord('D7', key('C')), 'D7'), key('C'))).toBe('II7');
  });
  test('has a step of the song’s key', () => {
    expect(['V7/V', 'V/bIII', 'V7/#IV', 'bVI7', 'ii7', 'D7'].map(stepOfNumeral)).toEqual([
      'II',
      'bVII',
      '#I',
      'bVI',
      'II',
      '',
    ]);
  });
  test.each(['V7/X', 'V7/V7', 'V7/V/V', 'V7/', '/V', 'A7/V', 'V/vI'])('“%s” is none', (text) => {
    expect(isChordSymbol(text)).toBe(false);
  });
});

test('no chord is a symbol and no chord, and has one spelling', () => {
  expect(readSymbol('N.C.', key('C'))).toBe('none');
  expect(readChord('N.C.', key('C'))).toBeUndefined();
  expect([isChordSymbol('N.C.'), ...['NC', 'n.c.', 'N.C', 'N.C./E', 'N.C./V'].map(isChordSymbol)]).toEqual([
    true,
    false,
    false,
    false,
    false,
    false,
  ]);
  expect([plainChord('none'), printedChord('none'), chordInWords('none')]).toEqual(['N.C.', 'N.C.', 'no chord']);
});

describe('a chord name', () => {
  test.each(['A7', 'Bbm7', 'F#m7b5', 'Cmaj7', 'E', 'Db9', 'G7sus4', 'D7#9'])('%s is read', (text) => {
    expect(name(text, key('C'))).toBe(text);
  });
  test.each([
    ['C/E', 'C/E', 'C over E', 'C/E'],
    ['Am7/G', 'Am7/G', 'A minor 7 over G', 'Am7/G'],
    ['D/F♯', 'D/F#', 'D over F sharp', 'D/F♯'],
    ['Bbmin7/Ab', 'Bbm7/Ab', 'B flat minor 7 over A flat', 'B♭m7/A♭'],
    ['C6/9/E', 'C6/9/E', 'C6 9 over E', 'C6/9/E'],
    ['C69', 'C6/9', 'C6 9', 'C6/9'],
    ['C7/C', 'C7', 'C7', 'C7'],
  ])('%s has its bass behind a slash', (text, plain, words, printed) => {
    const chord = present(readChord(text, key('C')), text);
    expect([plainChord(chord), chordInWords(chord), printedChord(chord)]).toEqual([plain, words, printed]);
  });
  test('has the roles and the numeral that it has without its bass', () => {
    const [over, plain] = ['Am7/G', 'Am7'].map((text) => present(readChord(text, key('C')), text));
    expect({ ...over, bass: undefined }).toEqual({ ...plain, bass: undefined });
    expect(over && numeralOf(over, key('C'))).toBe('vi7');
  });
  test.each(['C/', 'C/H', 'C/e', '/E', 'C/E/G', 'I/E', 'C//E', 'C/Ebb'])('“%s” is none', (text) => {
    expect(isChordSymbol(text)).toBe(false);
  });
  test.each(['', 'H7', 'A7x', 'VIII', 'a7', 'xC7', 'I7 IV7', 'I7\nIV7', 'C7\nF7', 'C'.repeat(40)])(
    '“%s” is none',
    (text) => {
      expect(isChordSymbol(text)).toBe(false);
    },
  );
  test('prints its signs', () => {
    expect(printedChord(present(readChord('Bbm7b5', key('C')), 'the chord'))).toBe('B♭m7♭5');
    expect(printedChord(present(readChord('F#7#9', key('C')), 'the chord'))).toBe('F♯7♯9');
  });
});

describe('moving a chord', () => {
  test('a numeral counts from the new tonic, a name moves by the interval', () => {
    const moved = (text: string): string => {
      const chord = readChord(text, key('G'));
      return chord ? plainChord(moveChord(chord, key('G'), key('E', -1))) : '';
    };
    expect([moved('IV7'), moved('C7'), moved('F#m7'), moved('bVI7')]).toEqual(['Ab7', 'Ab7', 'Dm7', 'Cb7']);
    expect([moved('C/E'), moved('Am7/G'), moved('D/F#')]).toEqual(['Ab/C', 'Fm7/Eb', 'Bb/D']);
  });
  test('a bass keeps its distance from a root that had to take another name', () => {
    const chord = present(readChord('Db/F', key('C')), 'Db/F');
    expect(plainChord(moveChord(chord, key('C'), key('G', -1)))).toBe('G/B');
  });
  test('names its root with one sign at most', () => {
    const moved = (text: string, to: SongKey): string =>
      plainChord(moveChord(present(readChord(text, key('C')), text), key('C'), to));
    expect([moved('D#7', key('G')), moved('A#7', key('D'))]).toEqual(['A#7', 'C7']);
    expect([moved('Cb7', key('F')), moved('Fb7', key('F'))]).toEqual(['Fb7', 'A7']);
  });
  test('a numeral stays one where its root had to take another name', () => {
    const G_FLAT = key('G', -1);
    const sixth = present(readChord('bVI7', G_FLAT), 'bVI7');
    expect([plainChord(sixth), numeralOf(sixth, G_FLAT)]).toEqual(['D7', 'bVI7']);
    expect(plainChord(moveChord(sixth, G_FLAT, key('C')))).toBe('Ab7');
  });
  test('a root far from the tonic counts as its enharmonic twin', () => {
    const inC = (text: string): string => numeralOf(present(readChord(text, key('C')), text), key('C'));
    expect(['A#7', 'Gb7', 'Cb7'].map(inC)).toEqual(['#VI7', 'bV7', 'VII7']);
  });
  test('a sharp name in a flat key is that of its enharmonic twin', () => {
    const D_FLAT = key('D', -1);
    expect(
      ['C#7', 'F#7', 'G#7', 'D#m'].map((text) => numeralOf(present(readChord(text, D_FLAT), text), D_FLAT)),
    ).toEqual(['I7', 'IV7', 'V7', 'ii']);
  });
  test.each([
    ['A7', 'V7'],
    ['G7', 'IV7'],
    ['Bm7', 'vi7'],
    ['Bb7', 'bVI7'],
    ['C#dim7', 'viidim7'],
    ['G#7', '#IV7'],
    ['Ab7', 'bV7'],
  ])('%s in D is %s', (text, numeral) => {
    const chord = readChord(text, key('D'));
    expect(chord && numeralOf(chord, key('D'))).toBe(numeral);
  });
});
