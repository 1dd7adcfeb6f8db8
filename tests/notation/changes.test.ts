/** Settings that change within a block. */
import { describe, expect, test } from 'vitest';
import { plainKey } from '../../src/harmony/key.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { printScore } from '../../src/notation/print/print.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';
import type { Score } from '../../src/score/score.ts';
import { feelName } from '../../src/time/feel.ts';
import { format } from '../../src/time/fraction.ts';
import { meterName } from '../../src/time/meter.ts';
import { present } from '../../src/values/checked.ts';
import { shownBars, shownChords } from './shown.ts';

const read = (text: string, context: ReadContext = ALONE): Score => {
  const { score, diagnostics } = readBlock(text, context);
  expect(diagnostics).toEqual([]);
  return present(score, text);
};
const meters = (score: Score): string[] => score.bars.map(({ meter }) => meterName(meter));

describe('a setting on a line of its own', () => {
  test('changes the meter from the next bar on', () => {
    const score = read('slot: 1/4\n4 4 4 4 |\nmeter: 3/4\n4 4 4 | 5 5 5 |\nmeter: 2/4\n4 4 |]');
    expect(meters(score)).toEqual(['4/4', '3/4', '3/4', '2/4']);
    expect(score.bars.map(({ length }) => format(length))).toEqual(['1', '3/4', '3/4', '1/2']);
  });
  test('changes how long slots are', () => {
    const score = read('slot: 1/4\n4 4 4 4 |\nslot: 1/8\n5 5 5 5 5 5 5 5 |]');
    expect(shownBars(score)[1]).toMatch(/^E5 1\/8, /);
    expect(score.bars.map(({ slot }) => format(slot))).toEqual(['1/4', '1/8']);
  });
  test('changes the feel', () => {
    const score = read('4 4 4 4 4 4 4 4 |\nfeel: shuffle\n4 4 4 4 4 4 4 4 |]');
    expect(score.bars.map(({ feel }) => feelName(feel))).toEqual(['straight', 'shuffle']);
  });
  test('changes the tempo at once, gradually, or both', () => {
    const bar = '4 = = =';
    const score = read(
      `slot: 1/4\n${bar} |\ntempo: 100\n${bar} |\ntempo: to 60\n${bar} |\ntempo: 120 to 140\n${bar} |]`,
    );
    expect(score.bars.map(({ tempo }) => tempo)).toEqual([
      undefined,
      { from: 100 },
      { to: 60 },
      { from: 120, to: 140 },
    ]);
  });
  test('changes the position: numerals count from its key from there on, and the mode is that of the chords there', () => {
    const score = read(
      'position: 2\n"I7" -2 = = = = = = = |\nposition: 3\n"i" -4 = = = = = = = | "iv" 6 = = = = = = = |]',
    );
    expect(score.bars.map(({ key }) => plainKey(key))).toEqual(['G major', 'D minor', 'D minor']);
    expect(shownChords(score)).toEqual(['G7', 'Dm', 'Gm']);
    expect(shownBars(score)).toEqual(['G4=R 1', 'D5=R 1', 'G5=R 1']);
  });
  test('changes the mode alone', () => {
    const score = read('4 = = = = = = = |\nkey: minor\n4 = = = = = = = |]');
    expect(score.bars.map(({ key }) => plainKey(key))).toEqual(['C major', 'C minor']);
  });
  test('a chord that sounds on after a change of position has the numeral it has there', () => {
    const score = read('position: 2\n"I7" -2 = = = = = = = |\nposition: 1\n4 = = = = = = = |]');
    const [, bar] = score.bars;
    expect(shownChords(score)).toEqual(['G7', 'G7']);
    expect(bar?.chords[0]?.chord).toMatchObject({ numeral: 'V7' });
  });
  test('a form goes on in the new key', () => {
    const bar = '-2 = = = = = = =';
    const score = read(`position: 2\nchords: I7 | IV7\n${bar} | ${bar} |\nposition: 1\n${bar} | ${bar} |]`);
    expect(shownChords(score)).toEqual(['G7', 'C7', 'C7', 'F7']);
  });
  test('of the position is printed with the chord that its mode goes by, also where that sounds on', () => {
    const score = read('harp: G\nslot: 1/4\n"A7" 1 1 1 1 |\nposition: 3\n"I7" 1 1 1 1 |]');
    expect(score.bars.map(({ key }) => key.mode)).toEqual(['major', 'major']);
    expect(read(printScore(score)).bars.map(({ key }) => key.mode)).toEqual(['major', 'major']);
  });
  test('of slots holds in an ending alone, for notes and for phrases that are written there', () => {
    const score = read(
      'slot: 1/4\nphrase a: 4 5\n|: 4 4 4 4 |1\nslot: 1/8\n4 4 4 4 4 4 4 4 :|2 6 6 6 6 |\nphrase b: 4 5\n<a> <b> |]',
    );
    expect(score.bars.map(({ slot }) => format(slot))).toEqual(['1/4', '1/8', '1/4', '1/4']);
    expect(score.bars.at(-1)?.events.map(({ duration }) => format(duration))).toEqual(['1/4', '1/4', '1/4', '1/4']);
  });
  test('of the position holds in an ending alone, for moved quotations and warnings as well', () => {
    const bars = (second: string): string =>
      `position: 2\nphrase a: -2 =3 -3' =3\n|: "I7" <a> |1\nposition: 1\n"I7" 4 =7 :|2 ${second} |]`;
    const [moved, named] = [read(bars('<a to "IV7">')), read(bars('<a to "C7">'))];
    expect(shownBars(moved)).toEqual(shownBars(named));
    expect(moved.bars.map(({ position }) => position)).toEqual([2, 1, 2]);
    expect(
      read('position: 2\n|: "i7" -2 =7 |1\nposition: 1\nkey: C major\n"I7" 4 =7 :|2\nkey: G minor\n"i7" -2 =7 |]'),
    ).toBeDefined();
  });
  test('holds in an ending alone: the other endings continue from the bar before the first one', () => {
    const score = read('slot: 1/4\n|: 4 4 4 4 |1\nmeter: 2/4\n4 4 :|2 5 5 5 5 |]');
    expect(meters(score)).toEqual(['4/4', '2/4', '4/4']);
    expect(printScore(score).match(/^meter:.*$/gm)).toEqual(['meter: 4/4', 'meter: 2/4']);
  });
  test('ends a bar without a bar line, as every line of its own does', () => {
    expect(meters(read('slot: 1/4\n4 4 4 4\nmeter: 3/4\n4 4 4'))).toEqual(['4/4', '3/4']);
  });
});

