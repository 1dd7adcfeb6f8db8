/** What is reported of a block with several mistakes, and of bars of a wrong length. */
import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../src/notation/parse.ts';
import { ALONE, readBlock } from '../../src/notation/read.ts';

describe('one mistake is not reported as another', () => {
  const codes = (text: string) => readBlock(text).diagnostics.map(({ code }) => code);
  test.each(['meter: fast', 'slot: triplet', 'pickup: some'])(
    'bars are not measured by what cannot be read: %s',
    (line) => {
      expect(codes(`${line}\n1 1 1 | 1`)).toEqual(['header-value']);
    },
  );
  test('notes are not checked against a harp that cannot be read', () => {
    expect(codes("harp: H\n3' =7")).toEqual(['header-value']);
    expect(codes("tuning: none\n3' =7")).toEqual(['header-value']);
    expect(codes("3' =7")).toEqual(['no-bend']);
  });
  test('a form is not measured where anything else is wrong', () => {
    expect(codes('form: twelve-bar\n1 =7 | 1 =7')).toEqual(['form-unfilled']);
    expect(codes('form: twelve-bar\n1 =7')).toEqual(['form-unfilled']);
    expect(codes('form: twelve-bar\n1 =7 | 1 =6')).toEqual(['bar-too-short']);
    expect(codes('form: twelvebar\n1 =7 | 1 =7')).toEqual(['header-value']);
  });
  test('a block that cannot be read at all is not called empty', () => {
    expect(codes('x')).toEqual(['not-a-slot']);
    expect(codes('harp: H')).toEqual(['header-value']);
    expect(codes('harp: C\n')).toEqual(['block-empty']);
  });
  test('a mistake in a phrase that is used twice is reported once', () => {
    expect(codes("phrase a: 3'\n<a> <a> .6")).toEqual(['no-bend']);
    expect(codes('phrase a: 4 x\n<a> <a> .4')).toEqual(['not-a-slot']);
  });
  test('problems are in the order of the text, the shorter first', () => {
    const text = "harp: C\ntempo: x\n(3' 9)[slap] y 11 =5";
    const found = readBlock(text).diagnostics;
    expect(found.map(({ span }) => span.from)).toEqual(found.map(({ span }) => span.from).sort((a, b) => a - b));
    expect(found.map(({ code, span }) => `${code} ${text.slice(span.from, span.to)}`)).toEqual([
      'header-value x',
      "holes-too-far (3' 9)",
      "no-bend 3'",
      'tongue-mark-with-lips slap',
      'not-a-slot y',
      'no-hole 11',
    ]);
  });
});

describe('a first bar that is too short may be a pickup', () => {
  const help = (text: string) => readBlock(text).diagnostics.map(({ code, help: said }) => `${code} ${said ?? ''}`);
  const pickup = 'If these are pickup notes, say so in the header: pickup:';
  test.each([
    ['1 1 1 | 1 =7', `bar-too-short ${pickup} 3`],
    ['slot: 1/4\n{1 1 1} | 1 =3', `bar-too-short ${pickup} 1`],
    ['slot: 1/4\n{1 1}2 1 | 1 =3', `bar-too-short ${pickup} 3`],
    // One bar alone, a later bar, a bar that is too long, a second pickup, and what is no whole number of slots.
    ['1 1 1', 'bar-too-short '],
    ['1 =7 | 1 1 1', 'bar-too-short '],
    ['1 =8 | 1 =7', 'bar-too-long Is a bar line missing?'],
    ['pickup: 2\n1 | 1 =7', 'bar-too-short '],
  ])('%j: %s', (text, expected) => {
    expect(help(text)).toEqual([expected]);
  });
  test('unless it is no whole number of slots', () => {
    const tree = parseBlock('slot: 1/16\nphrase a: 4\n4 =15');
    const context = { ...ALONE, find: () => ({ tree, context: ALONE }) };
    expect(readBlock('slot: 1/4\n1 <l/b:a> | 1 =3', context).diagnostics.map(({ help: said }) => said)).toEqual([
      undefined,
    ]);
  });
});

describe('the last bar, and the bar of a repeat sign', () => {
  const codes = (music: string) => readBlock(`pickup: 1\nslot: 1/4\n4 | ${music}`).diagnostics.map(({ code }) => code);
  test('may be shorter by the pickup, and no other bar', () => {
    expect(codes('4 =3 | 4 =2')).toEqual([]);
    expect(codes('4 =2 :| 4 =3 | 4 =2')).toEqual(['repeat-loses-pickup']);
    expect(codes('4 =3 | 4 =3')).toEqual([]);
    expect(codes('4 =2 | 4 =3')).toEqual(['bar-too-short']);
    expect(codes('4 =3 | 4 =')).toEqual(['bar-too-short']);
    expect(readBlock('slot: 1/4\n4 =3 | 4 =2').diagnostics.map(({ code }) => code)).toEqual(['bar-too-short']);
  });
});
