/** Values of settings that can mean nothing else than what is suggested for them, so that `check --fix` may write it. */
import { describe, expect, test } from 'vitest';
import { isSureValue, unquotedValue } from '../../../src/notation/mistakes/sure-values.ts';
import type { SUGGESTIONS } from '../../../src/notation/suggestions.ts';

interface Values {
  readonly sure: readonly string[];
  readonly unsure: readonly string[];
}

const VALUES: Readonly<Record<keyof typeof SUGGESTIONS, Values>> = {
  harp: {
    sure: ['C harp', 'low F', 'F low', 'lowF', 'highBb', 'high G', 'Bflat', 'B flat', 'B-flat', 'F sharp', 'E♭', 'key of C'],
    unsure: ['H', 'Am', 'super low F', 'C or D', 'low', 'lowF please', 'Cis'],
  },
  position: {
    sure: ['2nd', '3rd', '1st', '12th', 'second', 'Twelfth', 'two', 'cross harp', 'straight', 'slant', 'II', 'iv', 'X', '2nd position', 'third pos.'],
    unsure: ['blues', 'second or third', '2nds', 'XIII', 'across', '123rd'],
  },
  key: {
    sure: ['Am', 'A min', 'Bb minor', 'F# maj', 'Gmajor', 'D dor', 'E♭ dorian', 'E phrygian', 'F lydian', 'G mixolydian', 'B locrian', 'min', 'maj', 'aeolian', 'ionian'],
    unsure: ['A', 'H minor', 'blue', 'a minor blues', 'sad minor', 'Ammin'],
  },
  meter: {
    sure: ['4:4', '3-4', '3 4', '6\\8', '6|8', '12⁄8', '6 : 8', 'common time', 'Cut', 'alla breve', 'six-eight'],
    unsure: ['fast', '4:4:4', '123:4', 'uncommon', 'cutting', '4x4'],
  },
  tempo: {
    sure: ['120 bpm', '120bpm', '60,5', '60.5', '90 beats per minute', '90 beats a minute', '90 beats/min', '"90"'],
    unsure: ['5', '1200', '90-100', 'fast 90', '60,55'],
  },
  feel: {
    sure: ['swung', 'Shuffled', 'shuffles', 'shuffle feel', '60-40', '66/33', 'even'],
    unsure: ['lazy', 'swing or straight', '600-40', '60-400', 'uneven', 'unshuffle'],
  },
  slot: {
    sure: ['1:8', '1-16', '1/8th', '8th', '16ths', '32nd', 'eighth', 'eighths', 'Half', 'sixteenth notes', 'thirty-second', 'thirtysecond notes', 'whole', 'quarter'],
    unsure: ['dotted eighth', 'tiny', '2:8', '1/8 or 1/16', 'halfway', '8'],
  },
  mouth: {
    sure: ['lip', 'lip pursing', 'pucker', 'puckered', 'puckering', 'purse', 'pursed', 'tongue block', 'tongue-blocking', 'tongueblocked', 'TB'],
    unsure: ['lipstick', 'u-block', 'tongueless', 'tulip', 'pursers', 'both'],
  },
}; // biome-ignore format: a table

describe.each(Object.entries(VALUES))('%s', (key, { sure, unsure }) => {
  test.each(sure)('“%s” means one value', (text) => {
    expect(isSureValue(key, text, 'x')).toBe(true);
  });
  test.each(unsure)('“%s” may mean another one', (text) => {
    expect(isSureValue(key, text, 'x')).toBe(false);
  });
});

test('a value is sure where it is spelled with other capitals, signs between words, or marks around it', () => {
  for (const text of ['twelve bar', 'Twelve-Bar', 'TWELVE_BAR', '“twelve-bar”', 'twelve-bar;', 'twelve  bar.'])
    expect(isSureValue('form', text, 'twelve-bar'), text).toBe(true);
  expect(isSureValue('key', 'minor mode', 'minor')).toBe(true);
  expect(isSureValue('form', 'twelvebar', 'twelve-bar')).toBe(false);
  expect(isSureValue('toString', 'twelve', 'twelve-bar')).toBe(false);
});

test('a value is taken out of quotation marks that are a pair, and loses one comma or period behind it', () => {
  const values = ['"C"', "'low F'", '" C "', 'C,', 'C;', 'C.', 'C', `"C'`, '"C', "don't", 'C,,'];
  expect(values.map(unquotedValue)).toEqual(['C', 'low F', 'C', 'C', 'C', 'C', 'C', `"C'`, '"C', "don't", 'C,']);
});