describe('a phrase', () => {
  test('is read in the slots of the place where it is written', () => {
    const score = read('slot: 1/4\nphrase a: 4 5\n<a> <a> |\nslot: 1/8\nphrase b: 6 7\n<a> <b> <b> |]');
    expect(shownBars(score)).toEqual([
      'C5 1/4, E5 1/4, C5 1/4, E5 1/4',
      'C5 1/4, E5 1/4, G5 1/8, C6 1/8, G5 1/8, C6 1/8',
    ]);
  });
  test('of another block comes in the slots and from the position it has there', () => {
    const tree = parseBlock(
      'id: a\nposition: 1\n4 = = = = = = = |\nposition: 2\nslot: 1/4\nphrase p: "IV7" 4 5\n-2 = = = |]',
    );
    const context: ReadContext = { ...ALONE, find: () => ({ tree, context: ALONE }) };
    const score = read('position: 2\n<a:p> = = = = |]', context);
    expect(shownChords(score)).toEqual(['C7']);
    expect(shownBars(score)).toEqual(['C5=R 1/4, E5=3 3/4']);
  });
});

describe('a phrase that is moved to a chord', () => {
  const phrase = 'phrase step: -4 -5 -6 -4';
  const roles = 'D5=R 1/8, F5=♭3 1/8, A5=5 1/8, D5=R 1/8';
  test('counts as written over the home chord of the position where it is written', () => {
    const score = read(`position: 3\n${phrase}\n"i7" <step> .4 |\nposition: 2\n"v7" <step to "v7"> .4 |]`);
    expect(shownBars(score)).toEqual([`${roles}, rest 1/2`, `${roles}, rest 1/2`]);
  });
  test('so does one of another block', () => {
    const tree = parseBlock(`id: a\n4 =7 |\nposition: 3\n${phrase}\n"i7" <step> .4 |]`);
    const context: ReadContext = { ...ALONE, find: () => ({ tree, context: ALONE }) };
    expect(shownBars(read('position: 2\n<a:step to "v7"> .4 |]', context))).toEqual([`${roles}, rest 1/2`]);
  });
});

describe('a whole block that is quoted', () => {
  const tree = parseBlock('id: a\ntempo: 60\nslot: 1/4\n4 4 4 4 |\nmeter: 3/4\ntempo: 90\nfeel: shuffle\n5 5 5 |]');
  const context: ReadContext = { ...ALONE, find: () => ({ tree, context: ALONE }) };
  test('brings its changes of meter and feel, and of tempo in proportion; after it the block goes on as before', () => {
    const score = read('tempo: 120\nslot: 1/4\n<:a> | 6 6 6 6 |]', context);
    expect(meters(score)).toEqual(['4/4', '3/4', '4/4']);
    expect(score.bars.map(({ feel }) => feelName(feel))).toEqual(['straight', 'shuffle', 'straight']);
    expect(score.bars.map(({ tempo }) => tempo)).toEqual([undefined, { from: 180 }, { from: 120 }]);
  });
  test('may be the last bars before endings, which each go on as before it', () => {
    const score = read('tempo: 60\nslot: 1/4\n|: <:a> |1 4 4 4 4 :|2 5 5 5 5 |]', context);
    expect(meters(score)).toEqual(['4/4', '3/4', '4/4', '4/4']);
  });
  test('a setting that is written after it applies from there on, with a bar line before it or without', () => {
    for (const line of ['', ' |']) {
      const score = read(`slot: 1/4\n<:a>${line}\nmeter: 2/4\ntempo: to 60\n6 6 | 6 6 |]`, context);
      expect(meters(score)).toEqual(['4/4', '3/4', '2/4', '2/4']);
      expect(score.bars.map(({ feel }) => feelName(feel))).toEqual(['straight', 'shuffle', 'straight', 'straight']);
      expect(score.bars.map(({ tempo }) => tempo)).toEqual([undefined, { from: 120 }, { from: 80, to: 60 }, undefined]);
    }
  });
  test('is followed by another that begins with the settings from before the first', () => {
    expect(meters(read('slot: 1/4\n<:a> |\n<:a> | 6 6 6 6 |]', context))).toEqual(['4/4', '3/4', '4/4', '3/4', '4/4']);
  });
  test('may end a block that has changes', () => {
    expect(meters(read('tempo: 60\nslot: 1/4\n<:a> |]', context))).toEqual(['4/4', '3/4']);
  });
});
