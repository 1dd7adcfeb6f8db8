import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { readSetting, type SettingKey } from '../../src/notation/setting-values.ts';
import type { SUGGESTIONS } from '../../src/notation/suggestions.ts';

const MISTAKES: Readonly<
  Record<keyof typeof SUGGESTIONS | 'form' | 'tuning', Readonly<Record<string, string | undefined>>>
> = {
  key: {
    Am: 'A minor',
    A: 'A major',
    'a minor': 'A minor',
    Bbm: 'Bb minor',
    min: 'minor',
    Minor: 'minor',
    aeolian: 'minor',
    ionian: 'major',
    'D dor': 'D dorian',
    dorain: 'dorian',
    mixo: 'mixolydian',
    'minor key': 'minor',
    H: undefined,
    blue: undefined,
  },
  harp: {
    'C harp': 'C',
    'key of C': 'C',
    'C major': 'C',
    'F low': 'low F',
    lowF: 'low F',
    'G high': 'high G',
    Bflat: 'Bb',
    'B flat': 'Bb',
    'D#': 'Eb',
    'G#': 'Ab',
    'E#': 'F',
    'B#': 'C',
    Cb: 'B',
    Fb: 'E',
    'low A#': 'low Bb',
    'harmonica in the key of G maj': 'G',
    'A#': 'Bb',
    'F sharp': 'F#',
    H: undefined,
    Am: undefined,
    'super low F': undefined,
    low: undefined,
    '12': undefined,
  },
  position: {
    '2nd': '2',
    second: '2',
    'second position': '2',
    cross: '2',
    'cross harp': '2',
    two: '2',
    II: '2',
    'position 3': '3',
    straight: '1',
    slant: '3',
    III: '3',
    IV: '4',
    V: '5',
    VI: '6',
    VII: '7',
    VIII: '8',
    IX: '9',
    X: '10',
    XI: '11',
    XII: '12',
    '12th': '12',
    '13': undefined,
    '0': undefined,
    blues: undefined,
  },
  meter: {
    '4:4': '4/4',
    '3-4': '3/4',
    '3/4 time': '3/4',
    'six-eight': '6/8',
    'common time': '4/4',
    C: '4/4',
    cut: '2/2',
    'alla breve': '2/2',
    waltz: '3/4',
    '5/3': undefined,
    '17/8': undefined,
    fast: undefined,
  },
  tempo: {
    '120 bpm': '120',
    '120bpm': '120',
    '♩=90': '90',
    '1/4 = 90': '90',
    '60,5': '60.5',
    fast: undefined,
    '90-100': undefined,
    '500': undefined,
  },
  feel: {
    swing: 'shuffle',
    swung: 'shuffle',
    Shuffle: 'shuffle',
    shuffel: 'shuffle',
    triplet: 'shuffle',
    even: 'straight',
    Straight: 'straight',
    eighths: 'straight',
    plain: 'straight',
    none: 'straight',
    triplets: 'shuffle',
    'straight eighths': 'straight',
    '60-40': '60:40',
    '2/1': '2:1',
    '1:2': undefined,
    lazy: undefined,
  },
  slot: {
    eighth: '1/8',
    'eighth notes': '1/8',
    '8th': '1/8',
    '8th note': '1/8',
    half: '1/2',
    '16th': '1/16',
    'thirty-second': '1/32',
    '1/3 quarter': undefined,
    '8': '1/8',
    '1/8th': '1/8',
    quarter: '1/4',
    '2/8': '1/4',
    'dotted eighth': '3/16',
    '1/4 dotted': '3/8',
    whole: '1/1',
    '1/12': undefined,
    triplet: undefined,
    '1/64': undefined,
  },
  mouth: {
    lip: 'lips',
    'lip pursing': 'lips',
    pucker: 'lips',
    puckered: 'lips',
    purse: 'lips',
    pursed: 'lips',
    tounge: 'tongue',
    block: 'tongue',
    'U-block': 'tongue',
    'tongue-block': 'tongue',
    'tongue blocked': 'tongue',
    TB: 'tongue',
    both: undefined,
  },
  form: {
    '12-bar': 'twelve-bar',
    '12 bar': 'twelve-bar',
    'twelve bar blues': 'twelve-bar',
    '8 bar': 'eight-bar',
    'quick change': 'quick-change',
    'twelve-bar 1-4': 'twelve-bar',
    'Twelve-bar with a turnaround': 'twelve-bar-turnaround',
    '12 bar bars 1-4': 'twelve-bar',
    waltz: undefined,
  },
  tuning: {
    Richter: 'richter',
    'natural minor': 'natural-minor',
    'raised 5th draw': 'raised-fifth-draw',
    chromatic: 'solo-chromatic',
    solo: 'solo-chromatic',
    minor: undefined,
    country: undefined,
  },
};

describe.each(Object.entries(MISTAKES))('what was meant by the %s', (key, mistakes) => {
  test.each(Object.entries(mistakes))('%j suggests %j', (written, meant) => {
    const read = readSetting(key as SettingKey, written);
    if ('value' in read) throw new Error(`${written} is read`);
    if (meant === undefined) expect(read.help).toMatch(/^(Write|There are) /);
    else {
      expect(read.help).toBe(`Did you mean “${meant}”?`);
      expect(readSetting(key as SettingKey, meant)).toHaveProperty('value');
    }
  });
});

/** What a word in brackets behind a note is taken for, and whether it is certain. */
const markFor = (word: string): string | undefined => {
  const text = `slot: 1/4\n-4[${word}] 4 4 4`;
  const [problem, ...others] = readBlock(text).diagnostics;
  expect([problem?.code, others]).toEqual(['mark-unknown', []]);
  const fix = problem?.fix;
  return fix && `${fix.edits.map(({ text: written }) => written).join()}${fix.certain ? '' : ' ?'}`;
};

test.each([
  ['p', 'softly', 'quiet'],
  ['f', 'loud', 'strong'],
  ['pp', 'very-soft'],
  ['ff', 'fff'],
  ['cresc', 'louder', 'swell', 'grow'],
  ['dim', 'decrescendo', 'softer', 'fade'],
  ['tenuto', 'legato', 'long'],
  ['staccato', 'short'],
  ['breath', 'breathe', 'comma'],
  ['hand', 'hands', 'cup'],
  ['wah', 'wow', 'wa'],
  ['ghost', 'hint', 'dead'],
  ['fall', 'drop', 'doit'],
  ['dip', 'scoop'],
  ['accent', 'marcato', 'sforzando', 'acent'],
  ['tongue', 'tounge'],
  ['lips', 'lps'],
])('the mark %s is found by its other names', (mark, ...words) => {
  expect(words.map(markFor)).toEqual(words.map(() => `${mark} ?`));
});

test('a mark that is the same word written in full, or in capitals, is certain', () => {
  expect(
    ['piano', 'Forte', 'pianissimo', 'fortissimo', 'crescendo', 'diminuendo', 'ten', 'stacc', 'SLAP'].map(markFor),
  ).toEqual(['p', 'f', 'pp', 'ff', 'cresc', 'dim', 'tenuto', 'staccato', 'slap']);
});

test('a trill is a shake with its hole, and has no fix without one', () => {
  expect(['trill 5', 'warble 5'].map(markFor)).toEqual(['shake', 'shake']);
  expect(['trill', 'warble'].map(markFor)).toEqual([undefined, undefined]);
});
