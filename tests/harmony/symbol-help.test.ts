/** What to write in place of a text that is not a chord symbol. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type SongKey, songKey } from '../../src/harmony/key.ts';
import { isChordSymbol } from '../../src/harmony/symbol.ts';
import { chordHelp, isUnknownSymbol, isUnknownTarget, nameOfNumeralOver } from '../../src/harmony/symbol-help.ts';
import type { PitchClass } from '../../src/instrument/pitch.ts';

const key = (letter: PitchClass['letter'], alter = 0): SongKey => songKey({ letter, alter }, 'major');

/** The symbol that a text was meant to be, by the help for it. */
const meant = (text: string): string | undefined => /Did you mean (.+?)[?,]/.exec(chordHelp(text) ?? '')?.[1];

describe('a text that is not a chord symbol is taken for', () => {
  test.each(['NC', 'nc', 'n.c.', 'N.C', 'N C', '(N.C.)', 'no chord', 'No-Chord', 'nochord'])('N.C.: %s', (text) => {
    expect(chordHelp(text)).toBe('Did you mean N.C., for no chord?');
  });
  test.each([
    ['a7', 'A7'],
    ['c', 'C'],
    ['d#m7b5', 'D#m7b5'],
    ['f#', 'F#'],
    ['g7', 'G7'],
    ['am7/G', 'Am7/G'],
  ])('a name with a small letter: %s, %s', (text, symbol) => {
    expect(meant(text)).toBe(symbol);
  });
  test.each([
    ['H', 'B'],
    ['H7', 'B7'],
    ['hm7', 'Bm7'],
    ['H7/D#', 'B7/D#'],
  ])('a name in German: %s, %s', (text, symbol) => {
    expect(meant(text)).toBe(symbol);
  });
  test.each([
    ['C/e', 'C/E'],
    ['Am7/g', 'Am7/G'],
    ['G/H', 'G/B'],
    ['G/h', 'G/B'],
    ['Gm/bb', 'Gm/Bb'],
  ])('a name over a bass that is misspelled: %s, %s', (text, symbol) => {
    expect(meant(text)).toBe(symbol);
    expect(chordHelp(text)).toContain('Behind the slash of a name is the note of the bass');
  });
  test.each([
    ['V7/V7', 'V7/V'],
    ['V7/ii7', 'V7/ii'],
    ['viidim7/bVImaj7', 'viidim7/bVI'],
    ['V7/♯ivm', 'V7/♯iv'],
  ])('a numeral of a numeral with its quality behind it: %s, %s', (text, symbol) => {
    expect(chordHelp(text)).toBe(`Behind the slash is a numeral alone. Did you mean ${symbol}?`);
  });
});

describe('no symbol is guessed', () => {
  test.each(['', 'Q', 'x7', 'Cx', 'Ax9', 'Ixyz', 'hello', 'nocturne', 'no chords', 'a no chord', 'NCX', 'xNC'])(
    'and nothing said of “%s”',
    (text) => {
      expect(chordHelp(text)).toBeUndefined();
    },
  );
  test.each(['b7', 'bm7', 'badd9'])('of %s: a small b in front is the flat of a numeral', (text) => {
    expect(chordHelp(text)).toBeUndefined();
  });
  test.each(['/E', 'Q/E', 'a/e', 'N.C./E', 'N.C./x'])('where no chord is before the slash: %s', (text) => {
    expect(chordHelp(text)).toBeUndefined();
  });
  test.each(['C/', 'C/X', 'C/Ebb', 'C/E/G'])('for a bass that is no note, which is explained: %s', (text) => {
    expect(chordHelp(text)).toMatch(/^Behind the slash of a name is the note of the bass, .+ it has one\.$/);
  });
  test.each(['V7/', 'V7/X', 'V7/xV7', 'V7/V/V', 'V7/IIIII7'])(
    'for a step that is none, which is explained: %s',
    (text) => {
      expect(chordHelp(text)).toMatch(/^Behind the slash of a numeral is one other numeral/);
    },
  );
});

test('a symbol that is guessed is always one', () => {
  const text = fc
    .array(fc.constantFrom(...'ABCHabchIViv7m#b♭/. n', 'maj7', 'dim7', 'no', 'chord'), { maxLength: 6 })
    .map((parts) => parts.join(''));
  fc.assert(
    fc.property(text, (written) => {
      fc.pre(!isChordSymbol(written));
      const guess = meant(written);
      expect(guess === undefined || isChordSymbol(guess)).toBe(true);
    }),
  );
});

describe('a numeral over a note', () => {
  test.each([
    ['I/E', 'C/E'],
    ['V7/B', 'G7/B'],
    ['vi7/G', 'Am7/G'],
    ['bVI/Eb', 'Ab/Eb'],
    ['II7/F♯', 'D7/F#'],
    ['V7/V/A', 'D7/A'],
    ['I/C', 'C'],
  ])('%s is explained by its name in C, %s', (text, name) => {
    expect(chordHelp(text)).toBe(`A numeral has no bass note. Write the chord by its name: in C it is ${name}.`);
  });
  test('has the name of its chord in the key of the song', () => {
    expect([nameOfNumeralOver('I/B', key('G')), nameOfNumeralOver('IV7/G', key('B', -1))]).toEqual(['G/B', 'Eb7/G']);
  });
  test.each(['I', 'I/H', 'I/Ex', 'I/Ebb', 'Ixyz/E', 'C/E', 'V7/V', '/E', 'Q/E'])('%s is none', (text) => {
    expect(nameOfNumeralOver(text, key('C'))).toBeUndefined();
  });
});

describe('a text that nothing is known of', () => {
  test('is neither a symbol nor a numeral over a note', () => {
    expect(['A7', 'ii7', 'V7/V', 'C/E', 'N.C.', 'I/E', 'bVI/Eb'].filter(isUnknownSymbol)).toEqual([]);
    expect(['Q', 'a7', 'NC', 'V7/V7', 'C/e', ''].filter((text) => !isUnknownSymbol(text))).toEqual([]);
  });
  test('as what a quotation is moved to may also be no chord, which is explained', () => {
    expect(['A7', 'ii7', 'N.C.', 'I/E', 'Q'].filter(isUnknownTarget)).toEqual(['N.C.', 'Q']);
    expect(chordHelp('N.C.')).toBe('A quotation moves to a chord, and where no chord sounds there is none.');
  });
});
