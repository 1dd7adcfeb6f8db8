/** Lines that are meant as settings and are not written as such. */
import { describe, expect, test } from 'vitest';
import {
  lettersOf,
  meantPhraseName,
  meantSetting,
  nearestSetting,
  secondSetting,
  spoiledSetting,
} from '../../../src/notation/mistakes/setting-lines.ts';

const KEYS = ['harp', 'tempo', 'key', 'meter', 'feel', 'part', 'words', 'phrase', 'slot', 'chords'];

/** The line as a setting, and a question mark where something else may be meant. */
const written = (line: string): string | undefined => {
  const found = meantSetting(line, KEYS);
  return (
    found &&
    `${line.slice(0, found.from)}${found.head}${line.slice(found.to, found.valueTo)}${found.isCertain ? '' : ' ?'}`
  );
};

describe('a line that reads as a setting', () => {
  test.each([
    ['harp A', 'harp: A'],
    ['Harp = A', 'harp: A'],
    ['harp := A', 'harp: A'],
    ['- harp: A', 'harp: A'],
    ['  * tempo 90', '  tempo: 90'],
    ['key of A', 'key: A'],
    ['key is A minor', 'key: A minor'],
    ['tempo at 90', 'tempo: 90'],
    ['key = in A', 'key: A'],
    ['[Chorus]', 'part: Chorus'],
    [' [ Verse 2 ]', ' part: Verse 2'],
    ['part B', 'part: B ?'],
    ['part = B', 'part: B'],
    ['words of love', 'words: of love ?'],
    ['phrase lick 4 5', 'phrase lick: 4 5'],
    ['phrase lick = 4 5', 'phrase lick: 4 5 ?'],
    ['- phrase my-lick 4 5', 'phrase my-lick: 4 5'],
    ['Phrase 2b 4 5', 'phrase 2b: 4 5'],
  ])('%s is meant as %s', (line, setting) => {
    expect(written(line)).toBe(setting);
  });
  test.each(['harp: A', '  tempo: 90', '4 5 6', 'harp', 'harpA', 'song A', '[chorus]', '[A] 4 5', '[]', 'phrase 2 4 5', 'phrase lick', '. harp A', '-4 harp A'])(
    '%s is none',
    (line) => {
      expect(written(line)).toBeUndefined();
    },
  ); // biome-ignore format: a list
});

describe('the setting that an unknown name is for', () => {
  test.each([
    ['time signature', 'meter'],
    ['Metre', 'meter'],
    ['BPM', 'tempo'],
    ['speed', 'tempo'],
    ['scale', 'key'],
    ['harmonica', 'harp'],
    ['swing', 'feel'],
    ['groove', 'feel'],
    ['progression', 'chords'],
    ['changes', 'chords'],
    ['note length', 'slot'],
    ['upbeat', 'pickup'],
    ['embouchure', 'mouth'],
    ['section', 'part'],
    ['riff', 'phrase'],
    ['tmepo', 'tempo'],
    ['verse', 'words'],
    ['lyrics 2', 'words 2'],
    ['Verse 3', 'words 3'],
  ])('%s: %s', (name, setting) => {
    expect(nearestSetting(name, KEYS)).toBe(setting);
  });
  test('is none where none is near', () => {
    expect(nearestSetting('colour', KEYS)).toBeUndefined();
  });
});

describe('a second setting in the value of another', () => {
  const rest = (value: string) => {
    const found = secondSetting(value, KEYS);
    return (
      found && [
        value.slice(0, found.at),
        found.key,
        value.slice(found.keyAt, found.valueAt),
        value.slice(found.valueAt),
      ]
    );
  };
  test.each([
    ['1/4, tempo: 90', ['1/4', 'tempo', 'tempo: ', '90']],
    ['A; Key=C', ['A', 'key', 'Key=', 'C']],
    ['A   harp : C', ['A', 'harp', 'harp : ', 'C']],
    ['tempo: 90', ['', 'tempo', 'tempo: ', '90']],
    ['a: b tempo: 90', ['a: b', 'tempo', 'tempo: ', '90']],
  ])('%s', (value, parts) => {
    expect(rest(value)).toEqual(parts);
  });
  test.each(['A', 'tempo 90', 'A, size: 3', 'mytempo: 90', ''])('is none in “%s”', (value) => {
    expect(rest(value)).toBeUndefined();
  });
});

describe('a name of a setting with a sign in it', () => {
  const spoiled = (line: string) => {
    const found = spoiledSetting(line, KEYS);
    return found && [line.slice(found.from, found.to), line.slice(found.valueFrom)];
  };
  test.each([
    ["te'mpo: 72", ["te'mpo", ' 72']],
    ['  ha_rp : A', ['ha_rp', ' A']],
    ['phrase li!ck: 4 5', ['phrase li!ck', ' 4 5']],
    ['phraes lick: 4 5', ['phraes lick', ' 4 5']],
    ['temp"o:', ['temp"o', '']],
  ])('%s', (line, parts) => {
    expect(spoiled(line)).toEqual(parts);
  });
  test.each(['4 5 6', 'tempo 72', "te'mpo:72", '1/4: 2', 'colours: 3', "'4: 5"])('is none in %s', (line) => {
    expect(spoiled(line)).toBeUndefined();
  });
  test('has its letters without that sign', () => {
    expect(["te'mpo", 'note length', 'my-key', 'k:e|y'].map(lettersOf)).toEqual([
      'tempo',
      'note length',
      'my-key',
      'key',
    ]);
  });
});

test('a mistyped phrase is one with its name, and no other setting with a word behind it', () => {
  const names = [
    'phraes lick',
    'phras lick',
    'Phrase! lick',
    'phrase lick',
    'tempo lick',
    'phraes',
    'phraes a b',
    'riff lick',
  ];
  expect(names.map((name) => meantPhraseName(name, KEYS))).toEqual([
    'phrase lick',
    'phrase lick',
    'phrase lick',
    undefined,
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
});
