import { expect, test } from 'vitest';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { addressesUnder, normalBase } from '../../src/site/addresses.ts';
import {
  bendingHolesInWords,
  harpInWords,
  lessonTempoInWords,
  minutesInWords,
  positionWithName,
} from '../../src/site/in-words.ts';
import { inScript } from '../../src/site/metadata.ts';
import { listInWords } from '../../src/texts/list.ts';
import { type Feel, SHUFFLE, STRAIGHT } from '../../src/time/feel.ts';

test('a length of time is said in hours and minutes', () => {
  expect([1, 25, 60, 61, 200].map(minutesInWords)).toEqual([
    '1 minute',
    '25 minutes',
    '1 hour',
    '1 hour 1 minute',
    '3 hours 20 minutes',
  ]);
});

const FOUR = { beats: 4, unit: 4 } as const;
const TWELVE = { beats: 12, unit: 8 } as const;

test('a tempo counts quarters, or dotted quarters in compound time, and says how it swings', () => {
  const slow = { tempo: 60, meter: TWELVE, feel: SHUFFLE };
  const said = (feel: Feel) => lessonTempoInWords([{ tempo: 92, meter: FOUR, feel }]);
  expect(said(STRAIGHT)).toBe('♩ = 92');
  expect(said({ name: 'ratio', long: 60, short: 40 })).toBe('♩ = 92, swung 60 to 40');
  expect(lessonTempoInWords([slow])).toBe('♩. = 60, shuffle');
  expect(lessonTempoInWords([slow], true)).toBe('60 dotted quarter notes a minute, shuffle');
});

test('a lesson is as fast as its blocks: one tempo, from one to another, or none', () => {
  const blocks = [88, 60.5, 72].map((tempo) => ({ tempo, meter: FOUR, feel: SHUFFLE }));
  expect(lessonTempoInWords(blocks)).toBe('♩ = 60.5 to 88, shuffle');
  expect(lessonTempoInWords(blocks, true)).toBe('60.5 to 88 quarter notes a minute, shuffle');
  const mixed = [...blocks, { tempo: 50, meter: TWELVE, feel: STRAIGHT }];
  expect(lessonTempoInWords(mixed)).toBe('♩ = 60.5 to 88, ♩. = 50');
  expect(lessonTempoInWords(mixed, true)).toBe('60.5 to 88 quarter notes a minute, 50 dotted quarter notes a minute');
  expect(lessonTempoInWords([])).toBe('');
});

test('a harp is named by its key, and by its register and tuning where they are not the usual ones', () => {
  expect(harpInWords({ key: { letter: 'B', alter: -1 }, register: 'standard' }, RICHTER)).toBe('B♭');
  const solo = { ...RICHTER, id: 'solo', title: 'Solo' };
  expect(harpInWords({ key: { letter: 'F', alter: 0 }, register: 'low' }, solo)).toBe('low F (solo)');
});

test('a position goes by its number, and by its name where players have one', () => {
  expect([1, 2, 3, 5].map(positionWithName)).toEqual([
    'first position (straight harp)',
    'second position (cross harp)',
    'third position (slant harp)',
    'fifth position',
  ]);
});

test('a harp says which of its holes bend, and one with valves that none does', () => {
  const harp = { key: { letter: 'C', alter: 0 }, register: 'standard' } as const;
  expect(bendingHolesInWords({ ...harp, tuning: RICHTER })).toBe(
    'On a harp with Richter tuning, these holes bend on the draw: 1, 2, 3, 4 and 6; and these on the blow: 8, 9 and 10.',
  );
  const valved = { ...RICHTER, title: 'Valved', valves: true };
  expect(bendingHolesInWords({ ...harp, tuning: valved })).toBe(
    'No hole of a harp with Valved tuning bends by half steps.',
  );
});

test('a list is joined as one writes it', () => {
  expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(listInWords)).toEqual(['', 'a', 'a and b', 'a, b and c']);
});

test('a base is the same however it was written, and is before every address', () => {
  expect(['', '/', 'a', '/a', 'a/', '/a/b/'].map(normalBase)).toEqual(['/', '/', '/a/', '/a/', '/a/', '/a/b/']);
  const { page, lesson, block, file } = addressesUnder('course');
  expect(page('guide/')).toBe('/course/guide/');
  expect(lesson('blues/häuser')).toBe('/course/lessons/blues/h%C3%A4user/');
  expect(block('first', 'figure')).toBe('/course/lessons/first/#block-figure');
  expect(file('media/a b#c.png')).toBe('/course/media/a%20b%23c.png');
});

test('nothing in a text can end the script element it is in', () => {
  const text = '</script><script>alert(1)</script><!--';
  expect(inScript({ text })).not.toMatch(/[<]/);
  expect(JSON.parse(inScript({ text }))).toEqual({ text });
});
