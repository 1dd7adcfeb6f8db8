import { describe, expect, test } from 'vitest';
import { readHarp } from '../../src/instrument/harp.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';
import { phrasesOf, playedPhrases } from '../../src/score/phrases.ts';
import { playbackOn } from '../../src/score/playback.ts';
import { playbackOf } from '../../src/score/playback-of.ts';
import type { Score } from '../../src/score/score.ts';
import { present } from '../../src/values/checked.ts';

const OTHERS = new Map(
  Object.entries({
    one: 'slot: 1/8\nphrase turn: 4 5 6 5\n<turn> <turn>',
    two: 'phrase turn: -4 -5\nphrase both: -6 <turn> -6\n<turn> =6',
  }).map(([id, text]) => [id, parseBlock(text)]),
);
const CONTEXT: ReadContext = {
  ...ALONE,
  find: (_, block) => {
    const tree = OTHERS.get(block);
    return tree ? { tree, context: CONTEXT } : { missing: 'block' };
  },
};

function scoreOf(text: string): Score {
  const { score, diagnostics } = readBlock(text, CONTEXT);
  expect(diagnostics).toEqual([]);
  return present(score, 'the score');
}

/** `name: 0-3 8-11`, by the indices of events; bars in brackets where there are several. */
const shown = (score: Score): string[] =>
  phrasesOf(score).map(
    ({ name, occurrences }) =>
      `${name}: ${occurrences.map(({ from, to, first, last }) => `${from}-${to}${last > first ? ` (${first}-${last})` : ''}`).join(' ')}`,
  );
const phrases = (text: string): string[] => shown(scoreOf(text));

describe('the phrases of a block', () => {
  test('are those that it plays at least twice, in the order of their first occurrences', () => {
    expect(phrases('phrase a: 4 5\nphrase b: 6 6\nphrase once: 7 7\n<b> <a> <once> <a> | <b> .6')).toEqual([
      'b: 0-1 8-9',
      'a: 2-3 6-7',
    ]);
    expect(phrases('phrase a: 4 5\n<a> 4 5 .4')).toEqual([]);
    expect(phrases('4 5 4 5 .4')).toEqual([]);
  });

  test('are apart where they follow one another', () => {
    expect(phrases('phrase a: 4 5 6 7\n<a> <a> | <a> <a>')).toEqual(['a: 0-3 4-7 8-11 12-15']);
    expect(phrases('<one:turn> <one:turn>')).toEqual(['turn: 0-3 4-7']);
    expect(phrases('phrase own: <one:turn>\n<own> <own>')).toEqual(['turn: 0-3 4-7']);
    expect(phrases('phrase own: <one:turn> <one:turn>\n<own>')).toEqual(['turn: 0-3 4-7']);
  });

  test('go over bar lines, from the first sound to the last', () => {
    expect(phrases('phrase a: . 4 = = 5 = | = 4 . .\n4 4 <a> 4 4 4 4 | 4 4 <a> 4 4 4 4')).toEqual([
      'a: 3-6 (0-1) 15-18 (2-3)',
    ]);
  });

  test('are counted with their moved places', () => {
    const moved = 'position: 2\nchords: I7 | IV7\nphrase a: -2 -3 -4 5\n<a> .4 | <a to "IV7"> .4';
    expect(phrases(moved)).toEqual(['a: 0-3 5-8']);
  });

  test('keep what is in them', () => {
    expect(phrases('phrase in: 4 4\nphrase out: 5 <in> 5\n<out> <in> 6 6 | <out> <in> 6 6')).toEqual([
      'out: 0-3 8-11',
      'in: 4-5 12-13',
    ]);
    expect(phrases('phrase own: 5 <two:turn> 5\n<own> <own>')).toEqual(['own: 0-3 4-7']);
    expect(phrases('<two:both> <two:both>')).toEqual(['both: 0-3 4-7']);
  });

  test('have the names of their blocks where two have one name', () => {
    expect(phrases('<one:turn> <two:turn> <two:turn> | <one:turn> .4')).toEqual([
      'one:turn: 0-3 8-11',
      'two:turn: 4-5 6-7',
    ]);
  });

  test('have the names of their lessons and blocks where two blocks have one name, too', () => {
    expect(phrases('<one:turn> <first/one:turn> | <first/one:turn> <one:turn>')).toEqual([
      'one:turn: 0-3 12-15',
      'first/one:turn: 4-7 8-11',
    ]);
  });

  test('are played again with their bar, if they are whole in it', () => {
    expect(phrases('phrase a: 4 5\n<a> <a> .4 | % | %')).toEqual(['a: 0-1 2-3 5-6 7-8 10-11 12-13']);
    expect(phrases('phrase a: 4 5 6 7\n<a> .4 | %')).toEqual(['a: 0-3 5-8']);
    expect(phrases('phrase a: 4 5\nphrase b: 6 6\n<a> <b> .4 | % | 4 <a> <b> 4 4 4')).toEqual([
      'a: 0-1 5-6 11-12',
      'b: 2-3 7-8 13-14',
    ]);
    expect(phrases('phrase long: 4 = = = | 5 = = =\n.4 <long> .4 | % | .4 <long> .4')).toEqual([
      'long: 1-2 (0-1) 7-8 (3-4)',
    ]);
  });

  test('are no whole blocks', () => {
    expect(phrases('<:one> | <:one> |]')).toEqual([]);
  });

  test('go with the playback of the block, also on another harp, and are not there where none is repeated', () => {
    const score = scoreOf('slot: 1/4\nphrase a: 4 5\n<a> <a> | 6 6 <a>');
    const playback = { ...playbackOf(score), ...playedPhrases(score) };
    const places = [
      { from: 0, to: 1, first: 0, last: 0 },
      { from: 2, to: 3, first: 0, last: 0 },
      { from: 6, to: 7, first: 1, last: 1 },
    ];
    expect(playback.phrases).toEqual([{ name: 'a', occurrences: places }]);
    const harp = present(readHarp('D', score.harp.tuning), 'the harp');
    expect(playbackOn(playback, harp).phrases).toEqual(playback.phrases);
    expect(playedPhrases(scoreOf('slot: 1/4\nphrase a: 4 5\n<a> 6 6'))).toEqual({});
  });

  test('are the same of a score that was a file in between', () => {
    const score = scoreOf('phrase a: 4 5 6 7\n<a> <a> | <one:turn> <one:turn>');
    expect(phrasesOf(JSON.parse(JSON.stringify(score)) as Score)).toEqual(phrasesOf(score));
    expect(phrasesOf(score)).toHaveLength(2);
  });
});
