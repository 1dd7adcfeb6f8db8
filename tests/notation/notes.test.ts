import { describe, expect, test } from 'vitest';
import { readHarp } from '../../src/instrument/harp.ts';
import { tabOfNotes } from '../../src/instrument/playable.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import type { ReadContext } from '../../src/notation/context.ts';
import { type NamedNote, notesOfPhrase, readNotes } from '../../src/notation/notes.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { ALONE } from '../../src/notation/read.ts';
import { present } from '../../src/values/checked.ts';

const shown = (notes: readonly NamedNote[]): string => notes.map((note) => tabOfNotes([note], note.breath)).join(' ');

describe('notes without a rhythm', () => {
  const harp = present(readHarp('C', RICHTER), 'a harp');
  const read = (text: string) => {
    const { bars, diagnostics, strays } = readNotes(text, harp);
    return {
      bars: bars.map(shown),
      problems: diagnostics.map(({ code }) => code),
      strays: strays.map(({ from, to }) => text.slice(from, to)),
    };
  };
  const sound = { problems: [], strays: [] };

  test('are read one by one, a split hole by hole', () => {
    expect(read("-2 -3' (1 4) -6o")).toEqual({ bars: ["-2 -3' 1 4 -6o"], problems: ['no-overbend'], strays: [] });
    expect(read("-2 -3' (1 4) 6o")).toEqual({ bars: ["-2 -3' 1 4 6o"], ...sound });
  });
  test('may stand in bars, of which one may have none', () => {
    expect(read('-2 -3 | . | 4')).toEqual({ bars: ['-2 -3', '', '4'], ...sound });
    expect(read('')).toEqual({ bars: [''], ...sound });
  });
  test('may be on several lines, with the characters of a word processor', () => {
    expect(read('–2\n-3’\r\n4')).toEqual({ bars: ["-2 -3' 4"], ...sound });
  });
  test('are checked against the harp', () => {
    expect(read("-4 -4'' 11").problems).toEqual(['bend-too-deep', 'no-hole']);
  });
  test('are kept apart from other music, and from what is no music', () => {
    expect(read('4 = "C7" x 5')).toEqual({ bars: ['4 5'], problems: ['not-a-slot'], strays: ['=', '"C7"'] });
  });
});

describe('the notes of a phrase', () => {
  const block = parseBlock(
    'phrase call: 4 {-4 5}2 . "C" = (1 4)\nphrase answer: <call> -5\nphrase round: <round> 6\n<call> <answer>',
  );
  const elsewhere: Readonly<Record<string, ReturnType<typeof parseBlock>>> = {
    first: parseBlock('phrase lick: 7 8\n<lick> 9'),
    again: parseBlock('<a/again> 7'),
  };
  const context: ReadContext = {
    ...ALONE,
    find: (_, name) => {
      const tree = elsewhere[name];
      return tree ? { tree, context } : { missing: 'block' };
    },
  };
  const notes = (name: string, tree = block) => {
    const found = notesOfPhrase(tree, name, context.find);
    return found && shown(found);
  };

  test('are those of its groups and splits too', () => {
    expect(notes('call')).toBe('4 -4 5 1 4');
  });
  test('follow what it quotes of its block', () => {
    expect(notes('answer')).toBe('4 -4 5 1 4 -5');
  });
  test('follow what it quotes of another block: a phrase of it, or all of its music', () => {
    expect(notes('p', parseBlock('phrase p: <a/first:lick> 1\n<p>'))).toBe('7 8 1');
    expect(notes('p', parseBlock('phrase p: <a/first> 1\n<p>'))).toBe('7 8 9 1');
  });
  test('are taken once from what quotes itself', () => {
    expect(notes('round')).toBe('6');
    expect(notes('p', parseBlock('phrase p: <a/again> 1\n<p>'))).toBe('7 1');
  });
  test('are none of what is not there', () => {
    expect(notes('p', parseBlock('phrase p: <a/none> <a/first:none> <none> 1\n<p>'))).toBe('1');
    expect(notes('nothing')).toBeUndefined();
  });
});
