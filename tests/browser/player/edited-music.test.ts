import { expect, test } from 'vitest';
import { settingsAfterEdit } from '../../../src/browser/player/edited-music.ts';
import { writtenSettings } from '../../../src/schedule/settings.ts';
import type { Playback } from '../../../src/score/playback.ts';
import { playbackFrom } from '../../schedule/some-block.ts';

const before = playbackFrom('slot: 1/4\ntempo: 90\n4 4 4 4 | 5 5 5 5 | 6 6 6 6');
const two = playbackFrom('slot: 1/4\ntempo: 120\n4 4 4 4 | 5 5 5 5');
const written = writtenSettings(before);
const named = (...names: string[]): Playback => ({
  ...before,
  phrases: names.map((name) => ({ name, occurrences: [] })),
});

test('a tempo that was as written follows what is written; one that the student set stays', () => {
  expect(settingsAfterEdit(written, before, two).tempo).toBe(120);
  expect(settingsAfterEdit({ ...written, tempo: 60 }, before, two).tempo).toBe(60);
});

test.each([
  ['stays where its bars are', { first: 0, last: 1 }, { first: 0, last: 1 }],
  ['ends with the last bar', { first: 1, last: 2 }, { first: 1, last: 1 }],
  ['becomes one of the whole block where its bars are gone', { first: 2, last: 2 }, undefined],
])('a loop %s', (_, range, wanted) => {
  expect(settingsAfterEdit({ ...written, loop: true, range }, before, two)).toMatchObject({
    loop: true,
    range: wanted,
  });
});

test('a phrase is found by its name, and forgotten where it is gone', () => {
  const settings = { ...written, layer: { phrase: 0, heard: 'alone' } as const };
  expect(settingsAfterEdit(settings, named('riff'), named('call', 'riff')).layer).toEqual({
    phrase: 1,
    heard: 'alone',
  });
  expect(settingsAfterEdit(settings, named('riff'), named('call')).layer).toBeUndefined();
});

test('the band plays the same variations', () => {
  expect(settingsAfterEdit(written, before, two).seed).toBe(written.seed);
});
