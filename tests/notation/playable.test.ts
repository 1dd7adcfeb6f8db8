/** What is said of notes that a harp or a mouth cannot play, harp by harp. */
import { describe, expect, test } from 'vitest';
import type { Tuning } from '../../src/instrument/tuning.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { ALONE, readBlock } from '../../src/notation/read.ts';
import { SHIPPED_TABLES } from '../../src/notation/setting-values.ts';

/** Holes whose reeds lie 1 to 6 half steps apart, the draw reed the higher one; then the same the other way; then two equal reeds. */
const STEPS: Tuning = {
  id: 'steps',
  title: 'Steps',
  blow: [0, 0, 0, 0, 0, 0, 0, 12, 12],
  draw: [2, 3, 4, 5, 6, 7, 8, 8, 12],
};
const CONTEXT = { ...ALONE, tunings: [...SHIPPED_TABLES.tunings, STEPS] };
const HARPS = { C: 'harp: C', steps: 'tuning: steps', chromatic: 'tuning: solo-chromatic' } as const;

/** Every problem of notes on a harp: its code, message and help. The notes fill a bar. */
const said = (notes: string, harp: string = HARPS.C): string[] =>
  readBlock(`${harp}\n${notes} =7`, CONTEXT).diagnostics.map(
    ({ code, message, help }) => `${code}: ${message}${help === undefined ? '' : ` ${help}`}`,
  );

describe('a bend', () => {
  test.each([
    ["-1''", 'one half step'],
    ["-2'''", 'two half steps'],
    ["-3''''", 'three half steps'],
    ["-4'''''", 'four half steps'],
    ["-5''''''", 'five half steps'],
    ["-6'''''''", '6 half steps'],
  ])('%s is deeper than %s', (note, most) => {
    const [first, ...others] = said(note, HARPS.steps);
    expect(first).toContain(`bend-too-deep: Hole ${note.charAt(1)} draw bends at most ${most} on a C harp (`);
    expect(first).toContain(`Did you mean “${note.slice(0, -1)}”?`);
    expect(others).toEqual([]);
    expect(said(note.slice(0, -1), HARPS.steps)).toEqual([]);
  });
  test('names the harp with its article', () => {
    const harpIn = (harp: string) => / on (an? .*? harp) /.exec(said("-1''", `harp: ${harp}`)[0] ?? '')?.[1];
    expect(['C', 'A', 'Ab', 'E', 'Eb', 'F', 'F#', 'Bb', 'G', 'low F', 'high A'].map(harpIn)).toEqual([
      'a C harp',
      'an A harp',
      'an Ab harp',
      'an E harp',
      'an Eb harp',
      'an F harp',
      'an F# harp',
      'a Bb harp',
      'a G harp',
      'a low F harp',
      'a high A harp',
    ]);
  });
  test('is on the breath of the higher reed', () => {
    expect(said("1'")).toEqual([
      "no-bend: Hole 1 does not bend on the blow: its blow reed C4 is the lower one. Did you mean “-1'”?",
    ]);
    expect(said("3''''")).toEqual([
      "no-bend: Hole 3 does not bend on the blow: its blow reed G4 is the lower one. Did you mean “-3'''”?",
    ]);
    expect(said("-8'")).toEqual([
      "no-bend: Hole 8 does not bend on the draw: its draw reed D6 is the lower one. Did you mean “8'”?",
    ]);
    expect(said("5'")).toEqual([
      'no-bend: Hole 5 does not bend on the blow: its blow reed E5 is the lower one. Did you mean “4o”?',
    ]);
    expect(said("-5'")).toEqual([
      'no-bend: Hole 5 does not bend on the draw: its two reeds, F5 and E5, are too close together. Did you mean “5”?',
    ]);
    expect(said("9'", HARPS.steps)).toEqual([
      "no-bend: Hole 9 does not bend on the blow: its two reeds are both C5. Did you mean “8'”?",
    ]);
  });
  test('is none on valved reeds, which are shaded instead', () => {
    expect(said("-3'", HARPS.chromatic)).toEqual([
      'no-bend: Hole 3 does not bend on the draw: its reeds are valved, so no second reed gives a bend its half steps. Did you mean “-3[dip]”?',
    ]);
  });
});

describe('an overbend', () => {
  test('is on the breath of the lower reed', () => {
    expect(said('6o')).toEqual([]);
    expect(said('-8o')).toEqual([]);
    expect(said('-6o')).toEqual([
      'no-overbend: Hole 6 does not overdraw: its draw reed A5 is the higher one. Did you mean “6o”?',
    ]);
    expect(said('8o')).toEqual([
      'no-overbend: Hole 8 does not overblow: its blow reed E6 is the higher one. Did you mean “-8o”?',
    ]);
    expect(said('9o', HARPS.steps)).toEqual([
      'no-overbend: Hole 9 does not overblow: its two reeds are the same. Did you mean “-8o”?',
    ]);
    expect(said('4o', HARPS.chromatic)).toEqual([
      'no-overbend: Hole 4 does not overblow: its reeds are valved. Did you mean “4”?',
    ]);
  });
});

