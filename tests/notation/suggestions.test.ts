import { describe, expect, test } from 'vitest';
import { readSetting, type SettingKey } from '../../src/notation/setting-values.ts';
import type { SUGGESTIONS } from '../../src/notation/suggestions.ts';

const MISTAKES: Readonly<
  Record<keyof typeof SUGGESTIONS | 'form' | 'tuning', Readonly<Record<string, string | undefined>>>
> = {
  harp: {
    'C harp': 'C',
    'key of C': 'C',
    'C major': 'C',
    'F low': 'low F',
    lowF: 'low F',
    'G high': 'high G',
    Bflat: 'Bb',
    'B flat': 'Bb',
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
    tounge: 'tongue',
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