describe('holes and the slide', () => {
  test('are those the harp has', () => {
    expect(said('10')).toEqual([]);
    expect(said('0')).toEqual(['no-hole: There is no hole 0 on a harp of 10 holes. Did you mean “1”?']);
    expect(said('11')).toEqual(['no-hole: There is no hole 11 on a harp of 10 holes. Did you mean “10”?']);
    expect(said('12*', HARPS.chromatic)).toEqual([]);
    expect(said('13*', HARPS.chromatic)).toEqual([
      'no-hole: There is no hole 13 on a harp of 12 holes. Did you mean “12*”?',
    ]);
    expect(said('4*')).toEqual(['no-slide: This harp has no slide to press.']);
  });
});

describe('several holes at once', () => {
  test('are no more than five apart, each named once, in any order', () => {
    expect(said('(5 1)[tongue]')).toEqual([]);
    expect(said('(6 1)[tongue]')).toEqual([
      'holes-too-far: Holes 1 and 6 are further apart than a mouth covers (5 holes).',
    ]);
    expect(said('(3 2 3)')).toEqual(['hole-twice: Hole 3 appears twice in this chord.']);
  });
  test('with others silent between them need the tongue', () => {
    expect(said('(1 2 3)')).toEqual([]);
    expect(said('-(2 4)')).toEqual([
      'split-with-lips: Lips alone cannot silence hole 3: a split needs the tongue. Write -(2 4)[tongue] or switch with @tongue before it.',
    ]);
    expect(said('(1 2 5)')[0]).toMatch('silence holes 3 and 4:');
    expect(said('@tongue -(2 4)')).toEqual([]);
  });
});

describe('a mark', () => {
  test('that is made with the tongue needs it, and a hole beside the note', () => {
    expect(said('4[slap]')).toEqual([
      'tongue-mark-with-lips: A slap is made with the tongue on the comb, and this note is played with the lips. Write 4[tongue slap] or switch with @tongue before it.',
    ]);
    const nothing = (mark: string) => `nothing-under-tongue: A ${mark} has no hole left to sound here`;
    expect(said('1[tongue slap]')[0]).toContain(nothing('slap'));
    expect(said('(1 2)[tongue pull]')[0]).toContain(nothing('pull'));
    expect(said('(1 4)[tongue slap]')).toEqual([]);
    expect(said('2[tongue slap]')).toEqual([]);
    expect(said('(2 3)[tongue slap]')).toEqual([]);
  });
  test('that shakes is of one note, with a hole of the harp at most two away', () => {
    const shake = (notes: string) => said(notes).map((text) => text.replace('shake-impossible: ', ''));
    expect(shake('(4 5)[shake 6]')).toEqual(['Hole 4 cannot shake with 6: a shake is of one note.']);
    expect(shake('4[shake 4]')).toEqual(['Hole 4 cannot shake with 4: it needs another hole.']);
    expect(shake('4[shake 7]')).toEqual([
      'Hole 4 cannot shake with 7: they are further apart than the head moves in a shake.',
    ]);
    expect(shake('9[shake 11]')).toEqual(['Hole 9 cannot shake with 11: a harp of 10 holes has no hole 11.']);
    expect(shake('1[shake 0]')).toEqual(['Hole 1 cannot shake with 0: a harp of 10 holes has no hole 0.']);
    for (const notes of ['4[shake 6]', '4[shake 2]', '1[shake 3]', '10[shake 9]', '8[shake 10]'])
      expect(shake(notes)).toEqual([]);
  });
});

test('a mistake is shown where it is written, or at the quotation that brings it from another lesson', () => {
  const text = "phrase own: 4 (4 5)[shake 6] 1'\n<own> .5";
  expect(readBlock(text).diagnostics.map(({ span }) => text.slice(span.from, span.to))).toEqual(['shake', "1'"]);
  const tree = parseBlock("phrase turn: 1' 4[shake 9]\n4 =7");
  const context = { ...ALONE, find: () => ({ tree, context: ALONE }) };
  const quoting = '4 4 <riffs/a:turn> .4';
  const found = readBlock(quoting, context).diagnostics;
  expect(found.map(({ code, span }) => `${code} ${quoting.slice(span.from, span.to)}`)).toEqual([
    'no-bend <riffs/a:turn>',
    'shake-impossible <riffs/a:turn>',
  ]);
});

describe('a glide', () => {
  const codes = (music: string) => readBlock(`slot: 1/4\n${music}`).diagnostics.map(({ code }) => code);
  test('goes to a note that follows at once, on the same breath', () => {
    expect(codes("-3'> -3 4 .")).toEqual([]);
    expect(codes("4 4 . -3'> | -3 =3")).toEqual([]);
    expect(codes("-3'> 3 4 .")).toEqual(['glide-turns']);
    expect(codes("-3'> . -3 .")).toEqual(['glide-nowhere']);
    expect(codes('4 4 4 4>')).toEqual(['glide-nowhere']);
    expect(codes("-3' = = -3'[breath]> | = -3 . .")).toEqual(['glide-after-stop']);
    expect(codes("-3'> -3[breath] 4 .")).toEqual([]);
  });
});
